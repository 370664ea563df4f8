#pragma once

#include <array>
#include <deque>
#include <functional>
#include <optional>
#include <vector>

#include "bench/bench_run.h"
#include "bench/bench_vehicle.h"
#include "bench/mechanism.h"
#include "recording/tape.h"
#include "rig/rig.h"

namespace voltfall {

/// A stretch of the bench's time.
struct BenchStretch {
  double from_s = 0.0, to_s = 0.0;
};

/// A vehicle on which anything may be turned, watched at any speed, and gone back over.
///
/// The bench's time runs only while something happens: from a turn of the key until all is still. So its last minute
/// is a minute of cranking, not of reading. A key turned when all is still finds the vehicle rested and as its knobs
/// say: every run begins alike. What is turned with the key held takes hold at once.
///
/// What is shown may lie behind what has run: scrubbed back, looping, or (slower than real) between two steps.
class OpenBench {
 public:
  static constexpr double kept_s = 60.0;  ///< this much can be gone back over
  using Steps = std::function<void(const Rig&, const Readings&, std::span<const RigEvent>)>;
  /// Asked now and then while steps are worked out: false puts off the rest, and the bench runs late.
  using MayGoOn = std::function<bool()>;

  explicit OpenBench(const RigParameters& healthy, const RestingPlace& rest = {});

  // ---- what is done to the vehicle; each goes to the newest moment first ----
  void hold_key(bool at_start);
  /// Holds the key for so long in the bench's own time, whatever the speed.
  void crank_for(double held_s);
  void switch_headlamps(bool on);
  bool headlamps() const { return controls_.headlamps; }
  /// Spark and fuel: with them the key springs back to on, and an engine that fires runs until they are taken away.
  void switch_ignition(bool on);
  bool ignition() const { return controls_.ignition_live; }
  KeyPosition key() const { return controls_.key; }
  /// Edits the vehicle. Says why there is no such vehicle and leaves it as it was, else returns an empty text.
  std::string change(const std::function<void(BenchVehicle&)>& edit);
  const BenchVehicle& vehicle() const { return vehicle_; }
  /// How many times the vehicle was changed: what is worked out from it is worked out anew with each.
  long changes() const { return changes_; }
  void place_at(const RestingPlace& rest);
  const RestingPlace& resting_place() const { return rest_; }

  // ---- time ----
  double speed() const { return speed_; }  ///< bench seconds a second: 1 is real time
  void set_speed(double speed) { speed_ = speed; }
  bool paused() const { return paused_; }
  void pause(bool paused) { paused_ = paused; }
  /// A step forward or back, and pauses.
  void step_by(int steps);
  /// Shows another moment of what is kept.
  void show(double time_s);
  /// Goes round and round over a stretch; none ends it where it is.
  void loop(std::optional<BenchStretch> over);
  const std::optional<BenchStretch>& looping() const { return loop_; }
  /// Lets `wall_s` go by.
  void advance(double wall_s, const MayGoOn& may_go_on = {});
  /// Called with every step that is worked out.
  void on_step(Steps watcher) { watcher_ = std::move(watcher); }

  // ---- what there is to see ----
  double shown_s() const { return shown_s_; }
  double newest_s() const { return step_time(steps_); }
  double oldest_s() const { return step_time(steps_ > kept_steps ? steps_ - kept_steps : 0); }
  bool at_newest() const { return shown_s_ >= newest_s() - Rig::step_s; }
  bool awake() const { return awake_; }  ///< something goes on, or will when time does
  Mechanism mechanism() const;           ///< at the moment shown
  Mechanism mechanism_at(double time_s) const;
  float signal(std::size_t tape_signal) const;  ///< at the moment shown
  const Tape& tape() const { return tape_; }
  /// The run that the moment shown lies in, or the one before it; null before the first.
  const BenchRun* run_shown() const;
  const std::deque<BenchRun>& runs() const { return runs_; }
  /// From a little before the key to a little after the shoe came home, or the end of its attempt.
  BenchStretch engagement_of(const BenchRun& run) const;
  double pitch_m() const { return vehicle_.parameters().drive.circular_pitch_m; }

 private:
  static constexpr long kept_steps = 300'000;
  static double step_time(long steps) { return static_cast<double>(steps) * Rig::step_s; }
  void go_to_newest();
  void wake();
  void begin_fresh();
  void take_step();
  bool all_still() const;
  KeyPosition released() const { return controls_.ignition_live ? KeyPosition::on : KeyPosition::off; }
  void fall_asleep();

  BenchVehicle vehicle_;
  long changes_ = 0;
  RestingPlace rest_;
  Controls controls_;
  Rig rig_;
  Tape tape_;
  MechanismTape mechanisms_;
  long steps_ = 0;
  std::optional<double> timed_until_s_;
  bool awake_ = false;
  double still_s_ = 0.0;
  std::optional<RunWatch> watch_;
  std::deque<BenchRun> runs_;
  double speed_ = 1.0, shown_s_ = 0.0;
  bool paused_ = false;
  std::optional<BenchStretch> loop_;
  Steps watcher_;
};

}  // namespace voltfall
