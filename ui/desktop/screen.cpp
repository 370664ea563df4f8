#include "desktop/screen.h"

#include "desktop/style/ink.h"

namespace voltfall {

void begin_sheet(ImVec2 window_size) {
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize(window_size);
  ImGui::PushStyleColor(ImGuiCol_WindowBg, ink::paper);
  ImGui::Begin("sheet", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                   ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoScrollWithMouse);
}

void end_sheet() {
  ImGui::End();
  ImGui::PopStyleColor();
}

}  // namespace voltfall
