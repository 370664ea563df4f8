#include <algorithm>
#include <array>

#include "hearing/crank_watch.h"

namespace voltfall {
namespace {

// Boundaries between words. A warm eight turns at 140 to 250 rpm (trade practice), so "slow" holds up to there and
// "normal" from a little lower: a fair ear may say either in between.
constexpr double still_rpm = 5.0, slow_to_rpm = 145.0, normal_from_rpm = 120.0, whirr_rpm = 1500.0;
// Teeth that meet nudge a sound engine back at 6 rpm at most; liquid throws it back at 10 to 165 (from the model, every
// resting place of four vehicles).
constexpr double kick_rpm = 8.0;
constexpr double heavy_A = 100.0;
constexpr double howling_rpm = 9500.0;  // no motor comes there by itself: the engine has to drive it
constexpr double late_s = 0.15;         // a sound shoe is home within a twentieth of a second

bool turns(const CrankSeen& seen) {
  return seen.crank_rpm >= still_rpm;
}

bool clicked_once(const CrankSeen& seen) {
  return seen.relay_closings >= 1 && seen.relay_closings <= 2 && !turns(seen);
}

bool lamps_between(const CrankSeen& seen, double from_V, double to_V) {
  return seen.headlamps && seen.lamp_V >= from_V && seen.lamp_V < to_V;
}

constexpr std::array<Observation, 24> observations{{
    {"silence", [](const CrankSeen& seen) { return seen.relay_closings == 0 && !seen.shoe_moved; }},
    {"one_click", clicked_once},
    {"chatter", [](const CrankSeen& seen) { return seen.closings_per_s >= 3.0 && seen.relay_closings >= 3; }},
    {"one_clunk", [](const CrankSeen& seen) { return seen.shoe_moved && clicked_once(seen); }},
    {"hum",
     [](const CrankSeen& seen) { return clicked_once(seen) && !seen.shoe_seated && seen.peak_loop_A > heavy_A; }},
    {"whirr", [](const CrankSeen& seen) { return seen.motor_rpm > whirr_rpm && seen.crank_rpm < 20.0; }},
    {"slow_crank", [](const CrankSeen& seen) { return turns(seen) && seen.crank_rpm < slow_to_rpm; }},
    {"normal_crank",
     [](const CrankSeen& seen) {
       return seen.engine_started || (seen.crank_rpm >= normal_from_rpm && seen.state == CrankState::cranking);
     }},
    {"uneven_crank", [](const CrankSeen& seen) { return turns(seen) && seen.uneven > 1.045; }},
    {"grind", [](const CrankSeen& seen) { return seen.teeth_struck >= 2; }},
    {"thud_and_stop", [](const CrankSeen& seen) { return seen.stopped_dead && seen.peak_loop_A > heavy_A; }},
    {"kicks_back", [](const CrankSeen& seen) { return seen.lowest_rpm < -kick_rpm; }},
    {"fires_without_starting", [](const CrankSeen& seen) { return seen.engine_fired && !seen.engine_started; }},
    {"shoe_drops_out", [](const CrankSeen& seen) { return seen.shoe_drops >= 2; }},
    {"runs_on", [](const CrankSeen& seen) { return seen.ran_on; }},
    {"stays_in_mesh", [](const CrankSeen& seen) { return seen.stayed_in_mesh; }},
    {"late_clunk", [](const CrankSeen& seen) { return seen.seated_at_s && *seen.seated_at_s > late_s; }},
    {"howl", [](const CrankSeen& seen) { return seen.motor_rpm > howling_rpm; }},
    {"cranks_in_gear", [](const CrankSeen& seen) { return seen.in_gear && turns(seen); }},
    {"lamps_bright", [](const CrankSeen& seen) { return lamps_between(seen, 8.0, 99.0); }},
    {"lamps_dim", [](const CrankSeen& seen) { return lamps_between(seen, 3.5, 9.5); }},
    {"lamps_out", [](const CrankSeen& seen) { return lamps_between(seen, 0.0, 4.0); }},
    {"hot_cable", [](const CrankSeen& seen) { return seen.hottest_C > 60.0; }},
    {"smoke", [](const CrankSeen& seen) { return seen.hottest_C > 110.0; }},
}};

}  // namespace

std::span<const Observation> all_observations() {
  return observations;
}

const Observation* observation_named(std::string_view id) {
  const auto* found = std::find_if(observations.begin(), observations.end(),
                                   [&](const Observation& observation) { return observation.id == id; });
  return found == observations.end() ? nullptr : found;
}

}  // namespace voltfall
