#pragma once

#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "bench/bench_knobs.h"
#include "faults/catalogue.h"
#include "rig/settable.h"
#include "vehicles/vehicle_types.h"
#include "walks/walk_measures.h"

namespace voltfall {

// A walk is a guided experiment on the open bench, five minutes long: predict with a reason, see it happen, explain it
// in a line, then meet the same idea on another vehicle. Which prediction is right is never written in its file: it is
// computed from the model.

enum class WalkGroup { circuit, starter };
enum class WalkPageKind { predict, see, explain, unlike };
enum class WalkView { engage, volts, threshold };  ///< the three views of the bench

/// In the order of the enumerations, as files write them.
std::string_view id_of(WalkGroup group);
std::string_view id_of(WalkPageKind kind);
std::string_view id_of(WalkView view);

/// Where something stands in its file, 1-based.
struct WalkLine {
  int line = 0, column = 0;
};

struct WalkSetting {
  const Settable* settable;
  double value;
};

struct WalkFault {
  const Fault* fault;
  double severity;
};

/// What is done to a healthy vehicle before its key is turned: the settings, then the faults.
struct WalkSetup {
  std::vector<WalkSetting> settings;
  std::vector<WalkFault> faults;
};

RigParameters set_up(const VehicleType& vehicle, const WalkSetup& setup);

/// How a vehicle is tried.
struct WalkTrial {
  const VehicleType* vehicle = nullptr;
  WalkSetup setup;
  bool headlamps = false;
  bool key_at_start = true;  ///< else it is off: a reading at rest
  double key_s = 1.5;        ///< the trial lasts so long
};

/// What is measured, with the places of the two leads where the measure has leads.
struct WalkMeasured {
  const WalkMeasure* measure = nullptr;
  std::optional<TestPoint> red, black;
};

/// A question may ask for a figure as such, or for what it is beside another trial's.
enum class WalkAgainst { nothing, ratio, difference };
std::string_view id_of(WalkAgainst against);

struct WalkChoice {
  std::string words;
  /// Right for a figure from here up to, but not with, the other end.
  double from = -std::numeric_limits<double>::infinity(), to = std::numeric_limits<double>::infinity();
  std::vector<std::string_view> is;  ///< or right for any of these words of the measure
};

struct WalkReason {
  std::string words;
  bool right = false;
};

struct WalkQuestion {
  std::string words;
  WalkTrial trial;
  WalkMeasured measured;
  WalkAgainst against = WalkAgainst::nothing;
  WalkTrial compare_trial;  ///< with `against`: the same vehicle otherwise set up
  WalkMeasured compare_measured;
  std::vector<WalkChoice> choices;
  std::vector<WalkReason> reasons;  ///< exactly one right; none on an unlike item
  double margin = 0.1;              ///< a figure nearer to its band's edge than this share of the larger is refused
  WalkLine at;
};

/// A knob of the bench turned from end to end, for the threshold view; in the units of its settable.
struct WalkSweep {
  const BenchKnob* knob = nullptr;
  double from = 0.0, to = 0.0;
};

/// One thing to do and to look at on the bench.
struct WalkSight {
  std::string words;
  WalkView view = WalkView::volts;
  WalkTrial trial;
  std::optional<WalkSweep> sweep;  ///< only in the threshold view
  WalkLine at;
};

struct WalkPage {
  WalkPageKind kind = WalkPageKind::predict;
  std::optional<WalkQuestion> question{};  ///< predict and unlike
  std::optional<WalkQuestion> repeat{};    ///< predict: the same idea with other numbers, for whoever was wrong
  std::vector<WalkSight> sights{};         ///< see
  std::string ask{}, ours{};               ///< explain: what to explain in a line, and our line
};

struct BenchWalk {
  std::string id;  ///< the file's name without its ending
  std::string file;
  int number = 0;
  WalkGroup group = WalkGroup::circuit;
  std::string title;
  double minutes = 5.0;
  std::string intro;
  std::vector<WalkPage> pages;  ///< predict, see, explain, unlike

  const WalkPage& page(WalkPageKind kind) const { return pages[static_cast<std::size_t>(kind)]; }
};

}  // namespace voltfall
