#include <cmath>

#include "desktop/drawings/parts.h"

namespace voltfall {
namespace {

void draw_lock(const Brush& brush, KeyPosition key) {
  const ImVec2 centre{884, 76};
  brush.disc(centre, 26, ink::steel, 2.0F);
  brush.disc(centre, 15, ink::steel_dark, 1.5F);
  const float angle = key == KeyPosition::off ? -1.9F : key == KeyPosition::on ? -1.15F : -0.35F;
  const ImVec2 along{std::cos(angle), std::sin(angle)};
  brush.line({centre.x - along.x * 12, centre.y - along.y * 12}, {centre.x + along.x * 12, centre.y + along.y * 12},
             6.0F);
  brush.line(centre, {centre.x + along.x * 22, centre.y + along.y * 22}, 2.0F);
}

/// Seen from the side: the arm swings forward, to the left, as the pad goes down.
void draw_clutch_pedal(const Brush& brush, bool down) {
  const ImVec2 pivot{818, 218};
  const ImVec2 pad = down ? ImVec2{796, 240} : ImVec2{806, 248};
  brush.line(pivot, pad, 5.0F);
  brush.disc(pivot, 3.5F, ink::steel, 1.2F);
  const ImVec2 along{pad.x - pivot.x, pad.y - pivot.y};
  const float length = std::hypot(along.x, along.y);
  const ImVec2 across{-along.y / length * 11, along.x / length * 11};
  brush.line({pad.x - across.x, pad.y - across.y}, {pad.x + across.x, pad.y + across.y}, 5.0F);
  brush.words({896, 252}, down ? "pedal down" : "pedal up");
}

}  // namespace

void draw_dash(const Brush& brush, const VehicleLook& look) {
  brush.box({784, 14, 146, 224}, ink::paper_shade, 1.5F);
  if (look.manual_gearbox) draw_clutch_pedal(brush, look.clutch_pedal_down);
  draw_lock(brush, look.key);
  brush.words({878, 116}, "ignition switch", ink::ink_soft);
  brush.disc({884, 146}, 12, ink::steel, 1.5F);
  brush.disc({884, 146}, 6, look.headlamps ? ink::ink : ink::steel_dark, 1.2F);
  brush.words({876, 170}, "lamp switch");
  const auto glow = static_cast<float>(look.dash_light);
  brush.box({866, 190, 36, 20}, ink::blend(ink::instrument, ink::lamp_lit, glow), 1.5F);
  brush.words({876, 224}, "dash");
  for (float y : {60.0F, 90.0F}) {
    brush.line({846, y}, {860, y < 70 ? 66.0F : 86.0F}, 2.0F);
    brush.disc({846, y}, 4, ink::steel, 1.2F);
  }
  brush.line({848, 146}, {872, 146}, 2.0F);
  brush.disc({848, 146}, 4, ink::steel, 1.2F);
  brush.line({848, 200}, {866, 200}, 2.0F);
  brush.disc({848, 200}, 4, ink::steel, 1.2F);
}

void draw_control_wires(const Brush& brush, const VehicleLook& look) {
  // Behind the fender, so dashed: lamp feed from the dash to the front.
  brush.dashed({768, 40}, {240, 40}, 1.5F, ink::edge);
  const ImVec2 lamp_in_dash[] = {{848, 146}, {796, 146}, {796, 40}, {776, 40}};
  brush.wire(lamp_in_dash);
  // Fusible link off the relay's battery stud, then the feed to the ignition switch.
  const ImVec2 link[] = {{372, 126}, {356, 106}, {356, 30}};
  brush.wire(link);
  brush.box({351, 58, 10, 26}, ink::copper, 1.2F);
  const ImVec2 feed[] = {{356, 30}, {356, 24}, {806, 24}, {806, 60}, {846, 60}};
  brush.wire(feed);
  brush.box({762, 17, 18, 14}, ink::instrument, 1.2F);  // bulkhead plug
  // Start output down to the neutral switch, and from there back up to S.
  const ImVec2 start[] = {{846, 90}, {786, 90}, {786, 282}, {798, 290}};
  brush.wire(start);
  const ImVec2 end = look.s_wire_on ? ImVec2{424, 74} : lifted_s_wire_end;
  const ImVec2 s_wire[] = {{812, 288}, {812, 254}, {758, 254}, {758, 54}, {end.x, 54}, end};
  brush.wire(s_wire);
  const ImVec2 i_wire[] = {{462, 90}, {462, 68}, {642, 68}, {642, 86}};
  brush.wire(i_wire);
  const ImVec2 alternator[] = {{288, 232}, {288, 204}, {352, 204}, {352, 152}, {368, 136}};
  brush.wire(alternator);
}

}  // namespace voltfall
