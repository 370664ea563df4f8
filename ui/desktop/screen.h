#pragma once

#include <imgui.h>

#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "desktop/style/rect.h"

namespace voltfall {

/// A piece of the sheet that is to be saved as it is drawn.
struct PictureWanted {
  Rect zone;
  std::filesystem::path file;  ///< .png
};

/// What fills the window: the start page, the Bay, a walk.
class Screen {
 public:
  virtual ~Screen() = default;

  /// Draws one frame over the whole window, inside an ImGui frame, and acts on what the person did in it.
  virtual void frame(double frame_s, ImVec2 window_size) = 0;

  /// The window lost focus: nothing stays held, least of all the key.
  virtual void let_go() {}

  /// Nothing moves by itself: the window may draw less often until somebody does something.
  virtual bool is_still() const { return true; }

  /// Set for one frame: the window saves it and says in `saved` what went wrong, an empty text for nothing.
  std::optional<PictureWanted> picture_wanted;
  virtual void saved(const PictureWanted& /*picture*/, const std::string& /*problem*/) {}

  /// Set when this screen has ended: the one that follows, or null to end the program.
  std::optional<std::unique_ptr<Screen>> next;
};

/// Opens and closes the one ImGui window that is the sheet.
void begin_sheet(ImVec2 window_size);
void end_sheet();

}  // namespace voltfall
