#pragma once

#include <imgui.h>

#include <SFML/Window.hpp>
#include <bitset>
#include <filesystem>
#include <optional>
#include <string>

#include "desktop/style/rect.h"

namespace voltfall {

/// Joins an SFML window and ImGui: events in, pictures out. Lives as long as the window; one at a time.
class ImguiOnSfml {
 public:
  /// Makes the ImGui context on the window's OpenGL context and loads the fonts. `problem()` says what went wrong.
  explicit ImguiOnSfml(sf::Window& window);
  ~ImguiOnSfml();
  ImguiOnSfml(const ImguiOnSfml&) = delete;
  ImguiOnSfml& operator=(const ImguiOnSfml&) = delete;

  const std::optional<std::string>& problem() const { return problem_; }

  /// Feeds one event. A key or button pressed and released between two frames still counts as pressed for one frame.
  void take(const sf::Event& event);

  void begin_frame(double frame_s);
  void end_frame();
  /// Saves a zone of the sheet as it was last drawn, whole or not at all. Returns what went wrong, else an empty text.
  std::string save_picture(const Rect& zone, const std::filesystem::path& file) const;

 private:
  void let_go();
  ImVec2 on_sheet(int x, int y) const;

  sf::Window& window_;
  float shrunk_ = 1.0F;  // pixels of the window to one of the sheet
  std::optional<std::string> problem_;
  std::bitset<sf::Keyboard::KeyCount> fresh_, up_next_frame_;
  std::bitset<3> button_fresh_, button_up_next_frame_;
};

/// Sets ImGui up for our sheet (key order, no ini file, no own cursor). Also for tests without a window.
void set_up_imgui_io();

}  // namespace voltfall
