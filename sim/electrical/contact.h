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

}  // namespace voltfall
