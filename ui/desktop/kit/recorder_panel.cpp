#include "desktop/kit/recorder_panel.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "desktop/kit/recorder_traces.h"
#include "desktop/style/draw.h"

namespace voltfall {
namespace {

constexpr float left_width = 236, table_width = 212, line = 26;

std::string input_text(const RecorderInput& input, const Wording& words) {
  if (input.round) return std::string(words.cable(*input.round));
  if (!input.red || !input.black) return "open";
  return fmt::format("{} against {}", number_of(*input.red), number_of(*input.black));
}

std::string_view unit_of(const RecorderInput& input) {
  return input.round ? "A" : "V";
}

bool small_key(BayState& state, std::string_view id, const Rect& where, std::string_view label, bool selected = false,
               bool enabled = true) {
  KeyLook look;
  look.type = Type::small;
  look.selected = selected;
  look.enabled = enabled;
  return push_key(state.hands, id, where, label, look);
}

void draw_channel(const Session& session, const Wording& words, BayState& state, Rect row, int channel) {
  const bool clipping = state.typed == Pick::channel && state.recorder.channel == channel;
  text_in(row.cut_left(24), Type::body_bold, ink::ink, std::to_string(channel));
  if (small_key(state, fmt::format("recorder/clip/{}", channel), row.cut_right(64), clipping ? "leave it" : "clip",
                clipping)) {
    state.typed = clipping ? Pick::nothing : Pick::channel;
    state.recorder.channel = channel;
    state.typed_words.clear();
    state.first_point.reset();
  }
  row.cut_right(gap_4);
  text_in(row, Type::small, ink::ink, input_text(session.recorder().input(channel), words));
}

void draw_level(const Session& session, BayState& state, Rect row) {
  RecorderView& view = state.recorder;
  const bool amps = session.recorder().input(1).round.has_value();
  const double step = amps ? 20.0 : 0.5;
  text_in(row.cut_left(40), Type::small, ink::ink_soft, "level");
  if (small_key(state, "recorder/slope", row.cut_right(64), view.rising ? "rising" : "falling")) {
    view.rising = !view.rising;
  }
  row.cut_right(gap_4);
  if (small_key(state, "recorder/lower", row.cut_left(28), "\u2212")) view.level -= step;
  if (small_key(state, "recorder/higher", row.cut_right(28), "+")) view.level += step;
  text_in(row, Type::small, ink::ink, fmt::format("{:.1f} {}", view.level, amps ? "A" : "V"), Align::centre);
}

void draw_span(BayState& state, Rect row) {
  constexpr std::array spans_s{0.2, 1.0, 2.0, 5.0};
  text_in(row.cut_left(40), Type::small, ink::ink_soft, "span");
  for (std::size_t i = 0; i < spans_s.size(); ++i) {
    const Rect cell = cell_of(row, static_cast<int>(i), static_cast<int>(spans_s.size()), gap_4);
    const std::string label = fmt::format("{:g} s", spans_s.at(i));
    if (small_key(state, "recorder/span/" + label, cell, label, state.recorder.span_s == spans_s.at(i))) {
      state.recorder.span_s = spans_s.at(i);
    }
  }
}

std::string state_text(const Session& session) {
  const Recorder& recorder = session.recorder();
  switch (recorder.state()) {
    case Recorder::State::idle:
      return "clip channel 1 somewhere, set level and span, arm it, then crank";
    case Recorder::State::armed:
      return fmt::format("waits for channel 1 to {} through {:.1f} {}", recorder.rising() ? "rise" : "fall",
                         recorder.level(), unit_of(recorder.input(1)));
    case Recorder::State::triggered:
      return "recording";
    case Recorder::State::captured:
      return "captured: drag the cursors";
  }
  return "";
}

void draw_title(const Session& session, BayState& state, Wishes& wishes, Rect row) {
  text_in(row.cut_left(76), Type::body_bold, ink::ink, "Recorder");
  const bool armed = session.recorder().state() == Recorder::State::armed;
  if (small_key(state, "recorder/close", row.cut_right(72), "fall line")) state.recorder_open = false;
  row.cut_right(gap_8);
  if (small_key(state, "recorder/note_panel", row.cut_right(52), "note", false, session.can_be_noted(Kit::recorder))) {
    wishes.act(NoteReading{Kit::recorder});
  }
  row.cut_right(gap_8);
  const RecorderView& view = state.recorder;
  if (small_key(state, "recorder/arm", row.cut_right(64), armed ? "armed" : "arm", armed)) {
    wishes.act(ArmRecorder{view.level, view.rising, view.span_s});
  }
  row.cut_right(gap_8);
  text_in(row, Type::small, ink::ink_soft, state_text(session));
}

std::string figure(const std::optional<double>& value, std::string_view unit) {
  if (!value) return "";
  return unit == "A" ? fmt::format("{:.0f} A", *value) : fmt::format("{:.2f} V", *value);
}

/// Time and both channels at the cursors, and from A to B.
void draw_table(const Capture& capture, const RecorderView& view, Rect place) {
  constexpr float row_height = 19;
  const auto row_of = [&](std::string_view name, const std::array<std::string, 3>& cells, Type type) {
    Rect row = place.cut_top(row_height);
    text_in(row.cut_left(16), Type::small_bold, ink::ink, name);
    for (int i = 0; i < 3; ++i) {
      text_in(cell_of(row, i, 3, gap_4), type, i == 2 ? ink::ink : ink::ink_soft, cells.at(static_cast<std::size_t>(i)),
              Align::right);
    }
  };
  row_of("", {"A", "B", "B \u2212 A"}, Type::small_bold);
  const double a_s = time_at(capture, view.cursors[0]), b_s = time_at(capture, view.cursors[1]);
  const auto seconds = [](double s) { return fmt::format("{:.3f} s", s); };
  row_of("t", {seconds(a_s), seconds(b_s), seconds(b_s - a_s)}, Type::small);
  for (int channel = 0; channel < 2; ++channel) {
    const auto a = value_at(capture, channel, view.cursors[0]), b = value_at(capture, channel, view.cursors[1]);
    const std::string_view unit = unit_of(capture.inputs.at(static_cast<std::size_t>(channel)));
    const auto difference = a && b ? std::optional(*b - *a) : std::nullopt;
    row_of(std::to_string(channel + 1), {figure(a, unit), figure(b, unit), figure(difference, unit)}, Type::small);
  }
}

void draw_cursor_keys(BayState& state, const Rect& row) {
  RecorderView& view = state.recorder;
  const auto cell = [&](int i) { return cell_of(row, i, 6, gap_4); };
  if (small_key(state, "recorder/cursor/a", cell(0), "A", view.cursor == 0)) view.cursor = 0;
  if (small_key(state, "recorder/cursor/b", cell(1), "B", view.cursor == 1)) view.cursor = 1;
  double& cursor = view.cursors.at(static_cast<std::size_t>(view.cursor));
  const double step = (view.to_share - view.from_share) / 100;
  if (small_key(state, "recorder/left", cell(2), "\u2190")) cursor = std::max(0.0, cursor - step);
  if (small_key(state, "recorder/right", cell(3), "\u2192")) cursor = std::min(1.0, cursor + step);
  if (small_key(state, "recorder/zoom_in", cell(4), "+")) zoom(view, true);
  if (small_key(state, "recorder/zoom_out", cell(5), "\u2212")) zoom(view, false);
}

}  // namespace

void draw_recorder_panel(const Session& session, const Wording& words, BayState& state, Wishes& wishes,
                         const Rect& zone) {
  ruled_zone(zone);
  Rect inside = zone.inset(gap_16, gap_4);
  draw_title(session, state, wishes, inside.cut_top(24));
  inside.cut_top(gap_4);
  Rect left = inside.cut_left(left_width);
  inside.cut_left(gap_16);
  for (const int channel : {1, 2}) draw_channel(session, words, state, left.cut_top(line).inset(0, 1), channel);
  draw_level(session, state, left.cut_top(line).inset(0, 1));
  draw_span(state, left.cut_top(line).inset(0, 1));
  Rect table = inside.cut_right(table_width);
  inside.cut_right(gap_8);
  const auto& capture = session.recorder().capture();
  if (!capture) {
    sheet().AddRect(inside.min(), inside.max(), ink::hairline);
    return text_in(inside, Type::small, ink::ink_soft, "nothing recorded yet", Align::centre);
  }
  draw_recorder_traces(*capture, state.recorder, state.hands, inside);
  draw_cursor_keys(state, table.cut_bottom(24));
  draw_table(*capture, state.recorder, table);
}

}  // namespace voltfall
