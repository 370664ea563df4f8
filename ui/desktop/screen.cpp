#include "desktop/screen.h"

namespace voltfall {

// The paper itself is what the window is cleared to: drawn once more, it would cost a machine without graphics a third
// of a frame.
void begin_sheet(ImVec2 window_size) {
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize(window_size);
  ImGui::Begin("sheet", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                   ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoBringToFrontOnFocus |
                   ImGuiWindowFlags_NoScrollWithMouse);
}

void end_sheet() {
  ImGui::End();
}

}  // namespace voltfall
