#pragma once

#include <vector>

#include "decision/problem.h"
#include "diagnosis/question.h"
#include "scenario/scenario.h"

namespace voltfall {

/// Work that is done once and lets several tests or repairs be done: bits of a decision::AccessSet.
/// `complaint`: the driver is heard and the complaint reproduced, with the first crank.
enum class Access { behind_dash, negative_off, belt_off, plugs_out, starter_off, complaint };

/// Published minutes of each, in the order of the enum.
std::vector<double> access_minutes();
decision::AccessSet bit_of(Access access);

/// Every test that a competent person might think of with this scenario's kit, on its vehicle.
std::vector<Question> sensible_questions(const Scenario& scenario);

/// What it takes to answer it, without the access it needs.
double minutes_for(const Question& question);
decision::AccessSet access_for(const Question& question);

}  // namespace voltfall
