#include "desktop/drawings/parts.h"

namespace voltfall {

namespace {

/// Case, nose and flange, moved and shrunk together: bolted up, or lying on the bench.
void draw_starter_body(const Brush& brush) {
  brush.box({632, 420, 18, 72}, ink::steel_dark, 1.5F);  // the flange whose face is the way home
  const ImVec2 nose[] = {{600, 430}, {632, 424}, {632, 488}, {600, 482}};
  brush.shape(nose, ink::blend(ink::steel, ink::steel_dark, 0.4F), 1.5F);
  const ImVec2 hump[] = {{484, 424}, {494, 412}, {528, 412}, {536, 424}};
  brush.shape(hump, ink::steel_dark, 1.5F);  // cover over the movable pole shoe
  brush.box({470, 424, 130, 66}, ink::steel, 2.0F);
  brush.box({470, 424, 16, 66}, ink::steel_dark, 1.2F);
  brush.line({590, 424}, {590, 490}, 1.0F);
  for (float y : {434.0F, 480.0F}) brush.nut({641, y}, 4.5F);
  brush.disc({516, 462}, 4, ink::steel_dark, 1.0F);
  brush.box({536, 420, 16, 6}, ink::instrument, 1.0F);  // insulator under the terminal
}

/// Its place at the engine, empty: a dashed outline and the bare face with its bolt holes.
void draw_starter_gone(const Brush& brush) {
  brush.box({640, 420, 10, 72}, ink::paper, 1.5F);
  for (float y : {434.0F, 480.0F}) brush.disc({645, y}, 3.0F, ink::ink, 0);
  const ImVec2 corners[] = {{470, 424}, {632, 424}, {632, 490}, {470, 490}};
  for (std::size_t i = 0; i < 4; ++i) brush.dashed(corners[i], corners[(i + 1) % 4], 1.2F, ink::edge);
  brush.words({578, 462}, "starter off");
}

void draw_bench(const Brush& brush) {
  brush.box({778, 424, 150, 5}, ink::casting_dark, 1.5F);
  for (const float x : {788.0F, 918.0F}) brush.line({x, 429}, {x, 436}, 3.0F);
  // The starter at half its size, its feet on the bench.
  const Projection half = brush.projection().shrunk({560, 492}, {852, 424}, 0.40F);
  draw_starter_body(Brush(half));
}

}  // namespace

void draw_starter(const Brush& brush, const VehicleLook& look) {
  if (look.starter_off) {
    draw_starter_gone(brush);
    return draw_bench(brush);
  }
  draw_starter_body(brush);
  brush.words({560, 462}, "starter", ink::ink);
}

}  // namespace voltfall
