#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "desktop/rail/figures.h"
#include "desktop/rail/paper_column.h"
#include "desktop/rail/rail_parts.h"
#include "desktop/rail/rail_text.h"
#include "desktop/style/draw.h"
#include "faults/catalogue.h"

namespace voltfall {

namespace {

constexpr float row_height = 28;
constexpr std::string_view nothing_yet =
    "Nothing noted yet. Put both probes on points, hold C to crank, and press N while the meter shows a figure. "
    "Only what is noted here counts as evidence.";

/// Brings the fall line to the readings this finding belongs to.
void show_in_fall_line(const Session& session, BayState& state, std::size_t finding) {
  const auto sets = fall_sets(session.findings());
  for (std::size_t i = 0; i < sets.size(); ++i) {
    const auto& members = sets[i].members;
    if (std::find(members.begin(), members.end(), finding) != members.end()) state.fall_set = i;
  }
}

void draw_list(const Session& session, const Wording& words, BayState& state, const Rect& place) {
  PaperColumn column(state.hands, "findings", place);
  const auto& findings = session.findings();
  if (findings.empty()) column.paragraph(Type::body, ink::ink_soft, nothing_yet);
  for (std::size_t i = 0; i < findings.size(); ++i) {
    const std::string id = fmt::format("finding/{}", findings[i].number);
    const Rect row = column.row_for(id, row_height);
    const bool selected = state.finding_selected == findings[i].number;
    if (list_row(state.hands, id, row, selected)) {
      state.finding_selected = findings[i].number;
      show_in_fall_line(session, state, i);
    }
    draw_finding(findings[i], words, row);
  }
}

/// A row whose words may take two lines. True when it is pressed.
bool draw_words_row(Hands& hands, PaperColumn& column, const std::string& id, std::string_view words) {
  constexpr float above = 6;
  const float width = column.width() - 2 * gap_8;
  const float height = std::max(row_height, wrapped_height(Type::small, words, width) + 2 * above);
  const Rect row = column.row_for(id, height);
  const bool pressed = list_row(hands, id, row, false);
  wrapped_text({row.x + gap_8, row.y + above}, width, Type::small, ink::ink, words);
  return pressed;
}

/// What was heard or seen at the last crank, to be noted in the trade's own words.
void draw_observations(const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  PaperColumn column(state.hands, "observations", place);
  column.paragraph(Type::small, ink::ink_soft, "At the last crank I heard or saw:");
  for (const Observation& observation : all_observations()) {
    const std::string id = fmt::format("observation/{}", observation.id);
    if (!draw_words_row(state.hands, column, id, words.observation(observation.id))) continue;
    wishes.act(NoteObservation{std::string(observation.id)});
    state.noting = Noting::nothing;
  }
}

constexpr std::array<std::string_view, 5> handling_ids{"look", "wiggle", "press", "tap", "feel"};

Action handled(Handling how, std::string_view component) {
  const std::string id(component);
  switch (how) {
    case Handling::look:
      return LookClosely{id};
    case Handling::wiggle:
      return DisturbPart{Touch::wiggle, id};
    case Handling::press:
      return DisturbPart{Touch::press, id};
    case Handling::tap:
      return DisturbPart{Touch::tap, id};
    case Handling::feel:
      break;
  }
  return FeelPart{id};
}

/// What the hands do, then which part they do it to. The list stays open after a wiggle: one goes along the harness.
void draw_parts(const Wording& words, BayState& state, Wishes& wishes, Rect place) {
  std::vector<std::string_view> labels;
  labels.reserve(handling_ids.size());
  for (const std::string_view id : handling_ids) labels.push_back(words.touch(id));
  KeyLook key;
  key.type = Type::small;
  state.handling = static_cast<Handling>(
      choice_keys(state.hands, "handle", place.cut_top(26), labels, static_cast<int>(state.handling), key));
  place.cut_top(gap_4);
  PaperColumn column(state.hands, "looks", place);
  for (const std::string_view component : all_components()) {
    const std::string id = fmt::format("look/{}", component);
    if (!draw_words_row(state.hands, column, id, words.component(component))) continue;
    wishes.act(handled(state.handling, component));
    if (state.handling == Handling::look) state.noting = Noting::nothing;
  }
}

void draw_keys(BayState& state, const Rect& row) {
  KeyLook look;
  look.type = Type::small;
  look.selected = state.noting == Noting::heard_or_seen;
  if (push_key(state.hands, "findings/observe", cell_of(row, 0, 2, gap_4), "Heard or seen", look)) {
    state.noting = look.selected ? Noting::nothing : Noting::heard_or_seen;
  }
  look.selected = state.noting == Noting::look;
  if (push_key(state.hands, "findings/look", cell_of(row, 1, 2, gap_4), "Look or touch", look)) {
    state.noting = look.selected ? Noting::nothing : Noting::look;
  }
}

}  // namespace

void draw_finding(const Finding& finding, const Wording& words, const Rect& row_place) {
  Rect row = row_place.inset(gap_8, 0);
  text_in(row.cut_left(24), Type::small, ink::ink_soft, std::to_string(finding.number));
  if (!has_figure(finding)) return text_in(row, Type::small, ink::ink, where_text(finding, words));
  if (!finding.is_reading()) {
    figures_in(row.cut_right(76), Type::figures_small, ink::ink, figure_text(finding));
    row.cut_right(gap_8);
    return text_in(row, Type::small, ink::ink, where_text(finding, words));
  }
  text_in(row.cut_right(52), Type::small, ink::ink_soft, amps_text(finding.loop_A), Align::right);
  figures_in(row.cut_right(76), Type::figures_small, ink::ink, figure_text(finding));
  row.cut_right(gap_8);
  std::string state(words.state(finding.state));
  if (finding.after_repair) state += " \u2713";
  const float state_width = std::min(row.w / 2, 68.0F);
  text_in(row.cut_right(state_width), Type::small, ink::ink_soft, state);
  text_in(row, finding.clamp ? Type::small : Type::figures_small, ink::ink, where_text(finding, words));
}

void draw_findings(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  Rect rest = place;
  const Rect keys = rest.cut_bottom(28);
  rest.cut_bottom(gap_4);
  switch (state.noting) {
    case Noting::nothing:
      draw_list(session, words, state, rest);
      break;
    case Noting::heard_or_seen:
      draw_observations(words, state, wishes, rest);
      break;
    case Noting::look:
      draw_parts(words, state, wishes, rest);
      break;
  }
  draw_keys(state, keys);
}

}  // namespace voltfall
