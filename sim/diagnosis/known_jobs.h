#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "diagnosis/diagnosis.h"

namespace voltfall {

/// A job's diagnosis and what the planner would do in it.
struct KnownJob {
  std::shared_ptr<const Diagnosis> diagnosis;
  decision::Plan par;
};

/// @param asked_besides  what a learner asked beyond the usual questions
KnownJob known_job(const Scenario& scenario, const TableSource& tables, const std::vector<Question>& asked_besides);

/// Keeps them, so that a class's records of one job share one. May be asked from several threads.
class KnownJobs {
 public:
  KnownJob get(const Scenario& scenario, const TableSource& tables, const std::vector<Question>& asked_besides);

 private:
  struct Kept {
    std::vector<Question> asked_besides;
    KnownJob job;
  };

  std::mutex mutex_;
  std::multimap<std::string, Kept> kept_;  ///< by what the author wrote
};

}  // namespace voltfall
