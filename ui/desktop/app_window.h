#pragma once

#include <SFML/Window.hpp>
#include <fstream>
#include <memory>
#include <optional>
#include <string>

#include "desktop/imgui_on_sfml.h"
#include "desktop/screen.h"

namespace voltfall {

/// The program's window and its loop.
class AppWindow {
 public:
  AppWindow();

  /// What keeps the window from being used, in words for standard error; empty when all is well.
  std::optional<std::string> problem() const;

  /// Shows screens, one after another, until one ends the program or the window is closed. Returns the exit code.
  int run(std::unique_ptr<Screen> screen);

 private:
  bool take_events(Screen& screen);  ///< true when there were any
  void draw_frame(Screen& screen, double frame_s);

  sf::Window window_;
  std::optional<ImguiOnSfml> imgui_;
  std::ofstream frame_times_;  ///< open for tests/speed/frames.sh alone: each frame's milliseconds go there
};

}  // namespace voltfall
