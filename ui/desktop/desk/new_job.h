#pragma once

#include <functional>
#include <memory>
#include <string>

#include "desktop/screen.h"
#include "desktop/style/draw.h"
#include "scenario/write_scenario.h"
#include "wording/wording.h"

namespace voltfall {

/// A scenario begun from the catalogue of faults: vehicle, fault, severity, level and kit are chosen, the driver's
/// words typed or taken as the fault has them; saved as a file that a person reads, and opened on the Desk.
class NewJobScreen : public Screen {
 public:
  /// @param before  makes the screen that follows when the person leaves the Desk
  NewJobScreen(const Wording& words, std::function<std::unique_ptr<Screen>()> before);
  void frame(double frame_s, ImVec2 window_size) override;
  void let_go() override { hands_.let_go(); }

  const NewScenario& made() const { return made_; }

 private:
  void draw_vehicle(Rect place);
  void draw_faults(Rect place);
  void draw_severity(Rect place);
  void draw_kit(Rect place);
  void draw_texts(Rect place);
  void choose(const Fault& fault);
  void save();

  const Wording& words_;
  std::function<std::unique_ptr<Screen>()> before_;
  Hands hands_;
  NewScenario made_;
  std::string search_, problem_;
};

/// A file name out of a title: small letters, digits and underscores; one that is not taken in the folder.
std::filesystem::path free_file_for(const std::string& title, const std::filesystem::path& folder);

}  // namespace voltfall
