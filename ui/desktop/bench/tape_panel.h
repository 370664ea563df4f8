#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "desktop/bench/bench_state.h"
#include "desktop/screen.h"
#include "desktop/style/rect.h"

namespace voltfall {

/// The bench's tape: any of its signals, each in a lane of its own, over time from the key. The wheel zooms at the
/// mouse; a drag moves the nearer of two cursors; another run can be laid over, and differences are read off.
class TapePanel {
 public:
  void draw(const BenchScene& scene, const Rect& place);
  /// Asked for a picture of the lanes; cleared by whoever takes it, who then says how it went.
  std::optional<PictureWanted> picture_wanted;
  void saved(const PictureWanted& picture, const std::string& problem, const Wording& words);

 private:
  struct Stretch {
    double from_s = -0.02, to_s = 0.4;  ///< after the key
  };
  void draw_head(const BenchScene& scene, const BenchRun* run, Rect row);
  void draw_chooser(const BenchScene& scene, const Rect& place);
  void draw_lanes(const BenchScene& scene, const BenchRun& run, Rect place);
  void draw_lane(const BenchScene& scene, const BenchRun& run, std::size_t signal, const Rect& place);
  void draw_cursors(const BenchScene& scene, const Rect& lanes);
  void turn_by_mouse(const BenchScene& scene, const Rect& lanes);
  void save_csv(const BenchScene& scene, const BenchRun& run);
  const BenchRun* other_run(const BenchScene& scene, const BenchRun& run) const;
  float x_at(double after_s, const Rect& lanes) const;
  double time_at(float x, const Rect& lanes) const;

  std::vector<std::size_t> chosen_{*tape_signal_named("loop"), *tape_signal_named("starter_terminal"),
                                   *tape_signal_named("shoe_travel"), *tape_signal_named("crank_speed")};
  Stretch view_;
  std::array<double, 2> cursors_s_{0.05, 0.2};
  int cursor_ = 0;
  bool dragging_ = false, over_ = false;
  std::string told_;
  Rect lanes_{}, lanes_with_words_{};
};

}  // namespace voltfall
