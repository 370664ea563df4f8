#include <fmt/format.h>

#include <algorithm>

#include "faults/catalogue.h"
#include "job/looks.h"
#include "limits/limits.h"
#include "rig/settable.h"
#include "scoring/score_job.h"

// Cured: the model itself is healthy again where it was hurt. Proved: the learner saw it.

namespace voltfall {
namespace {

bool is_cured(const Fault& fault, const JobFacts& facts) {
  return std::all_of(fault.edits.begin(), fault.edits.end(), [&](const ParameterEdit& edit) {
    const Settable* settable = settable_at(edit.path);
    return settable->value_in(facts.now) == settable->value_in(facts.scenario.healthy);
  });
}

// An intermittent fault that no repair has mended only sleeps.
bool sleeps(const HiddenFault& hidden, const JobFacts& facts) {
  return hidden.when != When::always && !still_hidden(std::span(&hidden, 1), facts.repairs_done).empty();
}

bool after_last_repair(const Finding& finding, const JobFacts& facts) {
  return finding.repairs_before == static_cast<int>(facts.repairs_done.size());
}

const Finding* failing_before(const ProvingPair& pair, const JobFacts& facts) {
  const auto found = std::find_if(facts.findings.begin(), facts.findings.end(), [&](const Finding& finding) {
    return !after_last_repair(finding, facts) && judged_by(pair, finding, facts.scenario) == Judged::outside;
  });
  return found == facts.findings.end() ? nullptr : &*found;
}

const Finding* sound_after(const ProvingPair& pair, const Finding& before, const JobFacts& facts) {
  const auto found = std::find_if(facts.findings.begin(), facts.findings.end(), [&](const Finding& finding) {
    return after_last_repair(finding, facts) && finding.state == before.state && finding.kind == before.kind &&
           judged_by(pair, finding, facts.scenario) == Judged::inside;
  });
  return found == facts.findings.end() ? nullptr : &*found;
}

// A fault that no pair of points reaches is proved by the sound of the crank.
Gate proved_by_ear(const Fault& fault, const JobFacts& facts) {
  const bool heard = std::any_of(facts.findings.begin(), facts.findings.end(), [&](const Finding& finding) {
    return after_last_repair(finding, facts) && finding.observation == "normal_crank" && finding.observation_true;
  });
  if (heard) return {"proved", true, "A normal crank was noted after the repair."};
  return {"proved", false,
          fmt::format("No normal crank was noted after the work on the {}.", plain_words(fault.component))};
}

// A look that can't be mistaken, and the same look after the repair.
bool looked_sound_after(const Fault& fault, const JobFacts& facts) {
  const auto looked = [&](bool after, bool failing) {
    return std::any_of(facts.findings.begin(), facts.findings.end(), [&](const Finding& finding) {
      return finding.kind == Finding::Kind::looked && finding.component == fault.component &&
             after_last_repair(finding, facts) == after && look_proves(finding.observation) == failing;
    });
  };
  return looked(false, true) && looked(true, false);
}

Gate proved_for(const Fault& fault, const JobFacts& facts) {
  bool failed_before = false;
  for (const ProvingPair& pair : fault.proof) {
    const Finding* before = failing_before(pair, facts);
    if (before == nullptr) continue;
    failed_before = true;
    const Finding* after = sound_after(pair, *before, facts);
    if (after == nullptr) continue;
    return {"proved", true,
            fmt::format("The reading that failed ({}) was taken again after the repair: {} ({}).", in_words(*before),
                        in_words(*after), limit_in_words(limit_in_force(pair.limit, facts.scenario)))};
  }
  if (looked_sound_after(fault, facts)) {
    return {
        "proved", true,
        fmt::format("What the look at the {} showed is gone, and the engine cranks.", plain_words(fault.component))};
  }
  if (failed_before) {
    return {
        "proved", false,
        "The reading that failed was not noted again after the repair, in the same state, inside its limit and at a "
        "current the limit is meant for."};
  }
  if (fault.signs.empty()) {
    return {"proved", false, "No failing reading of the faulty part was noted, so there was none to take again."};
  }
  return proved_by_ear(fault, facts);
}

}  // namespace

Gate cured_gate(const JobFacts& facts) {
  for (const HiddenFault& hidden : facts.scenario.faults) {
    if (is_cured(*fault_named(hidden.id), facts) && !sleeps(hidden, facts)) continue;
    return {"cured", false, fmt::format("Still there: {}.", plain_words(hidden.id))};
  }
  if (!facts.cranked_since_repair) {
    return {"cured", false, "The engine was not cranked properly after the last repair, so nobody saw it cured."};
  }
  return {"cured", true, "What was wrong is healthy again, and the engine cranks."};
}

Gate proved_gate(const JobFacts& facts) {
  if (!facts.cranked_since_repair) return {"proved", false, "No crank that turned the engine after the last repair."};
  Gate proved{"proved", true, "Nothing needed repair, and the engine was seen to crank."};
  for (const HiddenFault& hidden : facts.scenario.faults) {
    proved = proved_for(*fault_named(hidden.id), facts);
    if (!proved.held) return proved;
  }
  return proved;
}

}  // namespace voltfall
