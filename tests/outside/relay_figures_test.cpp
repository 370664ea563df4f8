#include <gtest/gtest.h>

#include <optional>
#include <vector>

#include "electrical/pole.h"
#include "rig/relay.h"
#include "rig/rig.h"
#include "support/cranks.h"

namespace voltfall {
namespace {

// Flux that a steady coil current sets up at this gap: the pole's curve rises steadily, so halving finds it.
double steady_flux_Wb(const RelayParameters& relay, double current_A, double plunger_m) {
  const PoleParameters pole = relay_pole(relay);
  double low_Wb = 0.0, high_Wb = 0.9999 * pole.area_m2 * pole.saturation_T;
  for (int halving = 0; halving < 60; ++halving) {
    const double middle_Wb = 0.5 * (low_Wb + high_Wb);
    const bool short_of_it =
        ampere_turns(pole, middle_Wb, relay_gap_m(relay, plunger_m)) < relay.coil_turns * current_A;
    (short_of_it ? low_Wb : high_Wb) = middle_Wb;
  }
  return low_Wb;
}

// A bench supply turned slowly: the plunger has time to come to rest at each setting.
class SlowSupply {
 public:
  bool closed_at(double coil_V) {
    constexpr double dt_s = 5.0e-5;
    for (int step = 0; step < 2000; ++step) {
      const double flux_Wb = steady_flux_Wb(relay_, coil_V / relay_.coil_ohm, mechanism_.plunger.travel_m);
      mechanism_ = move_relay(relay_, mechanism_, pull_N(relay_pole(relay_), flux_Wb), 0.0, dt_s).after;
    }
    return relay_contacts_touch(relay_, mechanism_);
  }

 private:
  RelayParameters relay_;
  RelayMechanism mechanism_;
};

// values.md section 4 (from memory there): coil 3-5 ohm, pulls in at 6-8 V, drops out at 1-4 V. A 2003 manual's
// solenoid closes at 7.8 V or less.
TEST(RelayCoil, PullsInAndDropsOutAtTheTradesVolts) {
  SlowSupply supply;
  double pull_in_V = 0.0;
  while (pull_in_V < 12.0 && !supply.closed_at(pull_in_V)) pull_in_V += 0.05;
  EXPECT_GE(pull_in_V, 6.0);
  EXPECT_LE(pull_in_V, 8.0);
  double drop_out_V = pull_in_V;
  while (drop_out_V > 0.0 && supply.closed_at(drop_out_V)) drop_out_V -= 0.05;
  EXPECT_GE(drop_out_V, 1.0);
  EXPECT_LE(drop_out_V, 4.0);
  EXPECT_GE(RelayParameters{}.coil_ohm, 3.0);
  EXPECT_LE(RelayParameters{}.coil_ohm, 5.0);
}

std::optional<double> time_of(RigEventKind kind, const std::vector<RigEvent>& events) {
  for (const RigEvent& event : events) {
    if (event.kind == kind) return event.time_s;
  }
  return std::nullopt;
}

// physics.md section 5: closing 15-35 ms and release 10-25 ms in all.
TEST(RelayTimes, AreThoseOfAHeavyPlunger) {
  for (const double ambient_C : {-18.0, 22.0, 60.0}) {
    Rig rig(vehicle_with({{"ambient_C", ambient_C}}));
    Controls controls;
    controls.key = KeyPosition::start;
    for (int step = 0; step < 2500; ++step) rig.step(controls);
    const auto closed_s = time_of(RigEventKind::relay_closed, rig.take_events());
    const double released_at_s = rig.readings().time_s;
    controls.key = KeyPosition::on;
    for (int step = 0; step < 500; ++step) rig.step(controls);
    const auto opened_s = time_of(RigEventKind::relay_opened, rig.take_events());
    ASSERT_TRUE(closed_s && opened_s);
    EXPECT_GE(*closed_s, 0.015) << ambient_C;
    EXPECT_LE(*closed_s, 0.035) << ambient_C;
    EXPECT_GE(*opened_s - released_at_s, 0.010) << ambient_C;
    EXPECT_LE(*opened_s - released_at_s, 0.025) << ambient_C;
  }
}

}  // namespace
}  // namespace voltfall
