#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <vector>

#include "desktop/bench/bench_panels.h"
#include "desktop/rail/paper_column.h"
#include "desktop/style/draw.h"
#include "desktop/style/scale_key.h"

namespace voltfall {
namespace {

std::string small_letters(std::string_view text) {
  std::string lower(text);
  std::transform(lower.begin(), lower.end(), lower.begin(), [](unsigned char c) { return std::tolower(c); });
  return lower;
}

bool matches(std::string_view words, const std::string& wanted) {
  return small_letters(words).find(wanted) != std::string::npos;
}

void change(const BenchScene& scene, const std::function<void(BenchVehicle&)>& edit) {
  scene.sheet.refused = scene.bench.change(edit);
}

std::string knob_name(const BenchScene& scene, const BenchKnob& knob) {
  return std::string(scene.words.text(fmt::format("open_bench.knob.{}", knob.id)));
}

void draw_knob(const BenchScene& scene, const BenchKnob& knob, PaperColumn& column, std::string_view place) {
  constexpr float height = 46, back_width = 44;
  const std::string id = fmt::format("bench/knob/{}/{}", place, knob.id);
  const BenchVehicle& vehicle = scene.bench.vehicle();
  const bool changed = vehicle.is_changed(knob);
  const double value = vehicle.value(knob), healthy = knob.value_in(vehicle.healthy());
  Rect row = column.row_for(id, height);
  Rect line = row.cut_top(20);
  const Type value_type = changed ? Type::small_bold : Type::figures_small;
  const std::string value_text = knob.text(value);
  text_in(line.cut_right(text_width(value_type, value_text) + gap_4), value_type, ink::ink, value_text, Align::right);
  // Where knobs are swept, a name takes its knob.
  if (scene.sheet.view == BenchView::threshold &&
      list_row(scene.sheet.hands, id + "/take", line.inset(-gap_4, 0), false)) {
    scene.sheet.taken = &knob;
  }
  text_in(line, changed ? Type::small_bold : Type::small, ink::ink, knob_name(scene, knob));
  Rect scale = row.cut_top(20);
  if (changed) {
    const Rect back = scale.cut_right(back_width);
    scale.cut_right(gap_8);
    if (push_key(scene.sheet.hands, id + "/back", back, scene.words.text("open_bench.back"), {.type = Type::small}))
      change(scene, [&](BenchVehicle& on) { on.put_back(knob); });
  }
  const ScaleLook look{knob.share_of(value), knob.share_of(healthy), knob.step / (knob.to - knob.from), changed};
  if (const auto share = scale_key(scene.sheet.hands, id, scale, look)) {
    const double wanted = std::round(knob.at_share(*share) / knob.step) * knob.step;
    if (std::abs(wanted - value) > 0.25 * knob.step) change(scene, [&](BenchVehicle& on) { on.turn(knob, wanted); });
  }
}

/// A fault that is on: its name with a tick takes it off, its scale says how bad.
void draw_fault_on(const BenchScene& scene, const BenchFault& on, PaperColumn& column) {
  const std::string id = fmt::format("bench/on/{}", on.fault->id);
  Rect row = column.row_for(id, on.fault->has_degrees() ? 52 : 28);
  if (tick_key(scene.sheet.hands, id, row.cut_top(26), scene.words.fault(on.fault->id), true)) {
    change(scene, [&](BenchVehicle& vehicle) { vehicle.take_off(*on.fault); });
    return;
  }
  if (!on.fault->has_degrees()) return;
  Rect scale = row.cut_top(20);
  text_in(scale.cut_right(132), Type::small, ink::ink, fmt::format("{:.3g} {}", on.severity, on.fault->unit),
          Align::right);
  const ScaleLook look{on.fault->share_of(on.severity), {}, 0.02, true};
  if (const auto share = scale_key(scene.sheet.hands, id + "/scale", scale, look)) {
    const Fault& fault = *on.fault;
    change(scene, [&](BenchVehicle& vehicle) { vehicle.put_on(fault, fault.severity_at(*share)); });
  }
}

/// What stands other than healthy, whatever list is open.
void draw_changed(const BenchScene& scene, PaperColumn& column) {
  const BenchVehicle& vehicle = scene.bench.vehicle();
  if (vehicle.is_healthy()) return;
  column.heading(scene.words.text("open_bench.changed"));
  const std::vector<BenchFault> on = vehicle.faults();
  for (const BenchFault& fault : on) draw_fault_on(scene, fault, column);
  for (const BenchKnob& knob : all_bench_knobs()) {
    if (vehicle.is_changed(knob)) draw_knob(scene, knob, column, "changed");
  }
  for (const Settable* settable : vehicle.set_without_knob()) {
    column.paragraph(
        Type::small, ink::ink,
        fmt::format("{}: {:.3g} {}", settable->meaning, settable->value_in(vehicle.parameters()), settable->unit));
  }
  Rect row = column.row_for("bench/healthy", 32);
  if (push_key(scene.sheet.hands, "bench/healthy", row.inset(0, 2), scene.words.text("open_bench.put_back"),
               {.type = Type::small})) {
    change(scene, [](BenchVehicle& all) { all.put_back_healthy(); });
  }
  column.gap(gap_8);
}

void draw_resting_place(const BenchScene& scene, PaperColumn& column) {
  RestingPlace rest = scene.bench.resting_place();
  const auto row = [&](std::string_view id, const std::string& value, double share) {
    Rect place = column.row_for(id, 46);
    Rect line = place.cut_top(20);
    text_in(line.cut_right(96), Type::figures_small, ink::ink, value, Align::right);
    text_in(line, Type::small, ink::ink,
            scene.words.text(fmt::format("open_bench.knob.{}", id.substr(id.rfind('/') + 1))));
    return scale_key(scene.sheet.hands, id, place.cut_top(20), {share, {}, 0.02, false});
  };
  const auto phase = row("bench/rest/tooth_phase", fmt::format("{:.2f}", rest.tooth_phase), rest.tooth_phase);
  const auto angle =
      row("bench/rest/crank_angle", fmt::format("{:.0f}\u00B0", rest.crank_angle_deg), rest.crank_angle_deg / 720.0);
  if (phase) rest.tooth_phase = std::min(*phase, 0.99);
  if (angle) rest.crank_angle_deg = std::min(720.0 * *angle, 719.0);
  if (phase || angle) scene.bench.place_at(rest);
}

void draw_knobs(const BenchScene& scene, const std::string& wanted, PaperColumn& column) {
  for (const KnobGroup group : {KnobGroup::battery, KnobGroup::path, KnobGroup::starter, KnobGroup::engine}) {
    constexpr std::array<std::string_view, 4> ids{"battery", "path", "starter", "engine"};
    bool headed = false;
    for (const BenchKnob& knob : all_bench_knobs()) {
      if (knob.group != group || !matches(knob_name(scene, knob), wanted)) continue;
      if (!headed)
        column.heading(scene.words.text(fmt::format("open_bench.group.{}", ids.at(static_cast<std::size_t>(group)))));
      headed = true;
      draw_knob(scene, knob, column, "all");
    }
    if (group == KnobGroup::engine && wanted.empty()) draw_resting_place(scene, column);
  }
}

void draw_faults(const BenchScene& scene, const std::string& wanted, PaperColumn& column) {
  const BenchVehicle& vehicle = scene.bench.vehicle();
  for (const Fault& fault : all_faults()) {
    if (!fault.can_be_on(vehicle.healthy()) || vehicle.has(fault)) continue;
    if (!matches(fmt::format("{} {}", scene.words.fault(fault.id), id_of(fault.fault_class)), wanted)) continue;
    const std::string id = fmt::format("bench/fault/{}", fault.id);
    const Rect row = column.row_for(id, 28);
    if (list_row(scene.sheet.hands, id, row, false)) {
      change(scene, [&](BenchVehicle& on) { on.put_on(fault, fault.usual); });
    }
    text_in(row.inset(gap_8, 0), Type::small, ink::ink, scene.words.fault(fault.id));
  }
}

void draw_vehicles(const BenchScene& scene, BenchWishes& wishes, const Rect& row) {
  std::vector<std::string_view> names;
  int chosen = 0;
  for (const VehicleType& type : all_vehicle_types()) {
    if (type.healthy.engine.cylinders == scene.bench.vehicle().healthy().engine.cylinders) {
      chosen = static_cast<int>(names.size());
    }
    names.push_back(scene.words.text(fmt::format("open_bench.vehicle.{}", type.id)));
  }
  const int pressed = choice_keys(scene.sheet.hands, "bench/vehicle", row, names, chosen, {.type = Type::small});
  if (pressed != chosen) wishes.vehicle = &all_vehicle_types()[static_cast<std::size_t>(pressed)];
}

}  // namespace

Rect draw_column_head(const BenchScene& scene, BenchWishes& wishes, const Rect& zone) {
  ruled_border(zone);
  Rect place = zone.inset(gap_16, gap_8);
  draw_vehicles(scene, wishes, place.cut_top(30));
  place.cut_top(gap_8);
  const std::array columns{scene.words.text("open_bench.knobs"), scene.words.text("open_bench.faults"),
                           scene.words.text("open_bench.walk.tab")};
  scene.sheet.column = static_cast<BenchColumn>(
      choice_keys(scene.sheet.hands, "bench/column", place.cut_top(30), columns, static_cast<int>(scene.sheet.column)));
  place.cut_top(gap_8);
  return place;
}

void draw_knobs_or_faults(const BenchScene& scene, Rect place) {
  text_field(scene.sheet.hands, "bench/search", place.cut_top(30), scene.sheet.search, "search");
  place.cut_top(gap_8);
  const bool knobs = scene.sheet.column == BenchColumn::knobs;
  PaperColumn column(scene.sheet.hands, knobs ? "bench/knobs" : "bench/faults", place);
  column.below("bench/search");
  draw_changed(scene, column);
  const std::string wanted = small_letters(scene.sheet.search);
  if (knobs) {
    draw_knobs(scene, wanted, column);
  } else {
    draw_faults(scene, wanted, column);
  }
}

}  // namespace voltfall
