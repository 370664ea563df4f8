#pragma once

#include <string>
#include <vector>

#include "diagnosis/diagnosis.h"
#include "job/findings.h"
#include "job/job_log.h"
#include "job/naming.h"
#include "rig/parameters.h"
#include "scenario/scenario.h"
#include "scoring/score.h"

namespace voltfall {

/// Everything a score is made from. Readings count as displayed.
struct JobFacts {
  const Scenario& scenario;
  const Diagnosis& diagnosis;  ///< of the scenario, with the learner's own questions in it
  const decision::Plan& par;   ///< the diagnosis' own
  const RigParameters& now;    ///< the vehicle as handed back
  const std::vector<Finding>& findings;
  const std::vector<Naming>& namings;
  const std::vector<std::string>& repairs_done;
  const JobLog& log;
  bool cranked_since_repair;  ///< the engine really cranked after the last repair
};

/// Gates, points and reasons, by the published formula.
Score score_job(const JobFacts& facts);

/// The probability that the findings give what is wrong (with what this kit can't tell from it): the lower of that from
/// the findings picked and that from all there were at the naming. 0 when another thing was named, or when no finding
/// picked is a failing of the named thing itself.
struct Support {
  double share = 0.0;
  std::string reason;
};
Support support_of(const JobFacts& facts);

/// A finding tells of the vehicle that came in: nothing that mends it had been done, and the fault was there (one that
/// comes and goes may have been away).
bool counts_as_evidence(const Finding& finding, const JobFacts& facts);

Gate cured_gate(const JobFacts& facts);
Gate proved_gate(const JobFacts& facts);

/// Whether a noted reading could answer any question at all, and if not, why not.
struct TestWorth {
  bool able = true;
  std::string why;
};
TestWorth worth_of(const Finding& finding, const Scenario& scenario);

}  // namespace voltfall
