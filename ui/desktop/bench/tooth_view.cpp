#include "desktop/bench/tooth_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "desktop/drawings/brush.h"
#include "desktop/style/draw.h"
#include "mechanical/pinion_mesh.h"
#include "rig/wiring.h"

namespace voltfall {
namespace {

float mm(double metres) {
  return static_cast<float>(metres * 1000.0);
}

/// The six corners of a tooth as the contact world builds it: land, chamfer, flank.
void draw_tooth(const Brush& brush, const DriveParameters& drive, float middle_y, float face_x, float back,
                ImU32 fill) {
  constexpr float length = 12;
  const float half = mm(0.25 * drive.circular_pitch_m - 0.25 * drive.backlash_m);
  const float land = mm(tooth_land_half_m), lead = face_x + back * mm(tooth_chamfer_m), end = face_x + back * length;
  const ImVec2 corners[] = {{face_x, middle_y - land}, {face_x, middle_y + land}, {lead, middle_y + half},
                            {end, middle_y + half},    {end, middle_y - half},    {lead, middle_y - half}};
  brush.shape(corners, fill, 0.25F);
}

/// How far the ring has turned in its own frame, or 0 where teeth pass too fast for an eye to follow.
float ring_shift(const BenchScene& scene, const Mechanism& now) {
  const DriveParameters& drive = scene.bench.vehicle().parameters().drive;
  const double rpm = scene.bench.signal(*tape_signal_named("crank_speed"));
  const double teeth_a_frame =
      rpm / 60.0 * drive.ring_teeth * scene.bench.speed() * scene.sheet.frame_s * (scene.bench.paused() ? 0.0 : 1.0);
  constexpr double can_be_followed = 0.3;
  if (std::abs(teeth_a_frame) > can_be_followed) return 0.0F;
  return mm(std::fmod(now.crank_rad * ring_radius_m(drive), drive.circular_pitch_m));
}

void draw_teeth(const BenchScene& scene, const Mechanism& now, const Brush& brush) {
  const RigParameters& vehicle = scene.bench.vehicle().parameters();
  const DriveParameters& drive = vehicle.drive;
  const double meet_m = drive.teeth_meet_at * vehicle.shoe.travel_m * drive.lever_ratio;
  const float face = mm(now.pinion_travel_m - meet_m), pitch = mm(drive.circular_pitch_m);
  const float shift = ring_shift(scene, now);
  const double from_gap = teeth_from_gap(drive, now.crank_rad);
  // Those that can be seen, and one more on either side.
  const float seen = brush.projection().picture().h / brush.projection().scale();
  const int around = 2 + static_cast<int>(0.5F * seen / pitch);
  for (int tooth = -around; tooth <= around; ++tooth) {
    const float y = static_cast<float>(tooth) * pitch - shift;
    if (!ring_tooth_missing(drive, from_gap + tooth)) draw_tooth(brush, drive, y, 0, 1, ink::steel_dark);
    draw_tooth(brush, drive, y + mm(now.tooth_position_m), face, -1, ink::casting);
  }
  const float far = 0.5F * seen;
  brush.box({12, -far, 10, 2 * far}, ink::steel_dark, 0.3F);
  brush.box({face - 22, -far, 10, 2 * far}, ink::casting, 0.3F);
}

std::string_view words_for(const BenchScene& scene, const Mechanism& now) {
  if (now.seated > 0.5F) return scene.words.text("open_bench.teeth.in");
  if (now.in_contact > 0.5F) return scene.words.text("open_bench.teeth.touching");
  return scene.words.text("open_bench.teeth.apart");
}

}  // namespace

void draw_tooth_view(const BenchScene& scene, const Mechanism& now, const Rect& place) {
  Rect view = place;
  Rect head = view.cut_top(22);
  text_in(head.cut_left(150), Type::body_bold, ink::ink, scene.words.text("open_bench.teeth.title"));
  text_in(head, Type::small, ink::ink_soft, words_for(scene, now), Align::right);
  const ImGuiIO& io = ImGui::GetIO();
  if (scene.sheet.hands.over(view) && io.MouseWheel != 0.0F) {
    scene.sheet.tooth_zoom = std::clamp(scene.sheet.tooth_zoom * std::pow(1.2F, io.MouseWheel), 0.6F, 8.0F);
  }
  sheet().PushClipRect(view.min(), view.max(), true);
  constexpr float mm_across = 34;
  const Projection projection(view, {0, 0}, view.w / mm_across * scene.sheet.tooth_zoom);
  draw_teeth(scene, now, Brush(projection));
  const Rect words{view.x + gap_8, view.bottom() - 20, view.w - 2 * gap_8, 18};
  for (const auto& [id, side] :
       {std::pair{"open_bench.part.pinion", Align::left}, std::pair{"open_bench.part.ring", Align::right}}) {
    const std::string_view name = scene.words.text(id);
    const float width = text_width(Type::small, name) + gap_8;
    const Rect tag{side == Align::left ? words.x : words.right() - width, words.y, width, words.h};
    sheet().AddRectFilled(tag.min(), tag.max(), ink::paper);
    text_in(tag, Type::small, ink::ink, name, Align::centre);
  }
  sheet().PopClipRect();
  sheet().AddRect(view.min(), view.max(), ink::ink);
}

void draw_piston_view(const BenchScene& scene, const Mechanism& now, const Rect& place) {
  Rect view = place;
  Rect head = view.cut_top(22);
  text_in(head, Type::body_bold, ink::ink, scene.words.text("open_bench.piston.title"));
  const Rect foot = view.cut_bottom(36);
  const EngineParameters& engine = scene.bench.vehicle().parameters().engine;
  const float crank = mm(engine.stroke_m) / 2, rod = mm(engine.rod_m), bore = mm(engine.bore_m);
  const float clearance = mm(engine.stroke_m / (engine.compression_ratio - 1.0));
  const float height = 2 * crank + rod + 30 + clearance, low = crank + 6;
  const Projection projection(view, {0, low - height / 2}, std::min(view.h / height, view.w / (bore + 60)));
  const Brush brush(projection);
  const double angle = now.crank_rad;
  const ImVec2 pin{crank * static_cast<float>(std::sin(angle)), -crank * static_cast<float>(std::cos(angle))};
  const float gudgeon = pin.y - std::sqrt(rod * rod - pin.x * pin.x);
  const float crown = gudgeon - 18, roof = -crank - rod - 18 - clearance;
  // The gas, darker as it is pressed: full ink at ten atmospheres.
  constexpr float atmosphere_Pa = 101325.0F, full = 10.0F;
  const float over = std::clamp((now.cylinder_Pa / atmosphere_Pa - 1.0F) / (full - 1.0F), 0.0F, 1.0F);
  brush.box({-bore / 2, roof, bore, crown - roof}, ink::blend(ink::paper_shade, ink::copper, over), 0);
  const ImVec2 barrel[] = {{-bore / 2, -crank + 4}, {-bore / 2, roof}, {bore / 2, roof}, {bore / 2, -crank + 4}};
  brush.path(barrel, 3.0F);
  brush.box({-bore / 2 + 1, crown, bore - 2, 34}, ink::steel, 1.5F);
  brush.ring({0, 0}, crank, 1.2F, ink::ink_soft);
  brush.line({0, gudgeon}, pin, 7.0F, ink::ink);
  brush.line({0, gudgeon}, pin, 4.5F, ink::casting_dark);
  brush.line({0, 0}, pin, 6.0F, ink::ink);
  for (const ImVec2 bearing : {ImVec2{0, 0}, pin, ImVec2{0, gudgeon}}) brush.disc(bearing, 5.0F, ink::steel, 1.2F);
  constexpr float psi_Pa = 6894.757F;
  const float rpm = scene.bench.signal(*tape_signal_named("crank_speed"));
  text_in({foot.x, foot.y, foot.w, 18}, Type::figures_small, ink::ink,
          fmt::format("{:.0f} psi", std::max(0.0F, now.cylinder_Pa - atmosphere_Pa) / psi_Pa), Align::centre);
  text_in({foot.x, foot.y + 17, foot.w, 18}, Type::figures_small, ink::ink,
          fmt::format("{:.0f} rpm", std::abs(rpm) < 0.5F ? 0.0F : rpm), Align::centre);
}

}  // namespace voltfall
