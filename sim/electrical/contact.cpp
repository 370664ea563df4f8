#include "electrical/contact.h"

#include <algorithm>
#include <cmath>

namespace voltfall {
namespace {

constexpr double arc_ohm = 1.0e-3;    // slope of the arc's characteristic, small against its volts
constexpr double least_arc_A = 0.43;  // copper's minimum arc current (values.md section 9, from memory)

}  // namespace

double arc_V(double gap_m) {
  return 13.0 + 2500.0 * std::max(gap_m, 0.0);
}

ContactBranch contact_branch(ContactState state, double closed_ohm, double insulation_ohm, double gap_m,
                             double current_A) {
  switch (state) {
    case ContactState::closed:
      return {1.0 / closed_ohm, 0.0};
    case ContactState::arcing: {
      const double against_V = std::copysign(arc_V(gap_m), current_A);
      return {1.0 / arc_ohm, -against_V / arc_ohm};
    }
    case ContactState::open:
      break;
  }
  return {1.0 / insulation_ohm, 0.0};
}

ContactState contact_next(ContactState before, bool touching, double current_A) {
  if (touching) return ContactState::closed;
  if (before == ContactState::closed && std::abs(current_A) > least_arc_A) return ContactState::arcing;
  if (before == ContactState::arcing && std::abs(current_A) > least_arc_A) return ContactState::arcing;
  return ContactState::open;
}

}  // namespace voltfall
