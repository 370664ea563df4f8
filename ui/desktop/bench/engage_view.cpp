#include "desktop/bench/bench_panels.h"
#include "desktop/bench/pole_section.h"
#include "desktop/bench/pull_plot.h"
#include "desktop/bench/starter_section.h"
#include "desktop/bench/tooth_view.h"
#include "desktop/style/draw.h"

namespace voltfall {

void draw_engage_view(const BenchScene& scene, const Rect& zone) {
  ruled_border(zone);
  const Mechanism now = scene.bench.mechanism();
  Rect place = zone.inset(gap_16, gap_8);
  Rect low = place.cut_bottom(place.h * 0.42F);
  place.cut_bottom(gap_8);
  draw_tooth_view(scene, now, place.cut_right(place.w * 0.28F));
  place.cut_right(gap_16);
  draw_starter_section(now, scene.bench.vehicle().parameters(), scene.words, place);
  rule_across(zone.x, zone.right(), low.y - 4, ink::hairline);
  draw_piston_view(scene, now, low.cut_right(low.w * 0.13F));
  low.cut_right(gap_24);
  draw_pole_section(now, scene.bench.vehicle().parameters(), scene.words, low.cut_right(low.w * 0.24F));
  low.cut_right(gap_24);
  draw_pull_plot(scene, now, low);
}

}  // namespace voltfall
