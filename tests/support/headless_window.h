#pragma once

#include <SFML/Window/Keyboard.hpp>
#include <string_view>

#include "desktop/imgui_on_sfml.h"
#include "desktop/screen.h"
#include "desktop/style/draw.h"

namespace voltfall {

/// A whole screen with no window: the same ImGui set-up as the program's, frames of a sixtieth of a second.
class HeadlessWindow {
 public:
  explicit HeadlessWindow(float width = 1280, float height = 720) : context_(ImGui::CreateContext()) {
    set_up_imgui_io();
    ImGuiIO& io = ImGui::GetIO();
    io.DisplaySize = {width, height};
    io.MousePos = {-1000, -1000};
    missing_font_ = load_type(*io.Fonts).value_or("");
    unsigned char* pixels = nullptr;
    int atlas_width = 0, atlas_height = 0;
    io.Fonts->GetTexDataAsAlpha8(&pixels, &atlas_width, &atlas_height);
  }
  ~HeadlessWindow() { ImGui::DestroyContext(context_); }
  HeadlessWindow(const HeadlessWindow&) = delete;
  HeadlessWindow& operator=(const HeadlessWindow&) = delete;

  const std::string& missing_font() const { return missing_font_; }

  void frames(Screen& screen, int count = 1) {
    for (int i = 0; i < count; ++i) {
      ImGui::GetIO().DeltaTime = static_cast<float>(frame_s);
      ImGui::NewFrame();
      screen.frame(frame_s, ImGui::GetIO().DisplaySize);
      ImGui::Render();
    }
  }

  void hold(sf::Keyboard::Key key, bool down) { ImGui::GetIO().KeysDown[key] = down; }

  void press(Screen& screen, sf::Keyboard::Key key) {
    hold(key, true);
    frames(screen);
    hold(key, false);
    frames(screen);
  }

  void type(Screen& screen, std::string_view words) {
    for (const char letter : words) ImGui::GetIO().AddInputCharacter(static_cast<unsigned char>(letter));
    frames(screen);
  }

  void move_mouse(Screen& screen, ImVec2 to) {
    ImGui::GetIO().MousePos = to;
    frames(screen);
  }

  void mouse_button(Screen& screen, bool down) {
    ImGui::GetIO().MouseDown[0] = down;
    frames(screen);
  }

 private:
  static constexpr double frame_s = 1.0 / 60.0;
  ImGuiContext* context_;
  std::string missing_font_;
};

}  // namespace voltfall
