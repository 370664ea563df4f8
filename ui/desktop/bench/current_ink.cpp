#include "desktop/bench/current_ink.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace voltfall {
namespace {

float share_of_full(double amps, double full_A) {
  return static_cast<float>(std::clamp(std::abs(amps) / full_A, 0.0, 1.0));
}

}  // namespace

ImU32 current_ink(double amps, double full_A) {
  return ink::blend(ink::casting, ink::copper_light, 0.25F + 0.75F * share_of_full(amps, full_A));
}

void mark_current(const Brush& brush, ImVec2 middle, double towards_A, double full_A) {
  if (share_of_full(towards_A, full_A) < 0.01F) return;
  if (towards_A > 0.0) {
    brush.disc(middle, 1.6F, ink::ink, 0);
    return;
  }
  const auto [x, y] = middle;
  brush.line({x - 2.2F, y - 2.2F}, {x + 2.2F, y + 2.2F}, 0.8F);
  brush.line({x - 2.2F, y + 2.2F}, {x + 2.2F, y - 2.2F}, 0.8F);
}

std::string amps_text(float amps) {
  return fmt::format("{:.{}f} A", std::abs(amps) < 0.05F ? 0.0F : amps, std::abs(amps) < 20.0F ? 1 : 0);
}

}  // namespace voltfall
