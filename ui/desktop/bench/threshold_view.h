#pragma once

#include <memory>
#include <string>

#include "desktop/bench/bench_state.h"
#include "desktop/bench/sweep_work.h"
#include "desktop/style/rect.h"
#include "walks/walk.h"

namespace voltfall {

/// The hero of Threshold: one knob turned through its range, or two against each other, and where engagement is lost.
class ThresholdView {
 public:
  void draw(const BenchScene& scene, const Rect& zone);
  /// Sets the sweep of one knob as a walk wants it.
  void aim(const WalkSweep& sweep);
  /// What came of the latest sweep or map, in one sentence; empty while there is none.
  std::string answer(const Wording& words) const;
  /// Null while there is none.
  const SweepWork::Result* result() const { return work_ != nullptr ? work_->result() : nullptr; }
  bool at_work() const { return work_ != nullptr && work_->result() == nullptr; }
  /// The vehicle is another one: what was worked out is of no use.
  void forget();

 private:
  struct Axis {
    const BenchKnob* knob;
    double from_share = 0.0, to_share = 1.0;
    Knob turned() const;
  };
  void draw_orders(const BenchScene& scene, Rect place);
  void draw_axis_choice(const BenchScene& scene, std::string_view id, Axis& axis, Rect place);
  void draw_work(const BenchScene& scene, const Rect& row);
  void draw_sweep(const BenchScene& scene, const SweepWork::Result& result, const Rect& place) const;
  void draw_map(const BenchScene& scene, const EngagementMap& map, const Rect& place) const;
  void begin(const BenchScene& scene);

  Axis across_{bench_knob_named("mounting_face")}, up_{bench_knob_named("charge")};
  bool map_wanted_ = false, up_in_hand_ = false;  ///< which axis a name taken goes to
  std::unique_ptr<SweepWork> work_;
  Axis worked_across_ = across_, worked_up_ = up_;  ///< of the work shown
};

}  // namespace voltfall
