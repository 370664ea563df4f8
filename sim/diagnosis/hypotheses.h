#pragma once

#include <string>
#include <vector>

#include "faults/catalogue.h"
#include "scenario/scenario.h"

namespace voltfall {

/// One thing that may be true of the vehicle: nothing wrong, a fault at one severity, or a pair.
struct Hypothesis {
  std::vector<HiddenFault> faults;  ///< empty: nothing is wrong
  int candidate = 0;
};

/// What a person would name. Several severities of a fault are one candidate.
struct Candidate {
  std::vector<std::string> fault_ids;  ///< empty: nothing is wrong
  double prior = 0.0;
};

/// Everything that may be wrong with a scenario's vehicle.
struct Hypotheses {
  std::vector<Candidate> candidates;  ///< the first is "nothing wrong"; the last stands for "something else or more
                                      ///< than one" and has no hypothesis of its own to simulate
  std::vector<Hypothesis> all;        ///< without the last candidate's

  int unknown_candidate() const { return static_cast<int>(candidates.size()) - 1; }
};

/// Shares of complaints of no or slow crank by class, which the faults of a class share evenly (trade.md C: battery and
/// charge 40, clamps and cables 20, control side 13, relay 9, starter 13, engine and ring gear 5 %). A scenario's
/// `[priors]` takes their place.
double usual_prior(FaultClass fault_class);

/// Healthy, every fault that the vehicle can have at its documented lowest, usual and highest severity (and one between
/// where its range is wide), the pairs of cause and casualty that trade practice lists, and a pair that the scenario
/// itself hides.
Hypotheses hypotheses_for(const Scenario& scenario);

/// The vehicle if the hypothesis were true.
RigParameters parameters_under(const Hypothesis& hypothesis, const RigParameters& healthy);

}  // namespace voltfall
