#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "desktop/kit/faces.h"
#include "desktop/rail/figures.h"

namespace voltfall {
namespace {

/// A scale ruled in fifties, with a hand at the amperes asked for; a click turns the pile there.
void draw_pile_scale(const Face& face, const Rect& place) {
  constexpr auto most_A = static_cast<float>(LoadTester::most_A);
  const float y = place.y + 11;
  rule_across(place.x, place.right(), y, ink::on_dark, 1.0F);
  for (int amps = 0; amps <= static_cast<int>(most_A); amps += 50) {
    const float x = place.x + (place.w - 1) * static_cast<float>(amps) / most_A;
    rule_down(x, y - (amps % 100 == 0 ? 7.0F : 4.0F), y, ink::on_dark);
    if (amps % 100 == 0) {
      const float left = std::clamp(x - 20, place.x, place.right() - 40);
      const Align align = amps == 0 ? Align::left : amps == 500 ? Align::right : Align::centre;
      text_in({left, y + 1, 40, 16}, Type::small, ink::on_dark_soft, std::to_string(amps), align);
    }
  }
  const float hand = place.x + place.w * static_cast<float>(face.session.load_tester_A()) / most_A;
  sheet().AddTriangleFilled({hand, y}, {hand - 5, y - 10}, {hand + 5, y - 10}, ink::amber);
  if (face.state.hands.over(place) && ImGui::GetIO().MouseClicked[0]) {
    const float share = (ImGui::GetIO().MousePos.x - place.x) / place.w;
    face.wishes.act(TurnLoadTester{10.0 * std::round(static_cast<double>(share) * LoadTester::most_A / 10.0)});
  }
}

void draw_pile_keys(const Face& face, Rect row) {
  const double now = face.session.load_tester_A();
  const bool hung = hung_at(face.session, Device::load_tester) != nullptr;
  if (face_key(face, "pile/note", row.cut_right(42), "note", face.session.can_be_noted(Kit::load_tester))) {
    face.wishes.act(NoteReading{Kit::load_tester});
  }
  row.cut_right(gap_4);
  hang_key(face, Device::load_tester, row.cut_right(58));
  row.cut_right(6);
  if (face_key(face, "pile/off", row.cut_right(44), "down", now > 0.0)) face.wishes.act(TurnLoadTester{0.0});
  row.cut_right(6);
  constexpr std::array<double, 4> steps_A{-50, -10, 10, 50};
  for (std::size_t i = 0; i < steps_A.size(); ++i) {
    const double turned = std::clamp(now + steps_A.at(i), 0.0, LoadTester::most_A);
    const Rect cell = cell_of(row, static_cast<int>(i), 4, gap_4);
    const std::string label = fmt::format("{}{:.0f}", steps_A.at(i) < 0 ? "\u2212" : "+", std::abs(steps_A.at(i)));
    if (face_key(face, fmt::format("pile/step/{}", i), cell, label, hung && turned != now)) {
      face.wishes.act(TurnLoadTester{turned});
    }
  }
}

}  // namespace

void draw_load_tester_face(const Face& face, Rect inside) {
  Rect head = inside.cut_top(30);
  figures_in(head.cut_right(128), Type::digits_clamp, ink::amber,
             face.session.shown_by(Kit::load_tester).text_with_unit());
  const double held_s = face.session.load_held_s();
  const bool turned_up = face.session.load_tester_A() > 0.0;
  face_name(head, face.words.kit(Kit::load_tester),
            turned_up ? fmt::format("{:.0f} A for {:.0f} s", face.session.load_tester_A(), held_s)
                      : hung_text(face, Device::load_tester),
            !turned_up);
  inside.cut_top(gap_4);
  draw_pile_keys(face, inside.cut_bottom(24));
  draw_pile_scale(face, inside);
}

}  // namespace voltfall
