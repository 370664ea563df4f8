#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

#include "hearing/crank_watch.h"
#include "job/findings.h"
#include "vetting/vet_parts.h"

namespace voltfall {

std::vector<std::string> observations_in(const Snapshot& shot) {
  std::vector<std::string> words;
  const auto all = all_observations();
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (((shot.words >> i) & 1U) != 0) words.emplace_back(all[i].id);
  }
  return words;
}

namespace vetting {
namespace {

VetHeard heard_in(const Vehicle& vehicle, Condition condition) {
  return {observations_in(vehicle.healthy_shows.at(condition)), observations_in(vehicle.faulty_shows.at(condition))};
}

bool has(const std::vector<std::string>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// All that is heard and seen but for the lamps: that they dim a little more is nobody's complaint.
std::uint32_t without_lamps(const Snapshot& shot) {
  std::uint32_t words = shot.words;
  const auto all = all_observations();
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].id.starts_with("lamps_")) words &= ~(std::uint32_t{1} << i);
  }
  return words;
}

/// What a driver may have met: the key turned with and without lamps, in the other gear, or only switched on.
constexpr std::array met{Condition::key_on, Condition::cranking, Condition::cranking_lamps,
                         Condition::cranking_other_gear};

bool differs_somewhere(const Vehicle& vehicle) {
  return std::any_of(met.begin(), met.end(), [&](Condition condition) {
    return exists_on(condition, vehicle.scenario.typical) &&
           without_lamps(vehicle.healthy_shows.at(condition)) != without_lamps(vehicle.faulty_shows.at(condition));
  });
}

void judge_symptoms(const Vehicle& vehicle, VetReport& report) {
  for (const std::string& symptom : vehicle.scenario.symptoms) {
    const bool heard = std::any_of(met.begin(), met.end(), [&](Condition condition) {
      return exists_on(condition, vehicle.scenario.typical) &&
             has(observations_in(vehicle.faulty_shows.at(condition)), symptom);
    });
    if (heard) continue;
    add_remark(report, true, "symptom_absent",
               fmt::format("job.symptoms names {}, which this vehicle never does; with the key at start it does: {}",
                           symptom, fmt::join(report.key_alone.faulty, ", ")));
  }
}

}  // namespace

void judge_complaint(const Vehicle& vehicle, VetReport& report) {
  report.key_alone = heard_in(vehicle, Condition::cranking);
  report.with_lamps = heard_in(vehicle, Condition::cranking_lamps);
  const bool differs = differs_somewhere(vehicle);
  if (vehicle.nothing_wrong() && !has(report.key_alone.faulty, "normal_crank")) {
    add_remark(
        report, true, "sound_vehicle_fails",
        "nothing is hidden in it, and yet it does not crank normally; mend the [vehicle], or hide the fault as one");
  } else if (!vehicle.nothing_wrong() && !differs) {
    add_remark(
        report, true, "complaint_absent",
        "with the key turned it sounds and looks as a sound vehicle does: there is nothing to complain of; raise "
        "the severity, or choose a vehicle or weather that brings it out");
  }
  judge_symptoms(vehicle, report);
  if (has(report.key_alone.faulty, "slow_crank") && has(report.key_alone.faulty, "normal_crank")) {
    add_remark(report, false, "between_slow_and_normal",
               "the crank lies between slow and normal, so that a fair ear may say either; a severity further from the "
               "border makes a clearer job");
  }
}

}  // namespace vetting
}  // namespace voltfall
