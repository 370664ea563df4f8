#include "diagnosis/snapshot.h"

#include <algorithm>
#include <cmath>

#include "hearing/crank_watch.h"
#include "instruments/hung_devices.h"
#include "instruments/thermometer.h"
#include "rig/heat.h"
#include "rig/rig.h"

namespace voltfall {
namespace {

// A crank is over its first surge after a third of a second and steady soon after; a learner reads about here.
constexpr double crank_s = 0.8, window_s = 1.0 / 3.0;
// An engine that turns is listened to until the latest eight beats are all of the even turning.
constexpr double turning_rpm = 20.0, more_beats_s = 0.4;
// With nothing turning, currents have settled within the time constants of the coils.
constexpr double settle_s = 0.03;
constexpr double step_s = foretelling_step_s;
// Enough for what a welded relay does by itself to be seen.
constexpr double unasked_turning_rpm = 1.0;

/// Sums of what a snapshot holds, over the steps of the window.
class Means {
 public:
  void add(const Readings& now) {
    for (std::size_t i = 0; i < test_point_count; ++i) node_V_[i] += now.node_V[i];
    for (std::size_t i = 0; i < heavy_cable_count; ++i) cable_A_[i] += now.cable_A[i];
    loop_A_ += now.loop_A;
    loop_A2_ += now.loop_A * now.loop_A;
    crank_rpm_ += now.crank_rpm;
    ++count_;
  }
  double mean_square_A2() const { return loop_A2_ / count_; }
  Snapshot mean() const {
    Snapshot shot;
    for (std::size_t i = 0; i < test_point_count; ++i) shot.node_V[i] = static_cast<float>(node_V_[i] / count_);
    for (std::size_t i = 0; i < heavy_cable_count; ++i) shot.cable_A[i] = static_cast<float>(cable_A_[i] / count_);
    shot.loop_A = static_cast<float>(loop_A_ / count_);
    shot.crank_rpm = static_cast<float>(crank_rpm_ / count_);
    return shot;
  }

 private:
  std::array<double, test_point_count> node_V_{};
  std::array<double, heavy_cable_count> cable_A_{};
  double loop_A_ = 0.0, loop_A2_ = 0.0, crank_rpm_ = 0.0;
  double count_ = 0.0;
};

std::uint32_t words_true_of(const CrankSeen& seen) {
  const auto observations = all_observations();
  std::uint32_t words = 0;
  for (std::size_t i = 0; i < observations.size(); ++i) {
    if (observations[i].holds(seen)) words |= std::uint32_t{1} << i;
  }
  return words;
}

Controls with_hung(Condition condition, const RigParameters& parameters) {
  Controls controls = controls_in(condition, parameters);
  HungDevices devices;
  if (const auto hung = hung_in(condition)) devices.hang(*hung);
  devices.press_remote(condition == Condition::remote_start);
  devices.add_branches(controls.attached);
  return controls;
}

bool is_feed_of_S(const AttachedBranch& hung) {
  return hung.red == TestPoint::s_terminal || hung.black == TestPoint::s_terminal;
}

void run(Rig& rig, const Controls& controls, double seconds, CrankWatch& watch, Means* means) {
  const long steps = std::lround(seconds / step_s);
  // Fed by the remote switch, the starter sounds as it does with the key at start.
  // Whether lamps burn is the caller's to ask: they are listened for as though they were on throughout.
  Controls heard = controls;
  heard.headlamps = true;
  const bool fed = std::any_of(controls.attached.begin(), controls.attached.end(), is_feed_of_S);
  if (fed) heard.key = KeyPosition::start;
  for (long i = 0; i < steps; ++i) {
    rig.step(controls);
    watch.watch(rig.readings(), rig.take_events(), heard, step_s);
    if (means != nullptr) means->add(rig.readings());
  }
}

/// Lets go of the key: a starter that goes on is heard then.
void let_go(Rig& rig, CrankWatch& watch, const RigParameters& parameters) {
  constexpr double let_go_s = 0.05, listened_s = 0.3;
  const Controls released = controls_in(Condition::rest, parameters);
  run(rig, released, let_go_s, watch, nullptr);
  if (rig.readings().relay_closed) run(rig, released, listened_s, watch, nullptr);
}

int relay_closings(const CrankWatch& watch) {
  return watch.last_crank() ? watch.last_crank()->relay_closings : 0;
}

constexpr std::array<std::string_view, 3> lamp_words{"lamps_bright", "lamps_dim", "lamps_out"};

std::uint32_t bit_of(std::string_view id) {
  return std::uint32_t{1} << (observation_named(id) - all_observations().data());
}

std::uint32_t without_lamps(std::uint32_t words) {
  for (const std::string_view word : lamp_words) words &= ~bit_of(word);
  return words;
}

Snapshot shot_of(const Means& means, const CrankWatch& watch, const Controls& controls) {
  Snapshot shot = means.mean();
  if (watch.last_crank()) shot.words = words_true_of(*watch.last_crank());
  if (!controls.headlamps) shot.words = without_lamps(shot.words);
  return shot;
}

// Past the first surge, and ten seconds are short beside the time a joint takes to cool. Temperatures follow in tenths.
constexpr double warming_s = 0.3;
Rises rises_at_pace_of(const PartTemperatures& before, const PartTemperatures& after, double mean_square_A2,
                       double air_C) {
  constexpr double least_A = 40.0;
  Rises rise_K{};
  if (mean_square_A2 < least_A * least_A) {
    rise_K.fill(-1.0F);
    return rise_K;
  }
  const double longer = warmed_s / warming_s * usual_cranking_A * usual_cranking_A / mean_square_A2;
  PartTemperatures warmed(air_C);
  const auto warm = [&](double& part_C, double before_C, double after_C) { part_C += longer * (after_C - before_C); };
  for (std::size_t i = 0; i < resistor_count; ++i) {
    warm(warmed.resistor_C[i], before.resistor_C[i], after.resistor_C[i]);
  }
  for (const auto part : {&PartTemperatures::drive_C, &PartTemperatures::field_C, &PartTemperatures::armature_C,
                          &PartTemperatures::relay_coil_C, &PartTemperatures::relay_contact_C}) {
    warm(warmed.*part, before.*part, after.*part);
  }
  for (std::size_t i = 0; i < test_point_count; ++i) {
    rise_K[i] = static_cast<float>(temperature_at(static_cast<TestPoint>(i), warmed) - air_C);
  }
  return rise_K;
}

}  // namespace

Cranked cranked(Condition condition, const RigParameters& parameters, const RestingPlace& rest) {
  Rig rig(parameters, rest, {}, step_s);
  const Controls controls = with_hung(condition, parameters);
  CrankWatch watch;
  Means means;
  run(rig, controls, crank_s - window_s, watch, nullptr);
  if (rig.readings().crank_rpm > turning_rpm) run(rig, controls, more_beats_s, watch, nullptr);
  run(rig, controls, window_s - warming_s, watch, &means);
  const PartTemperatures before = rig.state().temperatures;
  run(rig, controls, warming_s, watch, &means);
  const PartTemperatures& after = rig.state().temperatures;
  const Rises rise_K = rises_at_pace_of(before, after, means.mean_square_A2(), parameters.ambient_C);
  Cranked made{{}, rise_K, rig.state(), watch};
  let_go(rig, watch, parameters);
  made.shot = shot_of(means, watch, controls);
  return made;
}

std::optional<Snapshot> cranked_on(const Cranked& from, Condition condition, const RigParameters& parameters) {
  constexpr double change_s = 0.15, shorter_window_s = 0.2;
  Rig rig(from.state, parameters, {}, step_s);
  const Controls controls = with_hung(condition, parameters);
  CrankWatch watch = from.watch;
  Means means;
  run(rig, controls, change_s, watch, nullptr);
  const int closings_before = relay_closings(watch);
  const bool chattered = from.watch.state() == CrankState::chattering;
  run(rig, controls, chattered ? window_s : shorter_window_s, watch, &means);
  const bool still_chatters = relay_closings(watch) - closings_before > 1;
  if (chattered && !still_chatters) return std::nullopt;
  let_go(rig, watch, parameters);
  return shot_of(means, watch, controls);
}

void share_sounds_of_a_near_thing(Snapshot& cranking, Snapshot& with_lamps) {
  const std::uint32_t sounds = without_lamps(cranking.words | with_lamps.words);
  const auto heard = [&](std::string_view id) { return (sounds & bit_of(id)) != 0; };
  if (!heard("chatter") || !heard("slow_crank")) return;
  cranking.words |= sounds;
  with_lamps.words |= sounds;
}

Snapshot not_cranked(Condition condition, const RigParameters& parameters, const RestingPlace& rest) {
  Rig rig(parameters, rest, {}, step_s);
  const Controls controls = with_hung(condition, parameters);
  CrankWatch watch;
  Means means;
  run(rig, controls, settle_s, watch, nullptr);
  const bool turns = std::abs(rig.readings().motor_rpm) > unasked_turning_rpm;
  run(rig, controls, turns ? crank_s : step_s, watch, &means);
  return means.mean();
}

double simulated_ohms(TestPoint red, TestPoint black, const RigParameters& parameters, const RestingPlace& rest) {
  // As the meter's lowest range does it: a small current in, the volts it raises.
  constexpr double test_A = 1.0e-3, meter_ohm = 1.0e7;
  Rig rig(parameters, rest, {}, step_s);
  Controls controls = controls_in(Condition::power_off, parameters);
  controls.attached.push_back({red, black, meter_ohm, test_A});
  const long steps = std::lround(settle_s / step_s);
  for (long i = 0; i < steps; ++i) rig.step(controls);
  const double volts = rig.readings().volts_at(red) - rig.readings().volts_at(black);
  const double meter_share_A = volts / meter_ohm;
  const double through_A = std::max(test_A - meter_share_A, 1.0e-12);
  return std::abs(volts) / through_A;
}

namespace {

// A relay that sticks or is fed astray has the engine turn with the key off.
bool starter_fed_with_key_off(const RigParameters& parameters, const RestingPlace& rest) {
  constexpr double soon_s = 0.1, dt_s = 1.0e-3;
  Rig rig(parameters, rest, {}, dt_s);
  const Controls controls = controls_in(Condition::load_test, parameters);
  for (long i = 0; i < std::lround(soon_s / dt_s); ++i) rig.step(controls);
  return rig.readings().relay_closed;
}

}  // namespace

double simulated_load_V(double load_A, const RigParameters& parameters, const RestingPlace& rest) {
  // Where nothing moves and nothing switches a step of ten milliseconds follows fifteen seconds well enough.
  constexpr double held_s = 15.0;
  const double dt_s = starter_fed_with_key_off(parameters, rest) ? step_s : 1.0e-2;
  Rig rig(parameters, rest, {}, dt_s);
  Controls controls = controls_in(Condition::load_test, parameters);
  LoadTester tester;
  tester.turn_to(load_A);
  const long steps = std::lround(held_s / dt_s);
  double posts_V = 0.0;
  for (long i = 0; i < steps; ++i) {
    controls.attached = {tester.branch(TestPoint::battery_positive_post, TestPoint::negative_post)};
    rig.step(controls);
    const Readings& now = rig.readings();
    posts_V = now.volts_at(TestPoint::battery_positive_post) - now.volts_at(TestPoint::negative_post);
    tester.watch(posts_V, now.time_s, dt_s);
  }
  return posts_V;
}

}  // namespace voltfall
