#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "diagnosis/judging.h"
#include "job/findings.h"
#include "job/looks.h"
#include "vetting/vet_parts.h"

namespace voltfall::vetting {
namespace {

/// A proving reading of that component, out of its limit on this vehicle; empty when all are inside.
std::string failing_of(const Vehicle& vehicle, std::string_view component) {
  for (const Fault& fault : all_faults()) {
    if (fault.component != component) continue;
    for (const ProvingPair& pair : fault.proof) {
      if (limit_key_named(pair.limit)->measured_at != MeasuredAt::key_start) continue;
      const Question question{Finding::Kind::volts, Condition::cranking, pair.first, pair.second, {}, 0, {}};
      const auto limit = expected_for(question, vehicle.scenario);
      const double volts = figure_in(question, vehicle.faulty_shows);
      if (limit && outside(*limit, volts) > 0.0) {
        return fmt::format("{:.3g} V from {} to {} while cranking", volts, plain_words(id_of(pair.first)),
                           plain_words(id_of(pair.second)));
      }
    }
  }
  return {};
}

void judge_decoy(const Vehicle& vehicle, const DecoyLook& decoy, VetReport& report) {
  const std::string what = fmt::format("{}:{}", decoy.component, decoy.look);
  const RigParameters& healthy = vehicle.healthy;
  if (look_proves(decoy.look)) {
    return add_remark(
        report, true, "decoy_lies",
        fmt::format("decoy {} is a look that can't be mistaken: on a sound part it would be a lie", what));
  }
  const std::string_view real = look_at(decoy.component, vehicle.faulty, healthy);
  if (real == decoy.look) {
    return add_remark(report, true, "decoy_is_real",
                      fmt::format("decoy {} shows on what is at fault in just that way: it is no decoy", what));
  }
  if (look_at(decoy.component, vehicle.faulty, healthy, vehicle.scenario.decoys) != decoy.look) {
    return add_remark(report, false, "decoy_unseen",
                      fmt::format("decoy {} is never seen: the {} shows {} in its place", what,
                                  plain_words(decoy.component), plain_words(real)));
  }
  if (const std::string failing = failing_of(vehicle, decoy.component); !failing.empty()) {
    add_remark(
        report, true, "decoy_is_real",
        fmt::format("decoy {} is on a part that really fails: {}; a decoy has to lie on a sound one", what, failing));
  }
}

std::string lower_case(std::string text) {
  for (char& letter : text) letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
  return text;
}

}  // namespace

void judge_decoys(const Vehicle& vehicle, VetReport& report) {
  for (const DecoyLook& decoy : vehicle.scenario.decoys) judge_decoy(vehicle, decoy, report);
}

// Only a driver's own words belong there.
void judge_words(const Vehicle& vehicle, VetReport& report) {
  const std::string told = lower_case(vehicle.scenario.title + " " + vehicle.scenario.complaint);
  for (const HiddenFault& hidden : vehicle.scenario.faults) {
    const std::string component = plain_words(fault_named(hidden.id)->component);
    if (component == "battery" || component == "starter" || component == "engine") continue;  // anybody says those
    if (told.find(component) == std::string::npos) continue;
    add_remark(report, false, "complaint_names_it",
               fmt::format("the work order says \"{}\", and that is what is at fault", component));
  }
}

}  // namespace voltfall::vetting
