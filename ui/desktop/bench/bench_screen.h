#pragma once

#include <functional>
#include <memory>

#include "desktop/bench/bench_panels.h"
#include "desktop/bench/bench_sound.h"
#include "desktop/bench/threshold_view.h"
#include "desktop/bench/volts_view.h"
#include "desktop/bench/walk_panel.h"
#include "desktop/screen.h"

namespace voltfall {

/// The vehicle that is put on the bench.
struct BenchSubject {
  std::string name;
  RigParameters healthy;
  RestingPlace rest;
  std::map<std::string, Limit> limits;
};
BenchSubject subject_of(const VehicleType& type);
BenchSubject subject_of(const Scenario& scenario);

/// The open bench: a vehicle with nothing hidden, anything to turn, time to go back over.
class BenchScreen : public Screen {
 public:
  /// @param before  the screen to go back to
  BenchScreen(BenchSubject subject, const Wording& words, std::function<std::unique_ptr<Screen>()> before);

  void frame(double frame_s, ImVec2 window_size) override;
  void let_go() override;
  void show(BenchView view) { sheet_.view = view; }
  void show(BenchColumn column) { sheet_.column = column; }
  const Hands& hands() const { return sheet_.hands; }
  BenchView view() const { return sheet_.view; }
  const WalkPanel& walks() const { return walks_; }
  const ThresholdView& threshold() const { return threshold_; }
  OpenBench& bench() { return *bench_; }
  std::string answer();  ///< the sentence over the picture
  std::string heard() const { return heard_text(*sound_, words_); }
  bool is_still() const override { return !bench_->awake() && !bench_->looping() && !threshold_.at_work(); }
  void saved(const PictureWanted& picture, const std::string& problem) override {
    volts_.tape().saved(picture, problem, words_);
  }

 private:
  BenchScene scene();
  void pass_time(double frame_s);
  std::string answer(const BenchScene& scene) const;
  void draw_view(const BenchScene& scene, const Rect& zone);
  void draw_keys(const Rect& picture);
  void turn_key_as_held();
  void put_on_bench(BenchSubject subject);
  void set_up(const WalkSight& sight);
  void carry_out(const BenchWishes& wishes);
  void see_held();

  const Wording& words_;
  std::function<std::unique_ptr<Screen>()> before_;
  BenchSubject subject_;
  std::unique_ptr<OpenBench> bench_;
  std::unique_ptr<BenchSound> sound_;
  VoltsView volts_;
  ThresholdView threshold_;
  WalkPanel walks_;
  BenchSheet sheet_;
  HeldShoe held_;
  long held_of_ = -1;  ///< the change of the vehicle that `held_` was worked out for
  bool held_with_lamps_ = false;
  bool was_held_ = false;
};

}  // namespace voltfall
