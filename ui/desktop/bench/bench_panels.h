#pragma once

#include "desktop/bench/bench_state.h"
#include "desktop/style/rect.h"
#include "vehicles/vehicle_types.h"
#include "walks/walk.h"

namespace voltfall {

/// What a panel of the bench asks the screen for.
struct BenchWishes {
  bool leave = false;
  const VehicleType* vehicle = nullptr;  ///< put another on the bench
  const WalkSight* sight = nullptr;      ///< set this up on it
};

/// Along the top: the three views, lamps, the key.
void draw_bench_bar(const BenchScene& scene, BenchWishes& wishes, const Rect& zone);

/// The sentence over the picture, and what there is to hear.
void draw_answer(const BenchScene& scene, const std::string& answered, const Rect& zone);
/// The one sentence that says what came of the run shown, naming the first thing that failed.
std::string answer_text(const BenchScene& scene);
/// What there is to hear, in words, loudest first; empty when it is quiet.
std::string heard_text(const BenchSound& sound, const Wording& words);

/// Along the bottom: the last minute of runs, and how fast it is gone over.
void draw_time_strip(const BenchScene& scene, const Rect& zone);

/// At the right: which vehicle, and what the column lists. Returns the place for the list.
Rect draw_column_head(const BenchScene& scene, BenchWishes& wishes, const Rect& zone);
/// What can be turned, or what can be broken; above either, what stands other than healthy.
void draw_knobs_or_faults(const BenchScene& scene, Rect place);

/// The hero of Engage: cutaway, teeth, pull against spring, piston.
void draw_engage_view(const BenchScene& scene, const Rect& zone);

}  // namespace voltfall
