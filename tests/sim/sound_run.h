#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>
#include <vector>

#include "sound/sound_maker.h"
#include "support/cranks.h"

namespace voltfall {

/// A vehicle that is cranked and listened to. Sample i of `samples` is what sounds `i * speed / samples_per_s` after
/// the first step.
class SoundRun {
 public:
  struct Moment {
    double time_s, crank_rad_per_s, armature_rad_per_s;
  };

  explicit SoundRun(const RigParameters& parameters, const LoadParameters& load = {})
      : rig(parameters, {}, load), maker(parameters), controls(ready_to_crank(parameters)) {}

  void turn_key(KeyPosition to, double for_s) {
    controls.key = to;
    for (long step = 0; step < std::lround(for_s / Rig::step_s); ++step) {
      follow_a_step();
      while (ahead_s() > in_store_s + block_s()) play();
      for (const HeardSound& heard : maker.heard()) kinds.insert(heard.kind);
    }
  }
  /// What is still in store.
  void play_out() {
    while (ahead_s() > block_s()) play();
  }
  void follow_a_step() {
    rig.step(controls);
    const std::vector<RigEvent> told = rig.take_events();
    events.insert(events.end(), told.begin(), told.end());
    maker.follow(sound_state_of(rig.state(), rig.readings(), rig.parameters()), told);
    const RigState& state = rig.state();
    moments.push_back({rig.readings().time_s, state.engine.crank_rad_per_s, state.drive_train.armature_rad_per_s});
  }
  void play() {
    const std::size_t played = samples.size();
    samples.resize(played + block);
    maker.render({samples.data() + played, block}, speed);
  }

  /// Mean over a stretch of the model's time, of what the rig itself says.
  double mean_rpm(double from_s, double to_s, double Moment::*rad_per_s) const {
    double sum = 0.0, count = 0.0;
    for (const Moment& moment : moments) {
      if (moment.time_s < from_s || moment.time_s >= to_s) continue;
      sum += moment.*rad_per_s;
      count += 1.0;
    }
    return sum / count * 30.0 / std::numbers::pi;
  }
  int told(RigEventKind kind, double from_s, double to_s) const {
    return static_cast<int>(std::count_if(events.begin(), events.end(), [=](const RigEvent& event) {
      return event.kind == kind && event.time_s >= from_s && event.time_s < to_s;
    }));
  }
  std::size_t sample_at(double time_s) const {
    return static_cast<std::size_t>(std::max(0.0, time_s - Rig::step_s) * SoundMaker::samples_per_s / speed);
  }
  double loudest(double from_s, double to_s) const {
    float most = 0.0F;
    for (std::size_t i = sample_at(from_s); i < sample_at(to_s); ++i) most = std::max(most, std::abs(samples[i]));
    return most;
  }

  Rig rig;
  SoundMaker maker;
  Controls controls;
  double speed = 1.0;
  std::size_t block = 480;
  std::vector<float> samples;
  std::vector<RigEvent> events;
  std::vector<Moment> moments;
  std::set<SoundKind> kinds;  ///< that captions have told of

 private:
  static constexpr double in_store_s = 0.06;  // more than the maker wants before it begins

  double block_s() const { return static_cast<double>(block) * speed / SoundMaker::samples_per_s; }
  double ahead_s() const {
    return rig.readings().time_s - static_cast<double>(samples.size()) * speed / SoundMaker::samples_per_s;
  }
};

inline SoundRun healthy_crank(double for_s) {
  SoundRun run({});
  run.turn_key(KeyPosition::start, for_s);
  run.play_out();
  return run;
}

/// Welded relay, fuel and spark on: it starts and the starter stays in.
inline SoundRun run_on(double for_s) {
  SoundRun run(vehicle_with({{"relay.contact_welded", 1.0}}));
  run.controls.ignition_live = true;
  run.turn_key(KeyPosition::start, 2.5);
  run.turn_key(KeyPosition::on, for_s - 2.5);
  run.play_out();
  return run;
}

/// The key is turned to start again with the engine running.
inline SoundRun restart_of_a_running_engine() {
  SoundRun run({});
  run.controls.ignition_live = true;
  run.turn_key(KeyPosition::start, 1.5);
  run.turn_key(KeyPosition::on, 1.5);
  run.turn_key(KeyPosition::start, 0.5);
  run.turn_key(KeyPosition::on, 0.5);
  run.play_out();
  return run;
}

}  // namespace voltfall
