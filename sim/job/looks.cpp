#include "job/looks.h"

#include <algorithm>
#include <array>

#include "faults/catalogue.h"
#include "rig/settable.h"

namespace voltfall {
namespace {

struct VisibleSign {
  std::string_view component, path;
  double shows_from;  ///< how far from healthy before anyone would see it
  std::string_view look;
};

// Common practice: what a clamp, lug, face or cable with that trouble looks like.
constexpr std::array signs{
    VisibleSign{"positive_clamp", "joints.positive_clamp.added_ohm", 0.002, "crust"},
    VisibleSign{"negative_clamp", "joints.negative_clamp.added_ohm", 0.002, "crust"},
    VisibleSign{"relay_battery_stud", "joints.relay_battery_stud.added_ohm", 0.002, "dark_threads"},
    VisibleSign{"relay_motor_stud", "joints.relay_motor_stud.added_ohm", 0.002, "dark_threads"},
    VisibleSign{"starter_terminal", "joints.starter_terminal.added_ohm", 0.002, "dark_threads"},
    VisibleSign{"mounting_face", "joints.mounting_face.added_ohm", 0.002, "paint"},
    VisibleSign{"block_lug", "joints.block_lug.added_ohm", 0.002, "rust"},
    VisibleSign{"body_strap", "joints.body_strap.added_ohm", 1000.0, "strap_missing"},
    VisibleSign{"body_strap", "joints.body_strap.added_ohm", 0.002, "rust"},
    VisibleSign{"positive_cable", "cables.positive.added_ohm", 0.002, "swollen_insulation"},
    VisibleSign{"positive_cable", "cables.positive.AWG", 1.0, "thin_cable"},
    VisibleSign{"starter_cable", "cables.starter.added_ohm", 0.002, "swollen_insulation"},
    VisibleSign{"negative_cable", "cables.negative.added_ohm", 0.002, "swollen_insulation"},
    VisibleSign{"relay_bracket", "control.relay_case_ground_ohm", 0.5, "rust"},
    VisibleSign{"s_push_on", "control.s_push_on_ohm", 0.3, "loose_push_on"},
    VisibleSign{"bulkhead_plug", "control.bulkhead_plug_ohm", 0.2, "green_pins"},
};

bool shows(const VisibleSign& sign, const RigParameters& now, const RigParameters& healthy) {
  const Settable* settable = settable_at(sign.path);
  return settable != nullptr && settable->value_in(now) - settable->value_in(healthy) >= sign.shows_from;
}

}  // namespace

std::string_view look_at(std::string_view component, const RigParameters& now, const RigParameters& healthy) {
  const auto known = all_components();
  if (std::find(known.begin(), known.end(), component) == known.end()) return {};
  bool has_surface = false;
  for (const VisibleSign& sign : signs) {
    if (sign.component != component) continue;
    has_surface = true;
    if (shows(sign, now, healthy)) return sign.look;
  }
  return has_surface ? "clean" : "nothing_to_see";
}

bool look_proves(std::string_view look) {
  return look == "strap_missing";
}

}  // namespace voltfall
