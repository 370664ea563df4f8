#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "dealing/variant.h"
#include "diagnosis/signature_table.h"
#include "vetting/vet.h"

namespace voltfall {

/// How far a variant's par may lie from that of the scenario it was made from, as a share of it.
inline constexpr double par_band = 0.5;

/// What to take home from a fault that the author's own words are not about.
using DebriefOf = std::function<std::string(const std::vector<HiddenFault>& faults)>;

struct DealRequest {
  std::vector<Scenario> pool;  ///< at least one; pupils get them in turn
  int count = 1;
  std::uint64_t seed = 0;
  std::vector<std::string> codes;  ///< of the pupils, in order, at least `count`; empty: drawn by the seed
};

/// One pupil's job.
struct DealtJob {
  std::string code;  ///< what stands for the pupil: seven letters and digits that can't be mistaken for one another
  std::string text;  ///< of the scenario
  Scenario scenario;
  VetReport report;  ///< sound
};

struct Deal {
  std::vector<DealtJob> jobs;         ///< in the order of the pupils
  std::vector<std::string> problems;  ///< why some could not be dealt, whole sentences; then there are fewer jobs
};

/// Makes variants: another fault that the driver would tell the same tale of, another severity, a vehicle that reads a
/// little otherwise and stopped somewhere else. Every one is vetted, and its par lies within the band. Same request,
/// same deal. A pool's scenario that is itself unsound is a problem.
/// @param tables  may be asked from several threads
Deal deal(const DealRequest& request, const TableSource& tables, const DebriefOf& debrief_of);

}  // namespace voltfall
