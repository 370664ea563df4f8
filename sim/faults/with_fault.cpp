#include <algorithm>
#include <cassert>

#include "faults/catalogue.h"
#include "rig/settable.h"

namespace voltfall {
namespace {

double edited(double before, EditKind kind, double by) {
  switch (kind) {
    case EditKind::set:
      return by;
    case EditKind::add:
      return before + by;
    case EditKind::scale:
      return before * by;
  }
  return before;
}

bool touches(const Repair& repair, std::string_view path) {
  return std::any_of(repair.restores.begin(), repair.restores.end(),
                     [&](std::string_view prefix) { return path.starts_with(prefix); });
}

}  // namespace

RigParameters with_fault(RigParameters parameters, const Fault& fault, double severity) {
  for (const ParameterEdit& edit : fault.edits) {
    const Settable* settable = settable_at(edit.path);
    assert(settable != nullptr);
    double& value = settable->in(parameters);
    value = edited(value, edit.kind, edit.fixed.value_or(severity));
  }
  return parameters;
}

std::string_view shared_path(const Fault& one, const Fault& other) {
  for (const ParameterEdit& edit : one.edits) {
    for (const ParameterEdit& second : other.edits) {
      if (edit.path == second.path) return edit.path;
    }
  }
  return {};
}

bool mends(const Repair& repair, const Fault& fault) {
  return std::all_of(fault.edits.begin(), fault.edits.end(),
                     [&](const ParameterEdit& edit) { return touches(repair, edit.path); });
}

bool charges_battery(const Repair& repair) {
  return touches(repair, "battery.charge");
}

RigParameters with_repair(RigParameters now, const Repair& repair, const RigParameters& healthy) {
  for (const Settable& settable : all_settables()) {
    if (touches(repair, settable.path)) settable.in(now) = settable.value_in(healthy);
  }
  return now;
}

}  // namespace voltfall
