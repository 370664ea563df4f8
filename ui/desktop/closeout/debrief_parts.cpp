#include "desktop/closeout/debrief_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "desktop/closeout/debrief_text.h"
#include "desktop/rail/rail_text.h"
#include "faults/catalogue.h"

namespace voltfall {

namespace {

std::string names_of(const std::vector<std::string>& ids, const Wording& words) {
  std::string names;
  for (const std::string& id : ids) names += (names.empty() ? "" : "; ") + std::string(words.fault(id));
  return names;
}

std::string hidden_names(const Scenario& scenario, const Wording& words) {
  std::vector<std::string> ids;
  for (const HiddenFault& fault : scenario.faults) ids.push_back(fault.id);
  return ids.empty() ? "nothing: a healthy vehicle" : names_of(ids, words);
}

/// A mark, its words in bold, the reason under them.
void reasoned(PaperColumn& column, bool good, std::string_view head, std::string_view figure, std::string_view reason) {
  Rect row = column.row(22);
  const Rect mark = row.cut_left(24);
  if (good) {
    tick_mark({mark.x + 8, mark.centre().y}, 14, ink::ink);
  } else {
    const ImVec2 at{mark.x + 8, mark.centre().y};
    sheet().AddLine({at.x - 5, at.y - 5}, {at.x + 5, at.y + 5}, ink::danger, 2.5F);
    sheet().AddLine({at.x - 5, at.y + 5}, {at.x + 5, at.y - 5}, ink::danger, 2.5F);
  }
  text_in(row.cut_right(text_width(Type::body, figure) + 2), Type::body, ink::ink, figure, Align::right);
  text_in(row, Type::body_bold, ink::ink, head);
  column.paragraph(Type::small, ink::ink_soft, reason);
}

}  // namespace

void draw_verdict(PaperColumn& column, const Session& session, const Wording& words) {
  column.heading("What it was");
  column.paragraph(Type::body, ink::ink, hidden_names(session.scenario(), words));
  if (session.namings().empty()) return column.paragraph(Type::small, ink::ink_soft, "You named nothing.");
  column.paragraph(Type::small, ink::ink_soft, "You named: " + names_of(session.namings().front().fault_ids, words));
  if (session.namings().size() > 1) {
    column.paragraph(Type::small, ink::ink_soft,
                     "At the second attempt: " + names_of(session.namings().back().fault_ids, words));
  }
}

void draw_score(PaperColumn& column, const Score& score, const Wording& words) {
  column.heading("A pass is all four of these and 70 points");
  for (const Gate& gate : score.gates) {
    reasoned(column, gate.held, words.gate(gate.id), gate.held ? "held" : "not held", gate.reason);
  }
  column.heading("Points");
  for (const ScoreLine& line : score.lines) {
    reasoned(column, line.points >= 0.7 * line.out_of, words.score_part(line.part),
             fmt::format("{:.1f} of {:.0f}", line.points, line.out_of), line.reason);
  }
}

void draw_safety(PaperColumn& column, const Session& session, const Wording& words) {
  column.heading("Safety");
  if (session.log().marks().empty()) column.paragraph(Type::body, ink::ink, "Nothing to hold against you.");
  for (const SafetyMark& mark : session.log().marks()) {
    column.paragraph(Type::body, ink::ink, fmt::format("At {:.0f} min: {}", mark.at_minute, words.outcome(mark.id)));
  }
}

void draw_on_a_real_vehicle(PaperColumn& column, const Session& session, const Wording& words) {
  column.heading("Again on a real vehicle, with a supervisor");
  constexpr std::array<std::string_view, 6> steps{
      "Read the maker's procedure for this vehicle first; it and local rules come before this page.",
      "Eyes covered, brake on, park or neutral, ignition and fuel disabled, clear of belts and fan.",
      "Battery at rest, posts: 12.4 V or more. Then posts while cranking.",
      "One lead on each side of a joint; crank 2 s; read the drop with the current beside it.",
      "Walk the whole loop, post to post, until the drops add up to what the posts show.",
      "Repair one thing. Read the same two places again, and crank."};
  for (std::size_t i = 0; i < steps.size(); ++i) {
    column.paragraph(Type::body, ink::ink, fmt::format("{}. {}", i + 1, steps[i]));
  }
  for (const HiddenFault& hidden : session.scenario().faults) {
    const Fault* fault = fault_named(hidden.id);
    if (fault == nullptr || fault->proof.empty()) continue;
    const ProvingPair& pair = fault->proof.front();
    column.paragraph(Type::body, ink::ink,
                     fmt::format("The pair that tells here: {} to {} ({}\u2013{}).", words.point(pair.first),
                                 words.point(pair.second), number_of(pair.first), number_of(pair.second)));
  }
}

void draw_timeline(PaperColumn& column, const Session& session, const Wording& words) {
  column.heading("What you did");
  const std::string& currency = session.scenario().currency;
  for (const LogEntry& entry : session.log().entries()) {
    const std::string what = log_text(entry, words);
    const float height = std::max(20.0F, wrapped_height(Type::small, what, column.width() - 190) + gap_4);
    Rect row = column.row(height);
    rule_across(row.x, row.right(), row.bottom() - 1, ink::hairline);
    Rect first_line = row.cut_right(140);
    first_line.h = 20;
    row.y += 2;
    text_in({row.x, row.y, 42, 16}, Type::figures_small, ink::ink_soft, fmt::format("{:.0f}", entry.at_minute));
    row.cut_left(42);
    wrapped_text(row.min(), row.w - gap_8, Type::small, ink::ink, what);
    if (entry.money > 0) {
      text_in(first_line.cut_right(74), Type::small, ink::ink, fmt::format("{:.0f} {}", entry.money, currency),
              Align::right);
    } else {
      first_line.cut_right(74);
    }
    text_in(first_line, Type::small, ink::ink, fmt::format("{:.1f} min", entry.minutes), Align::right);
  }
  column.gap(gap_4);
  text_in(column.row(22), Type::body_bold, ink::ink,
          fmt::format("in all {:.0f} min, {:.0f} {}", session.job_minutes(), session.money_spent(), currency),
          Align::right);
}

}  // namespace voltfall
