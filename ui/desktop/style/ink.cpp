#include "desktop/style/ink.h"

#include <algorithm>
#include <cmath>

namespace voltfall::ink {
namespace {

float linear(float channel) {
  return channel <= 0.04045F ? channel / 12.92F : std::pow((channel + 0.055F) / 1.055F, 2.4F);
}

double luminance(ImU32 colour) {
  const ImVec4 c = ImGui::ColorConvertU32ToFloat4(colour);
  return 0.2126 * linear(c.x) + 0.7152 * linear(c.y) + 0.0722 * linear(c.z);
}

}  // namespace

double contrast(ImU32 one, ImU32 other) {
  const double a = luminance(one) + 0.05, b = luminance(other) + 0.05;
  return std::max(a, b) / std::min(a, b);
}

ImU32 blend(ImU32 from, ImU32 to, float share) {
  const ImVec4 a = ImGui::ColorConvertU32ToFloat4(from), b = ImGui::ColorConvertU32ToFloat4(to);
  const float t = std::clamp(share, 0.0F, 1.0F);
  return ImGui::ColorConvertFloat4ToU32(
      {a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t, a.z + (b.z - a.z) * t, a.w + (b.w - a.w) * t});
}

ImU32 faded(ImU32 colour, float opacity) {
  ImVec4 c = ImGui::ColorConvertU32ToFloat4(colour);
  c.w *= std::clamp(opacity, 0.0F, 1.0F);
  return ImGui::ColorConvertFloat4ToU32(c);
}

}  // namespace voltfall::ink
