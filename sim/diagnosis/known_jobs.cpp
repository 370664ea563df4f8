#include "diagnosis/known_jobs.h"

#include <algorithm>

namespace voltfall {

KnownJob known_job(const Scenario& scenario, const TableSource& tables, const std::vector<Question>& asked_besides) {
  KnownJob job;
  job.diagnosis = std::make_shared<const Diagnosis>(scenario, tables(scenario), asked_besides);
  job.par = job.diagnosis->par();
  return job;
}

KnownJob KnownJobs::get(const Scenario& scenario, const TableSource& tables,
                        const std::vector<Question>& asked_besides) {
  {
    const std::lock_guard lock(mutex_);
    const auto [first, last] = kept_.equal_range(scenario.source_text);
    const auto kept =
        std::find_if(first, last, [&](const auto& one) { return one.second.asked_besides == asked_besides; });
    if (kept != last) return kept->second.job;
  }
  KnownJob job = known_job(scenario, tables, asked_besides);
  const std::lock_guard lock(mutex_);
  kept_.emplace(scenario.source_text, Kept{asked_besides, job});
  return job;
}

}  // namespace voltfall
