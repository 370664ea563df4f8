#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "desktop/screen.h"
#include "desktop/style/hands.h"
#include "service_sheet/sheet_contents.h"
#include "wording/wording.h"

namespace voltfall {

/// A vehicle's printed sheet over the whole window: the wiring diagram with its test points, limits, torques, cautions.
/// True in the frame the person puts it away (Esc or its key). Needs 1280 x 720.
bool draw_service_sheet(const SheetContents& contents, Hands& hands, const Rect& place);

/// The sheets of all vehicles that jobs are offered on, one at a time; from the start page.
class ServiceSheetScreen : public Screen {
 public:
  /// @param before  makes the screen that follows.
  ServiceSheetScreen(const Wording& words, std::function<std::unique_ptr<Screen>()> before);

  void frame(double frame_s, ImVec2 window_size) override;
  void let_go() override { hands_.let_go(); }

 private:
  void draw_vehicle_keys(Rect row);

  std::function<std::unique_ptr<Screen>()> before_;
  Hands hands_;
  std::vector<SheetContents> sheets_;
  std::size_t shown_ = 0;
};

}  // namespace voltfall
