#include <algorithm>

#include "desktop/drawings/parts.h"

namespace voltfall {

void draw_fender(const Brush& brush) {
  const ImVec2 panel[] = {{236, 44}, {296, 14}, {768, 14}, {768, 176}, {296, 176}, {236, 150}};
  brush.shape(panel, ink::paper_shade, 1.5F);
  const ImVec2 bead[] = {{244, 140}, {300, 166}, {760, 166}};
  brush.path(bead, 1.0F, ink::hairline);
  for (float x : {318.0F, 562.0F, 750.0F}) brush.disc({x, 158}, 2.5F, ink::paper, 1.0F, ink::edge);
  brush.words({260, 102}, "body");
  // Bulkhead: the wall between engine and dash.
  brush.box({768, 8, 8, 236}, ink::casting_dark, 1.5F);
  brush.hatch({768, 8, 8, 236}, 6, ink::edge);
}

/// The relay's coil comes home by a terminal of its own, through the pedal's switch to the body. Whether it is
/// closed can't be seen from outside.
void draw_ground_switch(const Brush& brush) {
  const ImVec2 from_case[] = {{442, 170}, {442, 212}, {458, 212}};
  const ImVec2 to_body[] = {{482, 212}, {506, 212}, {506, 178}};
  brush.wire(from_case);
  brush.wire(to_body);
  brush.box({454, 204, 32, 16}, ink::instrument, 1.5F);
  brush.line({461, 212}, {479, 207}, 1.5F, ink::on_dark);
  brush.words({396, 212}, "clutch switch");
}

void draw_relay(const Brush& brush, const VehicleLook& look) {
  const ImVec2 bracket[] = {{392, 174}, {400, 156}, {484, 156}, {492, 174}};
  brush.shape(bracket, ink::steel_dark, 1.5F);
  if (look.switch_in_coil_ground) draw_ground_switch(brush);
  brush.nut({412, 166}, 4.5F);
  brush.nut({472, 166}, 4.5F);
  const ImVec2 body[] = {{384, 106}, {394, 96}, {490, 96}, {500, 106}, {500, 158}, {384, 158}};
  brush.shape(body, ink::steel, 2.0F);
  brush.box({398, 114, 88, 36}, ink::blend(ink::steel, ink::steel_dark, 0.5F), 1.0F);
  brush.words({442, 132}, "relay", ink::ink);
  // S and I: small studs on top; the S wire's push-on sits over its stud.
  for (float x : {424.0F, 462.0F}) brush.box({x - 4, 86, 8, 11}, ink::steel_dark, 1.2F);
  const ImVec2 push_on = look.s_wire_on ? ImVec2{424, 78} : ImVec2{lifted_s_wire_end.x, lifted_s_wire_end.y + 6};
  brush.box({push_on.x - 7, push_on.y - 8, 14, 16}, ink::instrument, 1.2F);
  brush.words({424, 105}, "S", ink::ink);
  brush.words({462, 105}, "I", ink::ink);
}

void draw_ignition_coil(const Brush& brush) {
  brush.box({630, 92, 24, 52}, ink::instrument, 1.5F);
  brush.box({634, 84, 16, 9}, ink::steel_dark, 1.2F);
  brush.box({626, 108, 32, 8}, ink::steel, 1.2F);
  brush.words({700, 119}, "ignition coil");
}

void draw_studs(const Brush& brush) {
  // Heavy studs with the cable's lug beside the nut.
  for (float x : {372.0F, 512.0F}) {
    const float way = x < 440 ? -1.0F : 1.0F;
    brush.box({x < 440 ? x - 4 : x - 12, 126, 16, 8}, ink::steel, 1.2F);
    brush.box({std::min(x, x + way * 16), 124, 16, 12}, ink::copper_light, 1.5F);  // the lug's tongue, under the nut
    brush.disc({x + way * 18, 130}, 9.0F, ink::copper_light, 1.8F);
    brush.nut({x, 130}, 7.5F, 0.3F);
  }
  const ImVec2 tongue[] = {{542, 411}, {564, 402}, {568, 416}, {548, 425}};
  brush.shape(tongue, ink::copper_light, 1.5F);
  brush.disc({566, 410}, 9.0F, ink::copper_light, 1.8F);
  brush.nut({544, 418}, 7.5F, 0.2F);
  brush.disc({362, 384}, 9.0F, ink::copper_light, 1.8F);
  brush.nut({362, 384}, 5.5F);
  brush.disc({714, 158}, 7.5F, ink::copper_light, 1.5F);
  brush.nut({714, 158}, 4.5F);
  brush.disc({636, 252}, 7.5F, ink::copper_light, 1.5F);
  brush.nut({636, 252}, 4.5F);
  brush.nut({274, 76}, 5.0F);
  brush.nut({430, 330}, 6.0F);
}

}  // namespace voltfall
