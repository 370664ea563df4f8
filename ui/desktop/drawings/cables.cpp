#include "desktop/drawings/parts.h"

namespace voltfall {
namespace {

constexpr std::array<Brush::Stroke, 4> heavy{
    {{15, ink::paper}, {12, ink::ink}, {9, ink::copper}, {2, ink::copper_light}}};
constexpr std::array<Brush::Stroke, 3> braid{{{11, ink::paper}, {8, ink::ink}, {5, ink::copper_light}}};

void draw_strap(const Brush& brush, StrapSeen seen) {
  const auto run = run_of(HeavyCable::body_strap);
  if (seen == StrapSeen::fitted) brush.run(run, braid);
  if (seen == StrapSeen::hidden) {
    // A hidden line: short pieces of the same run.
    for (std::size_t i = 0; i + 1 < run.size(); ++i) brush.dashed(run[i], run[i + 1], 1.5F, ink::edge);
  }
}

}  // namespace

void draw_heavy_cables(const Brush& brush, const VehicleLook& look) {
  const auto throw_px = static_cast<float>(look.shake * 2.0) * brush.projection().scale();
  draw_strap(brush, look.strap);
  std::array<ImVec2, 10> negative;
  const auto run = run_of(HeavyCable::negative);
  std::copy(run.begin(), run.end(), negative.begin());
  // Taken off its post, the clamp and the first bend of its cable hang clear above it.
  if (!look.battery_connected) negative[0].y -= 26, negative[1].y -= 26;
  brush.run(negative, heavy, {throw_px, throw_px * 0.4F});
  brush.run(run_of(HeavyCable::positive), heavy, {throw_px * 0.5F, -throw_px});
  brush.run(run_of(HeavyCable::starter), heavy, {-throw_px, throw_px * 0.5F});
}

}  // namespace voltfall
