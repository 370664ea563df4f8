#pragma once

#include <imgui.h>

#include <functional>
#include <string>
#include <string_view>

#include "desktop/style/draw.h"
#include "desktop/style/hands.h"

namespace voltfall {

/// A sheet with no window: runs ImGui frames, moves a mouse and presses keys. What is drawn is what `draw` draws.
class HeadlessSheet {
 public:
  HeadlessSheet(Hands& hands, std::function<void()> draw, float width = 1280, float height = 720)
      : hands_(hands), draw_(std::move(draw)), context_(ImGui::CreateContext()) {
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = {width, height};
    io.MousePos = nowhere;
    for (int key = 0; key < ImGuiKey_COUNT; ++key) io.KeyMap[key] = first_named_key + key;
    missing_font_ = load_type(*io.Fonts).value_or("");
    unsigned char* pixels = nullptr;
    int atlas_width = 0, atlas_height = 0;
    io.Fonts->GetTexDataAsAlpha8(&pixels, &atlas_width, &atlas_height);
    frame();
    frame();
  }
  ~HeadlessSheet() { ImGui::DestroyContext(context_); }
  HeadlessSheet(const HeadlessSheet&) = delete;
  HeadlessSheet& operator=(const HeadlessSheet&) = delete;

  /// Empty when every font of the sheet is installed.
  const std::string& missing_font() const { return missing_font_; }

  void frame() {
    ImGuiIO& io = ImGui::GetIO();
    io.DeltaTime = 1.0F / 60.0F;
    ImGui::NewFrame();
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize(io.DisplaySize);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2{0, 0});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0.0F);
    ImGui::Begin("sheet", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoBackground);
    hands_.begin_frame();
    draw_();
    hands_.end_frame();
    ImGui::End();
    ImGui::PopStyleVar(2);
    ImGui::Render();
    io.MouseWheel = 0;
  }

  void press(ImGuiKey key) {
    ImGui::GetIO().KeysDown[first_named_key + key] = true;
    frame();
    ImGui::GetIO().KeysDown[first_named_key + key] = false;
    frame();
  }

  void type(std::string_view words) {
    for (const char letter : words) ImGui::GetIO().AddInputCharacter(static_cast<unsigned char>(letter));
    frame();
    frame();
  }

  /// Walks with Tab until the control has the keyboard. False when no walk of 300 steps reaches it.
  bool tab_to(std::string_view id) {
    for (int step = 0; step < 300 && hands_.focus() != id; ++step) press(ImGuiKey_Tab);
    return hands_.focus() == id;
  }

  /// By keyboard alone: Tab to it, Enter.
  bool enter_on(std::string_view id) {
    if (!tab_to(id)) return false;
    press(ImGuiKey_Enter);
    return true;
  }

  /// By mouse alone: looks for a place of `zone` where pressing takes hold of the control, then clicks there.
  bool click_on(std::string_view id, const Rect& zone) {
    hands_.focus_on("");  // a click on bare paper leaves the focus where it was
    // No control is smaller than 44 x 24.
    for (float y = zone.y + 6; y < zone.bottom(); y += 20) {
      for (float x = zone.x + 12; x < zone.right(); x += 40) {
        if (!takes_hold(id, {x, y})) continue;
        click({x, y});
        return true;
      }
    }
    return false;
  }

  void click(ImVec2 place) {
    ImGuiIO& io = ImGui::GetIO();
    io.MousePos = place;
    frame();
    io.MouseDown[0] = true;
    frame();
    io.MouseDown[0] = false;
    frame();
    io.MousePos = nowhere;
    frame();
  }

  /// Corners of drawn shapes outside `zone` (by more than `slack` pixels) that no clipping hides.
  int corners_outside(const Rect& zone, float slack = 1.0F) const {
    const Rect allowed = zone.inset(-slack);
    int outside = 0;
    const ImDrawData& data = *ImGui::GetDrawData();
    for (int n = 0; n < data.CmdListsCount; ++n) {
      const ImDrawList& list = *data.CmdLists[n];
      for (const ImDrawCmd& command : list.CmdBuffer) {
        const ImVec4 clip = command.ClipRect;
        const bool clipped =
            clip.x >= allowed.x && clip.y >= allowed.y && clip.z <= allowed.right() && clip.w <= allowed.bottom();
        for (unsigned i = 0; !clipped && i < command.ElemCount; ++i) {
          const auto index = list.IdxBuffer[static_cast<int>(command.IdxOffset + i)];
          if (!allowed.holds(list.VtxBuffer[static_cast<int>(command.VtxOffset + index)].pos)) ++outside;
        }
      }
    }
    return outside;
  }

 private:
  static inline const ImVec2 nowhere{-1000, -1000};
  static constexpr int first_named_key = 200;

  /// Presses and drags away before letting go, which does nothing but show what was pressed.
  bool takes_hold(std::string_view id, ImVec2 place) {
    ImGuiIO& io = ImGui::GetIO();
    io.MousePos = place;
    io.MouseDown[0] = true;
    frame();
    const bool held = hands_.focus() == id;
    io.MousePos = nowhere;
    io.MouseDown[0] = false;
    frame();
    return held;
  }

  Hands& hands_;
  std::function<void()> draw_;
  ImGuiContext* context_;
  std::string missing_font_;
};

}  // namespace voltfall
