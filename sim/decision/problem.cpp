#include "decision/problem.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <span>

namespace voltfall::decision {
namespace {

using Complaints = std::vector<std::string>;

constexpr int most_accesses = 32;       // bits of an AccessSet
constexpr double sum_tolerance = 1e-4;  // likelihoods are floats, and up to some hundred of them are summed

bool sums_to_one(std::span<const double> shares) {
  const bool none_below_0 = std::all_of(shares.begin(), shares.end(), [](double share) { return share >= 0.0; });
  return none_below_0 && std::abs(std::accumulate(shares.begin(), shares.end(), 0.0) - 1.0) <= sum_tolerance;
}

void check_hypotheses(const Problem& problem, Complaints& complaints) {
  if (!sums_to_one(problem.prior)) complaints.emplace_back("prior: has to be shares of 0 or more that sum to 1");
  if (problem.candidate_of.size() != problem.prior.size()) {
    complaints.push_back(fmt::format("candidate_of: {} entries for {} hypotheses; one each is needed",
                                     problem.candidate_of.size(), problem.prior.size()));
  }
  for (const int candidate : problem.candidate_of) {
    if (candidate < 0) complaints.push_back(fmt::format("candidate_of: {} is below 0", candidate));
  }
  if (problem.unknown < -1 || problem.unknown >= problem.hypotheses()) {
    complaints.push_back(
        fmt::format("unknown: {} is no hypothesis; -1 to {} are allowed", problem.unknown, problem.hypotheses() - 1));
  }
  if (problem.unknown_floor < 0.0 || problem.unknown_floor >= 1.0) {
    complaints.push_back(fmt::format("unknown_floor: {} is no share; 0 to below 1 is allowed", problem.unknown_floor));
  }
  if (problem.repair_from_share < 0.0 || problem.repair_from_share > 1.0) {
    complaints.push_back(
        fmt::format("repair_from_share: {} is no share; 0 to 1 is allowed", problem.repair_from_share));
  }
}

void check_cost(const Problem& problem, const std::string& where, double minutes, AccessSet access,
                Complaints& complaints) {
  if (!(minutes > 0.0)) complaints.push_back(fmt::format("{}: takes {} minutes; above 0 is needed", where, minutes));
  const std::size_t known = problem.access_minutes.size();
  if (known < most_accesses && (access >> known) != 0) {
    complaints.push_back(fmt::format("{}: needs an access beyond the {} there are", where, known));
  }
}

void check_likelihood(const Problem& problem, const std::string& where, const Test& test, Complaints& complaints) {
  const auto needed = problem.prior.size() * static_cast<std::size_t>(std::max(test.outcomes, 0));
  if (test.outcomes < 1 || test.likelihood.size() != needed) {
    complaints.push_back(fmt::format("{}: {} likelihoods for {} hypotheses and {} outcomes; {} are needed", where,
                                     test.likelihood.size(), problem.prior.size(), test.outcomes, needed));
    return;
  }
  for (int hypothesis = 0; hypothesis < problem.hypotheses(); ++hypothesis) {
    const auto first = test.likelihood.begin() + static_cast<std::ptrdiff_t>(hypothesis) * test.outcomes;
    const std::vector<double> row(first, first + test.outcomes);
    if (!sums_to_one(row)) {
      complaints.push_back(
          fmt::format("{}, hypothesis {}: has to be shares of 0 or more that sum to 1", where, hypothesis));
    }
  }
}

}  // namespace

int Problem::candidates() const {
  return candidate_of.empty() ? 0 : 1 + *std::max_element(candidate_of.begin(), candidate_of.end());
}

std::vector<std::string> complaints_about(const Problem& problem) {
  Complaints complaints;
  check_hypotheses(problem, complaints);
  if (problem.access_minutes.size() > most_accesses) {
    complaints.push_back(
        fmt::format("access_minutes: {} accesses; at most {} fit", problem.access_minutes.size(), most_accesses));
  }
  for (std::size_t i = 0; i < problem.tests.size(); ++i) {
    const std::string where = fmt::format("test {}", i);
    check_cost(problem, where, problem.tests[i].minutes, problem.tests[i].access, complaints);
    check_likelihood(problem, where, problem.tests[i], complaints);
  }
  for (std::size_t i = 0; i < problem.repairs.size(); ++i) {
    const std::string where = fmt::format("repair {}", i);
    check_cost(problem, where, problem.repairs[i].cost_minutes, problem.repairs[i].access, complaints);
    for (const int candidate : problem.repairs[i].cures) {
      if (candidate >= 0 && candidate < problem.candidates()) continue;
      complaints.push_back(fmt::format("{}: cures {}, which is no candidate; 0 to {} are allowed", where, candidate,
                                       problem.candidates() - 1));
    }
  }
  return complaints;
}

}  // namespace voltfall::decision
