#include <fmt/format.h>

#include <algorithm>

#include "desktop/kit/faces.h"
#include "desktop/rail/figures.h"
#include "desktop/rail/rail_text.h"

namespace voltfall {
namespace {

/// The latest figure this instrument gave since the last repair; null when there is none.
const Finding* latest(const Session& session, Finding::Kind kind, int cell = 0) {
  const auto& findings = session.findings();
  const auto repairs = static_cast<int>(session.repairs_done().size());
  const auto found = std::find_if(findings.rbegin(), findings.rend(), [&](const Finding& finding) {
    return finding.kind == kind && finding.cell == cell && finding.repairs_before == repairs;
  });
  return found == findings.rend() ? nullptr : &*found;
}

/// Display at the right in the clamp's digits, a key to note it left of them.
void draw_display_and_note(const Face& face, Kit kit, Rect& inside, float digits_width) {
  const MeterDisplay shown = face.session.shown_by(kit);
  Rect digits = inside.cut_right(digits_width);
  if (shown.kind == MeterDisplay::Kind::value) {
    text_in(digits.cut_right(30), Type::small, ink::amber, unit_word(shown.unit), Align::right);
  }
  figures_in(digits, Type::digits_clamp, ink::amber, shown.text());
  inside.cut_right(gap_4);
  const std::string id = fmt::format("{}/note", id_of(kit));
  if (face_key(face, id, inside.cut_right(44).inset(0, 4), "note", face.session.can_be_noted(kit))) {
    face.wishes.act(NoteReading{kit});
  }
  inside.cut_right(gap_4);
}

/// One cell as a tube that fills with what the float shows: 1.10 empty, 1.30 full.
void draw_cell(const Face& face, int cell, const Rect& where) {
  const std::string id = fmt::format("hydrometer/{}", cell);
  const Finding* dipped = latest(face.session, Finding::Kind::gravity, cell);
  Rect tube = where;
  if (face_key(face, id, tube.cut_bottom(24), std::to_string(cell))) face.wishes.act(DipHydrometer{cell});
  tube.cut_bottom(gap_4);
  if (dipped == nullptr) {
    sheet().AddRect(tube.min(), tube.max(), ink::instrument_edge);
    return text_in(tube, Type::small, ink::on_dark_soft, "dip", Align::centre);
  }
  constexpr double empty = 1.10, full = 1.30;
  const double level = std::clamp((dipped->shown.value - empty) / (full - empty), 0.0, 1.0);
  sheet().AddRectFilled(tube.min(), tube.max(), ink::paper);
  const Rect figure = tube.cut_top(18);
  const float top = tube.bottom() - tube.h * static_cast<float>(level);
  sheet().AddRectFilled({tube.x, top}, tube.max(), ink::copper_light);
  rule_across(tube.x, tube.right(), top, ink::ink, 2.0F);
  text_in(figure, Type::small_bold, ink::ink, dipped->shown.text(), Align::centre);
}

std::string_view recorder_words(Recorder::State state) {
  switch (state) {
    case Recorder::State::idle:
      return "not armed";
    case Recorder::State::armed:
      return "waits for its trigger";
    case Recorder::State::triggered:
      return "recording";
    case Recorder::State::captured:
      return "captured";
  }
  return "";
}

}  // namespace

void draw_hydrometer_face(const Face& face, Rect inside) {
  text_in(inside.cut_left(78), Type::small_bold, ink::on_dark, "Hydrometer");
  for (int cell = 1; cell <= 6; ++cell) draw_cell(face, cell, cell_of(inside, cell - 1, 6, gap_4));
}

void draw_conductance_face(const Face& face, Rect inside) {
  Rect digits = inside.cut_right(96);
  const Finding* found = latest(face.session, Finding::Kind::cold_amps);
  figures_in(digits, Type::digits_clamp, ink::amber, found == nullptr ? "- - -" : found->shown.text_with_unit());
  inside.cut_right(gap_8);
  if (face_key(face, "conductance/test", inside.cut_right(56).inset(0, 4), "test")) {
    face.wishes.act(TestConductance{});
  }
  face_name(inside, "Conductance tester", "cold cranking A", true);
}

void draw_thermometer_face(const Face& face, Rect inside) {
  draw_display_and_note(face, Kit::thermometer, inside, 136);
  const bool aiming = face.state.typed == Pick::thermometer;
  if (face_key(face, "thermometer/aim", inside.cut_right(56).inset(0, 4), aiming ? "leave it" : "aim  D", true,
               aiming)) {
    face.state.typed = aiming ? Pick::nothing : Pick::thermometer;
    face.state.typed_words.clear();
  }
  inside.cut_right(gap_4);
  const auto at = face.session.thermometer_at();
  face_name(inside, "Infrared", at ? fmt::format("at {}", number_of(*at)) : "no aim", !at);
}

void draw_tachometer_face(const Face& face, Rect inside) {
  draw_display_and_note(face, Kit::tachometer, inside, 128);
  face_name(inside, "Tachometer", "at the damper", true);
}

void draw_recorder_face(const Face& face, Rect inside) {
  if (face_key(face, "recorder/open", inside.cut_right(92).inset(0, 4),
               face.state.recorder_open ? "fall line" : "its screen", true, face.state.recorder_open)) {
    face.state.recorder_open = !face.state.recorder_open;
  }
  inside.cut_right(gap_4);
  if (face_key(face, "recorder/note", inside.cut_right(44).inset(0, 4), "note",
               face.session.can_be_noted(Kit::recorder))) {
    face.wishes.act(NoteReading{Kit::recorder});
  }
  inside.cut_right(gap_4);
  face_name(inside, "Recorder", recorder_words(face.session.recorder().state()));
}

}  // namespace voltfall
