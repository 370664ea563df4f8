#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "desktop/screen.h"
#include "desktop/start/open_job.h"
#include "desktop/style/hands.h"
#include "wording/wording.h"

namespace voltfall {

/// The first page, in the words of what a person will do: learn on a healthy car, work a fault, go on where they were.
/// The cautions stand beside it.
class StartPage : public Screen {
 public:
  explicit StartPage(const Wording& words);

  void frame(double frame_s, ImVec2 window_size) override;
  void let_go() override { hands_.let_go(); }

 private:
  void draw_head(const Rect& place);
  void draw_choices(Rect place);
  void draw_job(const JobOffer& job, const Rect& row);
  void draw_cautions(Rect place);
  void open(OpenedJob opened);
  void begin_walk();

  const Wording& words_;
  Hands hands_;
  std::vector<JobOffer> jobs_;
  std::optional<UnfinishedJob> unfinished_;
  std::string problem_;
};

/// The Bay on an opened job, and the start page after it.
std::unique_ptr<Screen> bay_for(OpenedJob opened, const Wording& words);

}  // namespace voltfall
