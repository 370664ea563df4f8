#include <fmt/format.h>

#include "desktop/rail/rail.h"
#include "desktop/rail/rail_text.h"
#include "desktop/style/draw.h"

namespace voltfall {

namespace {

constexpr float label_width = 72, vehicle_height = 36;

void block_row(Rect row, std::string_view label, std::string_view value, bool last = false) {
  if (!last) rule_across(row.x, row.right(), row.bottom() - 1, ink::hairline);
  row = row.inset(gap_16, 0);
  text_in(row.cut_left(label_width), Type::small, ink::ink_soft, label);
  text_in(row, Type::small, ink::ink, value);
}

}  // namespace

void draw_title_block(const Session& session, const Rect& zone) {
  const Scenario& scenario = session.scenario();
  ruled_zone(zone);
  Rect rows = zone.inset(1, 2);
  const float height = (rows.h - vehicle_height) / 5;
  block_row(rows.cut_top(height), "job", scenario.title);
  Rect vehicle = rows.cut_top(vehicle_height);
  rule_across(vehicle.x, vehicle.right(), vehicle.bottom() - 1, ink::hairline);
  vehicle = vehicle.inset(gap_16, 2);
  wrapped_text(vehicle.min(), label_width, Type::small, ink::ink_soft, "vehicle");
  vehicle.cut_left(label_width);
  wrapped_text(vehicle.min(), vehicle.w, Type::small, ink::ink, scenario.vehicle_name);
  block_row(rows.cut_top(height), "made safe", made_safe_text(session));
  block_row(rows.cut_top(height), "limits", limits_text(scenario));
  block_row(rows.cut_top(height), "cranking", "2 s if it does not turn; 15 s, rest 2 min");
  block_row(rows, "sheet", fmt::format("{}, revision 1", scenario.sheet), true);
}

}  // namespace voltfall
