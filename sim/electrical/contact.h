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
  double burnt_J = 0.0;     ///< by arcs, and not yet told in the contact's resistance
  double this_arc_J = 0.0;  ///< by the arc that burns now, or the last one
  double weld_N = 0.0;      ///< pull that the present weld bears
};

/// Pull in newtons that tears a weld left by metal which shut on an arc of this energy: part of the energy melts a bead
/// on the contact's face and it freezes to the other side.
double weld_strength_N(double arc_J);

}  // namespace voltfall
