#include "bench/bench_knobs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "electrical/conductor.h"

namespace voltfall {
namespace {

using enum KnobGroup;

constexpr double milliohm = 1.0e-3, percent = 0.01, millimetre = 1.0e-3, plain = 1.0;

// Joints and contact reach past where a sound starter stops engaging; the hold-in coil past where it lets go.
constexpr std::array<BenchKnob, 40> table{{
    {"charge", battery, "battery.charge", "%", percent, 0, 100, 1},
    {"rating", battery, "battery.rated_CCA_A", "A CCA", plain, 250, 1000, 10},
    {"health", battery, "battery.health", "%", percent, 10, 100, 1},
    {"temperature", battery, "ambient_C", "°C", plain, -30, 45, 1},
    {"shorted_cells", battery, "battery.shorted_cells", "cells", plain, 0, 2, 1},
    {"headlamps", battery, "body.headlamp_W", "W", plain, 0, 200, 5},
    {"positive_clamp", path, "joints.positive_clamp.added_ohm", "m\u03A9", milliohm, 0, 60, 0.5},
    {"positive_gauge", path, "cables.positive.AWG", "AWG", plain, -3, 10, 1},
    {"positive_length", path, "cables.positive.length_m", "m", plain, 0.2, 6, 0.1},
    {"positive_strands", path, "cables.positive.added_ohm", "m\u03A9", milliohm, 0, 60, 0.5},
    {"relay_battery_stud", path, "joints.relay_battery_stud.added_ohm", "m\u03A9", milliohm, 0, 60, 0.5},
    {"relay_contact", path, "relay.contact_ohm", "m\u03A9", milliohm, 0.1, 60, 0.1},
    {"relay_motor_stud", path, "joints.relay_motor_stud.added_ohm", "m\u03A9", milliohm, 0, 60, 0.5},
    {"starter_gauge", path, "cables.starter.AWG", "AWG", plain, -3, 10, 1},
    {"starter_length", path, "cables.starter.length_m", "m", plain, 0.2, 6, 0.1},
    {"starter_strands", path, "cables.starter.added_ohm", "m\u03A9", milliohm, 0, 60, 0.5},
    {"starter_terminal", path, "joints.starter_terminal.added_ohm", "m\u03A9", milliohm, 0, 60, 0.5},
    {"mounting_face", path, "joints.mounting_face.added_ohm", "m\u03A9", milliohm, 0, 60, 0.5},
    {"block_lug", path, "joints.block_lug.added_ohm", "m\u03A9", milliohm, 0, 60, 0.5},
    {"negative_gauge", path, "cables.negative.AWG", "AWG", plain, -3, 10, 1},
    {"negative_length", path, "cables.negative.length_m", "m", plain, 0.2, 6, 0.1},
    {"negative_strands", path, "cables.negative.added_ohm", "m\u03A9", milliohm, 0, 60, 0.5},
    {"negative_clamp", path, "joints.negative_clamp.added_ohm", "m\u03A9", milliohm, 0, 60, 0.5},
    {"body_strap", path, "joints.body_strap.added_ohm", "\u03A9", plain, 0, 50, 0.5},
    {"relay_ground", path, "control.relay_case_ground_ohm", "\u03A9", plain, 0.005, 20, 0.1},
    {"start_contact", path, "control.start_contact_ohm", "\u03A9", plain, 0.005, 20, 0.1},
    {"s_wire", path, "control.s_push_on_ohm", "\u03A9", plain, 0.005, 20, 0.1},
    {"shoe_spring", starter, "shoe.spring_preload_N", "N", plain, 20, 250, 2},
    {"shoe_spring_rate", starter, "shoe.spring_N_per_m", "N/mm", 1000.0, 0, 15, 0.2},
    {"shoe_hinge", starter, "shoe.hinge_friction_N", "N", plain, 0, 300, 2},
    {"shoe_travel", starter, "shoe.travel_m", "mm", millimetre, 6, 12, 0.1},
    {"drive_coil", starter, "starter.drive_coil_ohm", "m\u03A9", milliohm, 4, 60, 0.5},
    {"hold_in", starter, "starter.hold_in_ohm", "\u03A9", plain, 1, 12, 0.1},
    {"brushes", starter, "starter.brush_added_ohm", "m\u03A9", milliohm, 0, 100, 1},
    {"armature_drag", starter, "starter.drag_added_Nm", "N\u00B7m", plain, 0, 8, 0.1},
    {"clutch", starter, "drive.clutch_slip_Nm", "N\u00B7m", plain, 0, 90, 1},
    {"compression", engine, "engine.compression_ratio", ":1", plain, 6, 14, 0.1},
    {"engine_drag", engine, "engine.drag_added_Nm", "N\u00B7m", plain, 0, 250, 2},
    {"oil_grade", engine, "engine.oil_grade_W", "W", plain, 0, 25, 5},
    {"weak_cylinders", engine, "engine.weak_cylinder", "cyl.", plain, 0, 3, 1},
}};

}  // namespace

void BenchKnob::turn(RigParameters& parameters, double value) const {
  settable().in(parameters) = std::clamp(std::round(value / step) * step, from, to) * per_unit;
}

double BenchKnob::share_of(double value) const {
  return std::clamp((value - from) / (to - from), 0.0, 1.0);
}

double BenchKnob::at_share(double share) const {
  return from + std::clamp(share, 0.0, 1.0) * (to - from);
}

std::string BenchKnob::text(double value) const {
  if (unit == "AWG") return gauge_text(value);
  const int decimals = step < 0.01 ? 3 : step < 0.1 ? 2 : step < 1.0 ? 1 : 0;
  if (unit == "W" && group == engine) return fmt::format("{:.0f}W", value);
  return fmt::format("{:.{}f} {}", value, decimals, unit);
}

std::span<const BenchKnob> all_bench_knobs() {
  return table;
}

const BenchKnob* bench_knob_named(std::string_view id) {
  const auto found = std::find_if(table.begin(), table.end(), [&](const BenchKnob& knob) { return knob.id == id; });
  return found != table.end() ? &*found : nullptr;
}

}  // namespace voltfall
