#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "desktop/rail/paper_column.h"
#include "desktop/rail/rail_parts.h"
#include "desktop/style/draw.h"
#include "faults/catalogue.h"

namespace voltfall {

namespace {

constexpr float box_width = 28;

/// A struck one is crossed in its box and through every line of its name.
void draw_suspect(std::string_view name, bool struck, Rect row) {
  const Rect box{row.x + gap_8, row.y + 5, 16, 16};
  sheet().AddRect(box.min(), box.max(), ink::ink);
  row.cut_left(box_width + gap_4);
  wrapped_text({row.x, row.y + 5}, row.w, Type::small, struck ? ink::ink_soft : ink::ink, name);
  if (!struck) return;
  sheet().AddLine(box.inset(3).min(), box.inset(3).max(), ink::ink, 2.0F);
  sheet().AddLine({box.x + 3, box.bottom() - 3}, {box.right() - 3, box.y + 3}, ink::ink, 2.0F);
  const float line = line_height(Type::small);
  const float width = std::min(row.w, text_width(Type::small, name));
  for (float y = row.y + 5 + line / 2; y < row.bottom(); y += line) {
    rule_across(row.x, row.x + width, y, ink::ink_soft, 1.5F);
  }
}

/// What this vehicle can have: no clutch pedal's switch where there is no pedal.
std::vector<const Fault*> faults_of(const Scenario& scenario) {
  std::vector<const Fault*> faults;
  for (const Fault& fault : all_faults()) {
    if (fault.can_be_on(scenario.healthy)) faults.push_back(&fault);
  }
  return faults;
}

}  // namespace

void draw_suspects(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  const std::vector<const Fault*> faults = faults_of(session.scenario());
  const auto& struck = session.struck_suspects();
  Rect rest = place;
  text_in(rest.cut_top(24), Type::small, ink::ink_soft,
          fmt::format("{} of {} left; press one to strike it out or back in", faults.size() - struck.size(),
                      faults.size()));
  PaperColumn column(state.hands, "suspects", rest);
  for (const Fault* fault : faults) {
    const std::string id = fmt::format("suspect/{}", fault->id);
    const std::string_view name = words.fault(fault->id);
    const float height = wrapped_height(Type::small, name, column.width() - box_width - gap_4) + 10;
    const Rect row = column.row_for(id, height);
    const std::string fault_id(fault->id);
    const bool is_struck = struck.contains(fault_id);
    if (list_row(state.hands, id, row, false)) wishes.act(StrikeSuspect{fault_id, !is_struck});
    draw_suspect(name, is_struck, row);
  }
}

}  // namespace voltfall
