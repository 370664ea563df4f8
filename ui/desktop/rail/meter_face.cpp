#include <array>

#include "desktop/rail/figures.h"
#include "desktop/rail/rail_parts.h"
#include "desktop/rail/rail_text.h"
#include "desktop/style/draw.h"

namespace voltfall {

namespace {

/// A glass tube whose wire has parted.
void draw_blown_fuse(const Rect& place) {
  const ImVec2 middle = place.centre();
  const ImU32 colour = ink::display_ink;
  sheet().AddRect({middle.x - 54, middle.y - 13}, {middle.x + 54, middle.y + 13}, colour, 0, ImDrawFlags_None, 2.0F);
  for (const float side : {-1.0F, 1.0F}) {
    sheet().AddRectFilled({middle.x + side * 54 - 9, middle.y - 15}, {middle.x + side * 54 + 9, middle.y + 15}, colour);
    const ImVec2 wire[] = {{middle.x + side * 46, middle.y},
                           {middle.x + side * 20, middle.y},
                           {middle.x + side * 12, middle.y + side * 6}};
    sheet().AddPolyline(wire, 3, colour, ImDrawFlags_None, 2.5F);
  }
}

void draw_glass(const Session& session, const Wording& wording, const Rect& glass) {
  const Multimeter& meter = session.meter();
  const MeterDisplay display = meter.display();
  sheet().AddRectFilled(glass.min(), glass.max(), ink::display);
  Rect words = glass.inset(gap_8, gap_4);
  const Rect figures = words.cut_right(226);
  if (display.kind != MeterDisplay::Kind::fuse_blown) {
    figures_in(figures, Type::digits_meter, ink::display_ink, display.text());
  }
  text_in(words.cut_top(20), Type::small_bold, ink::display_ink, unit_text(meter.function(), display));
  if (display.kind == MeterDisplay::Kind::fuse_blown) draw_blown_fuse(figures);
  const std::string held = held_text(session, wording);
  const float height = wrapped_height(Type::small, held, words.w);
  wrapped_text({words.x, words.bottom() - height}, words.w, Type::small, ink::display_ink, held);
}

/// A short piece of the lead as it is on the picture: red plain and marked +, black banded and marked COM.
void draw_lead_sample(const Rect& place, bool red) {
  const ImVec2 from{place.x, place.centre().y}, to{place.x + 26, place.centre().y};
  sheet().AddLine(from, to, ink::on_dark, 7.0F);
  sheet().AddLine(from, to, red ? ink::red_lead : ink::black_lead, 4.0F);
  if (red) return;
  for (float x = from.x + 4; x < to.x; x += 8) sheet().AddLine({x, from.y - 2}, {x, from.y + 2}, ink::on_dark, 3.0F);
}

void draw_lead_line(const Wording& words, const std::optional<TestPoint>& at, bool red, Rect row) {
  draw_lead_sample(row, red);
  row.cut_left(34);
  text_in(row.cut_left(36), Type::small_bold, ink::on_dark, red ? "+" : "COM");
  const std::string where = at ? std::to_string(number_of(*at)) + "  " + std::string(words.point(*at)) : "in the air";
  text_in(row, Type::small, at ? ink::on_dark : ink::on_dark_soft, where);
}

/// Four functions to choose from; lowest and highest hold while they are in, and go out again when pressed.
void draw_function_keys(const Multimeter& meter, BayState& state, Wishes& wishes, const Rect& row) {
  constexpr std::array<std::string_view, 6> labels{"volts", "ohms", "beep", "amps", "lowest", "highest"};
  constexpr std::array<MeterFunction, 4> functions{MeterFunction::volts_dc, MeterFunction::ohms,
                                                   MeterFunction::continuity, MeterFunction::amps_dc};
  const auto cells = cells_by_words(row, Type::small_bold, labels);
  KeyLook look;
  look.on_dark = true;
  look.type = Type::small;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const bool is_function = i < functions.size();
    const MeterHold hold = i == functions.size() ? MeterHold::lowest : MeterHold::highest;
    look.selected = is_function ? meter.function() == functions.at(i) : meter.hold() == hold;
    const std::string id = (is_function ? "meter/function/" : "meter/hold/") + std::string(labels.at(i));
    if (!push_key(state.hands, id, cells[i], labels.at(i), look)) continue;
    if (is_function) {
      wishes.act(SetMeterFunction{functions.at(i)});
    } else {
      wishes.act(SetMeterHold{look.selected ? MeterHold::none : hold});
    }
  }
}

bool note_key(BayState& state, std::string_view id, const Rect& where, std::string_view label, bool enabled) {
  KeyLook look;
  look.on_dark = true;
  look.type = Type::small;
  look.enabled = enabled;
  return push_key(state.hands, id, where, label, look);
}

}  // namespace

void draw_meter(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  sheet().AddRectFilled(place.min(), place.max(), ink::instrument);
  Rect inside = place.inset(gap_8);
  draw_glass(session, words, inside.cut_top(60));
  inside.cut_top(gap_8);
  draw_function_keys(session.meter(), state, wishes, inside.cut_top(26));
  inside.cut_top(gap_8);
  const Rect key = inside.cut_right(68);
  if (session.meter_fuse_blown()) {
    if (note_key(state, "meter/fuse", key, "new fuse", true)) wishes.act(ReplaceFuse{Kit::multimeter});
  } else if (note_key(state, "meter/note", key, "Note  N", session.meter_can_be_noted())) {
    wishes.act(NoteReading{});
  }
  inside.cut_right(gap_8);
  draw_lead_line(words, session.meter().red(), true, inside.cut_top(inside.h / 2));
  draw_lead_line(words, session.meter().black(), false, inside);
}

void draw_clamp(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  sheet().AddRectFilled(place.min(), place.max(), ink::instrument);
  Rect inside = place.inset(gap_8, gap_4);
  const MeterDisplay display = session.clamp().display();
  const auto round = session.clamp().round();
  Rect name = inside.cut_left(92);
  text_in(name.cut_top(name.h / 2), Type::small_bold, ink::on_dark, "clamp, A dc");
  text_in(name, Type::small, round ? ink::on_dark : ink::on_dark_soft,
          round ? words.cable(*round) : std::string_view("in the air"));
  const Rect zero = inside.cut_left(44);
  inside.cut_left(gap_4);
  const Rect note = inside.cut_left(44);
  if (note_key(state, "clamp/zero", zero, "zero", true)) wishes.act(ZeroClamp{});
  if (note_key(state, "clamp/note", note, "note", session.clamp_can_be_noted()))
    wishes.act(NoteReading{Kit::clamp_meter});
  figures_in(inside, Type::digits_clamp, ink::amber, display.text());
}

}  // namespace voltfall
