#include "electrical/contact.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace voltfall {
namespace {

constexpr double arc_ohm = 1.0e-3;    // slope of the arc's characteristic, small against its volts
constexpr double least_arc_A = 0.43;  // copper's minimum arc current (values.md section 9, from memory)
constexpr double lorenz_V2_per_K2 = 2.44e-8;
constexpr double melting_K = 1356.0;  // copper
constexpr double copper_per_K = 0.00393;

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

double hot_spot_K(double body_K, double constriction_V) {
  return std::sqrt(body_K * body_K + constriction_V * constriction_V / (4.0 * lorenz_V2_per_K2));
}

Constriction constriction_after(const Constriction& before, double body_C, double current_A) {
  // Resistance over its cold value: two thirds of the spot's rise, because the current's path is cooler further out.
  // A body that has come to the melting point itself has no spot hotter than that left.
  const double body_K = std::min(body_C + 273.15, 0.999 * melting_K);
  const double volts = std::abs(current_A) * before.ohm;
  const auto hot = [&](double spot_K) { return 1.0 + 2.0 / 3.0 * copper_per_K * (spot_K - body_K); };
  const double spot_K = hot_spot_K(body_K, volts);
  const double melting_V = std::sqrt(4.0 * lorenz_V2_per_K2 * (melting_K * melting_K - body_K * body_K));
  const double wanted_ohm = before.cold_ohm * hot(std::min(spot_K, melting_K));
  if (std::abs(current_A) * wanted_ohm <= melting_V) return {before.cold_ohm, wanted_ohm};
  const double ohm = melting_V / std::abs(current_A);
  return {ohm / hot(melting_K), ohm};
}

double face_heat_kept(double span_s) {
  constexpr double cooling_s = 15.0;
  return std::exp(-span_s / cooling_s);
}

double weld_strength_N(double warm_J) {
  // A bead as a half ball; annealed copper full of pores. Share and strength from memory.
  constexpr double share_into_bead = 0.3, J_per_m3_to_melt = 6.4e9, strength_Pa = 2.0e7;
  const double bead_m3 = share_into_bead * std::max(warm_J - harmless_face_heat_J, 0.0) / J_per_m3_to_melt;
  const double radius_m = std::cbrt(1.5 * bead_m3 / std::numbers::pi);
  return strength_Pa * std::numbers::pi * radius_m * radius_m;
}

}  // namespace voltfall
