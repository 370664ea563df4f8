#include "job/looks.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "faults/catalogue.h"
#include "rig/settable.h"

namespace voltfall {
namespace {

constexpr std::array<std::string_view, 13> proving_looks{
    "strap_missing",       "bulged_case",       "plates_dry", "small_label",   "ends_at_the_body",
    "chafed_through",      "cracked_insulator", "burnt_bar",  "chipped_tooth", "spring_broken",
    "pedal_misses_switch", "ring_teeth_gone",   "bypass_wire"};

bool shows(const VisibleSign& sign, const RigParameters& now, const RigParameters& healthy) {
  const Settable* settable = settable_at(sign.path);
  return settable != nullptr && std::abs(settable->value_in(now) - settable->value_in(healthy)) >= sign.shows_from;
}

bool takes_away(const Repair& repair, const DecoyLook& decoy) {
  return repair.component == decoy.component ||
         std::any_of(all_visible_signs().begin(), all_visible_signs().end(), [&](const VisibleSign& sign) {
           return sign.component == decoy.component && sign.look == decoy.look &&
                  std::any_of(repair.restores.begin(), repair.restores.end(),
                              [&](std::string_view prefix) { return sign.path.starts_with(prefix); });
         });
}

}  // namespace

std::string_view look_at(std::string_view component, const RigParameters& now, const RigParameters& healthy,
                         std::span<const DecoyLook> decoys, bool starter_off) {
  const auto known = all_components();
  if (std::find(known.begin(), known.end(), component) == known.end()) return {};
  bool has_surface = false;
  for (const VisibleSign& sign : all_visible_signs()) {
    if (sign.component != component || (sign.on_bench && !starter_off)) continue;
    has_surface = true;
    const bool decoy = std::any_of(decoys.begin(), decoys.end(), [&](const DecoyLook& shown) {
      return shown.component == component && shown.look == sign.look;
    });
    if (decoy || shows(sign, now, healthy)) return sign.look;
  }
  return has_surface ? "clean" : "nothing_to_see";
}

bool look_proves(std::string_view look) {
  return std::find(proving_looks.begin(), proving_looks.end(), look) != proving_looks.end();
}

std::vector<DecoyLook> decoys_left(std::span<const DecoyLook> decoys, std::span<const std::string> repairs_done) {
  std::vector<DecoyLook> left;
  std::copy_if(decoys.begin(), decoys.end(), std::back_inserter(left), [&](const DecoyLook& decoy) {
    return std::none_of(repairs_done.begin(), repairs_done.end(), [&](const std::string& id) {
      const Repair* repair = repair_named(id);
      return repair != nullptr && takes_away(*repair, decoy);
    });
  });
  return left;
}

}  // namespace voltfall
