#pragma once

#include <string>
#include <vector>

#include "vetting/vet.h"
#include "wording/wording.h"

namespace voltfall {

/// What vetting found, for an author to read: the verdict first, then why, then what the job asks.
std::string vet_report_as_text(const VetReport& report, const Wording& words);

/// A figure with its unit as an instrument of the trade shows it: `0.412 V`, `38.5 mV`.
std::string figure_with_unit(const Question& question, double figure);

/// `limit 0.05 V` or `at least 9.6 V` or `2.5 to 5 ohm`, for the question's own unit.
std::string limit_text(const Question& question, const Expected& limit);

/// All but those that the same points show with the lamps on: they tell an author nothing more.
std::vector<const VetReading*> readings_worth_showing(const VetReport& report);

/// How many things would explain the reading; dots as long as that is not known.
std::string left_text(const VetReading& reading);

/// One step of the plan in words, without its minutes.
std::string vet_step_text(const VetStep& step, const Wording& words);

/// Observations in words, the sounds first.
std::string heard_text(const std::vector<std::string>& observations, const Wording& words);

}  // namespace voltfall
