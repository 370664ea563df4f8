#pragma once

#include <SFML/Window.hpp>
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

  sf::Window window_;
  std::optional<ImguiOnSfml> imgui_;
};

}  // namespace voltfall
