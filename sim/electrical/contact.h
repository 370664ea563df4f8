#pragma once

namespace voltfall {

/// A pair of contacts that part under current.
enum class ContactState { open, closed, arcing };

/// What a contact is for one solve: a Norton pair, see Network.
struct ContactBranch {
  double siemens;
  double source_A;
};

/// A drawn arc takes about 13 V plus 2.5 V per millimetre of gap against the current (design document section 1;
/// values.md section 9 for the copper minimum of 13 V, from memory).
double arc_V(double gap_m);

ContactBranch contact_branch(ContactState state, double closed_ohm, double insulation_ohm, double gap_m,
                             double current_A);

/// The state for the coming step: metal that touches conducts; parting metal that carries current draws an arc.
ContactState contact_next(ContactState before, bool touching, double current_A);

/// Kelvins of the hottest spot of a metallic constriction whose body is at `body_K`, from the volts across it alone:
///     T^2 = T0^2 + U^2 / (4 L),    L = 2.44e-8 V^2/K^2      (values.md section 9)
double hot_spot_K(double body_K, double constriction_V);

/// Where two bits of metal touch: current crowds into a spot which the volts across it heat. Copper that gets to its
/// melting point gives way, the spot grows and the volts stay there, at some 0.41 V.
struct Constriction {
  double
      cold_ohm;  ///< of the present spot at the body's temperature; a molten spot has grown for as long as it is shut
  double ohm;    ///< as it is now, hot
};
/// The constriction once this current has flowed for a moment. The spot is microns wide: it follows at once.
Constriction constriction_after(const Constriction& before, double body_C, double current_A);

/// What arcs have done to a pair of contacts.
struct ContactWear {
  double burnt_J = 0.0;  ///< by arcs, and not yet told in the contact's resistance
  double warm_J = 0.0;   ///< of the latest arcs' heat, what is still in the contacts' faces
  double weld_N = 0.0;   ///< pull that the present weld bears
};

/// Share of the faces' heat that is left after so long; they pass it on to the studs within some 15 s (from memory).
double face_heat_kept(double span_s);

/// Pull in newtons that tears a weld left by faces which shut with this much arc heat in them: the inrush melts a bead
/// on hot faces and it freezes to the other side. What one arc or a few leave, the metal behind takes up: only those of
/// a long chatter add up to a weld.
double weld_strength_N(double warm_J);
inline constexpr double harmless_face_heat_J = 150.0;  ///< up to here nothing welds; from memory

}  // namespace voltfall
