#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "hearing/crank_watch.h"
#include "rig/parameters.h"
#include "rig/readings.h"

namespace voltfall {

/// The first thing on the way from key to turning engine that did not happen, in the order in which they must.
enum class FirstFailing : std::uint8_t {
  not_cranked,
  under_way,          ///< the answer is not in yet
  let_go_too_soon,    ///< and never will be
  relay_stays_open,   ///< its contact never closed
  chatter,            ///< the relay opens and closes
  no_current,         ///< it closed, and next to nothing flowed to the starter
  shoe_stays_home,    ///< current flows, the pull does not beat spring and hinge
  pull_fades,         ///< the motor runs up, its current falls, and the shoe goes back before it was home
  teeth_not_reached,  ///< the shoe set off and stopped short of the ring gear
  teeth_abut,         ///< tooth stands on tooth
  shoe_not_home,      ///< teeth are partly in, the shoe does not come home
  shoe_lets_go,       ///< it came home and fell out again with the key held
  clutch_slips,       ///< engaged, the motor runs away from the engine
  stalls,             ///< engaged, and nothing turns
  labours,            ///< engaged, and turns too slowly to start
  nothing             ///< it engaged and cranks
};
std::string_view id_of(FirstFailing failing);

/// One turn of the key on the bench, until all is still again.
struct BenchRun {
  double from_s = 0.0;
  std::optional<double> to_s;  ///< none while it goes on
  CrankSeen seen;
  std::optional<double> relay_closed_s, shoe_moved_s, teeth_met_s, seated_s;  ///< after `from_s`
  bool abutted = false;
  double farthest_m = 0.0;  ///< the shoe's way
  double highest_S_V = 0.0;
  double crank_rpm = 0.0, loop_A = 0.0, starter_V = 0.0;  ///< means over the latest half second with the key held
  FirstFailing failing = FirstFailing::under_way;
};

/// Follows one run step by step.
class RunWatch {
 public:
  RunWatch(double from_s, const RigParameters& parameters);

  void follow(const Readings& now, std::span<const RigEvent> events, const Controls& controls, double dt_s);
  void end(double time_s);
  const BenchRun& run() const { return run_; }

 private:
  struct Sums {
    double rpm = 0.0, A = 0.0, V = 0.0, s = 0.0;
  };
  void note(const RigEvent& event, double after_s);
  void add_up(const Readings& now, double dt_s);
  void take_means();
  FirstFailing judge() const;
  FirstFailing judge_shoe() const;

  double travel_m_, teeth_meet_at_;
  BenchRun run_;
  CrankWatch watch_;
  Sums filling_, before_;  ///< quarters of a second
};

}  // namespace voltfall
