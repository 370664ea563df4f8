#include "bench/pull.h"

#include <cmath>

#include "rig/circuit.h"
#include "rig/crank_run.h"
#include "rig/settable.h"

namespace voltfall {

double movable_ampere_turns(const StarterParameters& starter, double drive_A, double hold_in_A) {
  return starter.flux_fraction * starter.coil_turns * drive_A + starter.hold_in_turns * hold_in_A;
}

double standing_pull_N(const RigParameters& parameters, double wanted, double shoe_travel_m) {
  const PoleParameters pole = starter_pole(parameters.starter);
  const double gap_m = movable_pole_gap_m(parameters, shoe_travel_m);
  // Ampere-turns grow with flux without end as the iron saturates, so the flux that needs these lies below saturation.
  double low_Wb = 0.0, high_Wb = pole.saturation_T * pole.area_m2;
  constexpr int halvings = 40;  // to a billionth of saturation
  for (int i = 0; i < halvings; ++i) {
    const double middle_Wb = 0.5 * (low_Wb + high_Wb);
    (ampere_turns(pole, middle_Wb, gap_m) < std::abs(wanted) ? low_Wb : high_Wb) = middle_Wb;
  }
  return pull_N(pole, low_Wb);
}

double pull_needed_N(const ShoeParameters& shoe, double shoe_travel_m) {
  return shoe_spring_N(shoe, shoe_travel_m) + shoe.hinge_friction_N;
}

HeldShoe hold_shoe(const RigParameters& parameters, bool headlamps) {
  RigParameters parameters_held = parameters;
  parameters_held.shoe.hinge_friction_N = settable_at("shoe.hinge_friction_N")->highest;
  Rig rig(parameters_held);
  Controls controls = ready_to_crank(parameters_held);
  controls.key = KeyPosition::start;
  controls.headlamps = headlamps;
  // Long past the relay's closing, the iron's lag and the armature's run-up, well before anything warms.
  constexpr double stands_after_s = 0.35;
  HeldShoe held;
  double highest_Wb = 0.0;
  for (double t_s = 0.0; t_s < stands_after_s; t_s += Rig::step_s) {
    rig.step(controls);
    if (rig.state().fluxes.movable_Wb <= highest_Wb) continue;
    highest_Wb = rig.state().fluxes.movable_Wb;
    held.surge_A = rig.state().currents.drive_A;
  }
  held.failed = !rig.readings().relay_closed;
  held.surge_ampere_turns =
      ampere_turns(starter_pole(parameters.starter), highest_Wb, movable_pole_gap_m(parameters, 0.0));
  held.stalled_A = rig.state().currents.drive_A;
  held.stalled_ampere_turns = movable_ampere_turns(parameters.starter, held.stalled_A, rig.state().currents.hold_in_A);
  return held;
}

PullShortfall worst_place(const RigParameters& parameters, double turns) {
  constexpr int places = 200;  // of the shoe's way: 0.04 mm apart
  PullShortfall worst;
  for (int i = 0; i <= places; ++i) {
    const double travel_m = parameters.shoe.travel_m * i / places;
    const PullShortfall here{travel_m, pull_needed_N(parameters.shoe, travel_m),
                             standing_pull_N(parameters, turns, travel_m)};
    if (i == 0 || here.short_by_N() > worst.short_by_N()) worst = here;
  }
  return worst;
}

}  // namespace voltfall
