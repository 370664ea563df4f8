#include "dealing/deal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <random>
#include <set>

#include "dealing/fault_pool.h"
#include "scenario/read_scenario.h"
#include "work/on_all_cores.h"

namespace voltfall {
namespace {

constexpr int most_tries = 40;

/// A scenario of the pool, and all that its variants are held against.
struct Original {
  Scenario scenario;
  VetReport report;
  std::vector<PoolFault> faults;
};

/// Draws from its own bits for each pupil, so that one pupil's job is the same however many there are.
class Draw {
 public:
  Draw(std::uint64_t seed, std::uint64_t pupil) {
    std::seed_seq sequence{seed & 0xffffffffU, seed >> 32U, pupil};
    bits_.seed(sequence);
  }
  double unit() { return static_cast<double>(bits_() >> 11U) * 0x1.0p-53; }
  std::size_t below(std::size_t count) { return static_cast<std::size_t>(unit() * static_cast<double>(count)); }

 private:
  std::mt19937_64 bits_;
};

/// Letters and digits that nobody reads one for another.
std::string code_of(Draw& draw) {
  constexpr std::string_view letters = "ACDEFHJKMNPRTUVWXY347";
  constexpr int before_hyphen = 3, in_all = 6;
  std::string code;
  for (int i = 0; i < in_all; ++i) {
    if (i == before_hyphen) code += '-';
    code += letters[draw.below(letters.size())];
  }
  return code;
}

double drawn_severity(const PoolFault& fault, Draw& draw) {
  if (fault.lowest <= 0.0 || fault.highest <= fault.lowest) return fault.lowest;
  const double severity = fault.lowest * std::pow(fault.highest / fault.lowest, draw.unit());
  constexpr double digits = 3.0;  // as a person would write it
  const double step = std::pow(10.0, std::floor(std::log10(severity)) - digits + 1.0);
  return std::clamp(std::round(severity / step) * step, fault.lowest, fault.highest);
}

/// Two faults stay what they are, only their severity is drawn: the author has fitted them together.
std::vector<HiddenFault> drawn_faults(const Original& original, std::size_t turn, Draw& draw) {
  const auto& own = original.scenario.faults;
  if (own.empty()) return {};
  std::vector<HiddenFault> faults;
  if (own.size() > 1) {
    constexpr double aside = 0.15;
    for (HiddenFault hidden : own) {
      const Fault& fault = *fault_named(hidden.id);
      const double factor = 1.0 + aside * (2.0 * draw.unit() - 1.0);
      if (fault.has_degrees()) hidden.severity = std::clamp(hidden.severity * factor, fault.lowest, fault.highest);
      faults.push_back(std::move(hidden));
    }
    return faults;
  }
  const PoolFault& fault = original.faults[turn % original.faults.size()];
  return {{fault.id, drawn_severity(fault, draw), own.front().when}};
}

bool same_faults(const std::vector<HiddenFault>& one, const std::vector<HiddenFault>& other) {
  return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                    [](const HiddenFault& a, const HiddenFault& b) { return a.id == b.id; });
}

Variant drawn_variant(const Original& original, std::size_t turn, Draw& draw, const DebriefOf& debrief_of) {
  constexpr double seeds = 1.0e9;
  Variant variant;
  variant.faults = drawn_faults(original, turn, draw);
  for (const DecoyLook& decoy : original.scenario.decoys) {
    const bool on_fault = std::any_of(variant.faults.begin(), variant.faults.end(), [&](const HiddenFault& hidden) {
      return fault_named(hidden.id)->component == decoy.component;
    });
    if (!on_fault) variant.decoys.push_back(decoy);
  }
  variant.scatter_seed = static_cast<std::uint64_t>(draw.unit() * seeds);
  const bool authors_own = same_faults(variant.faults, original.scenario.faults);
  variant.debrief = authors_own ? original.scenario.debrief : debrief_of(variant.faults);
  return variant;
}

bool is_as_told(const VetReport& report, const Original& original) {
  if (!report.sound() || !tells_same_tale(report, original.scenario, original.report)) return false;
  const bool named = std::any_of(report.remarks.begin(), report.remarks.end(),
                                 [](const VetRemark& remark) { return remark.id == "complaint_names_it"; });
  const double par = original.report.par_minutes;
  return !named && std::abs(report.par_minutes - par) <= par_band * par;
}

/// The faults of the pool that, half-way between their ends, make a job like the original: turns are taken among these,
/// so that a class gets as many different ones as there are.
std::vector<PoolFault> fitting(const Original& original, std::vector<PoolFault> faults, const TableSource& tables) {
  std::vector<char> fits(faults.size(), 0);
  on_all_cores(faults.size(), [&](std::size_t index) {
    const PoolFault& fault = faults[index];
    const double middle = fault.lowest > 0.0 ? std::sqrt(fault.lowest * fault.highest) : fault.lowest;
    const Variant variant{{{fault.id, middle, original.scenario.faults.front().when}}, {}, 0, "-"};
    const ReadScenario read =
        read_scenario_text(variant_text(original.scenario.source_text, variant), original.scenario.id + ".toml");
    fits[index] = read.scenario && is_as_told(vet(*read.scenario, tables(*read.scenario)), original) ? 1 : 0;
  });
  std::vector<PoolFault> kept;
  for (std::size_t i = 0; i < faults.size(); ++i) {
    if (fits[i] != 0) kept.push_back(std::move(faults[i]));
  }
  return kept;
}

std::optional<DealtJob> dealt_to(std::size_t pupil, const std::vector<Original>& pool, std::uint64_t seed,
                                 const TableSource& tables, const DebriefOf& debrief_of) {
  const Original& original = pool[pupil % pool.size()];
  const std::size_t place = pupil / pool.size();
  Draw draw(seed, pupil);
  const std::string code = code_of(draw);
  for (int tried = 0; tried < most_tries; ++tried) {
    const std::size_t turn = place + static_cast<std::size_t>(tried / 2);
    const std::string text =
        variant_text(original.scenario.source_text, drawn_variant(original, turn, draw, debrief_of));
    ReadScenario read = read_scenario_text(text, original.scenario.id + ".toml");
    if (!read.scenario) continue;
    VetReport report = vet(*read.scenario, tables(*read.scenario));
    if (is_as_told(report, original)) return DealtJob{code, text, std::move(*read.scenario), std::move(report)};
  }
  return std::nullopt;
}

/// The pool's scenarios, vetted; those that can't be dealt from are problems.
std::vector<Original> originals_of(const DealRequest& request, const TableSource& tables,
                                   std::vector<std::string>& problems) {
  std::vector<std::optional<Original>> all(request.pool.size());
  on_all_cores(request.pool.size(), [&](std::size_t index) {
    const Scenario& scenario = request.pool[index];
    all[index] = Original{scenario, vet(scenario, tables(scenario)), {}};
  });
  for (std::optional<Original>& original : all) {
    const Scenario& scenario = original->scenario;
    if (scenario.faults.size() != 1 || !original->report.sound()) continue;
    original->faults =
        fitting(*original, fault_pool(scenario, *tables(scenario), original->report, request.seed), tables);
  }
  std::vector<Original> pool;
  for (std::optional<Original>& original : all) {
    if (!original->report.sound()) {
      problems.push_back(
          fmt::format("{} is unsound: {}", original->scenario.id, original->report.remarks.front().text));
    } else if (original->scenario.faults.size() == 1 && original->faults.empty()) {
      problems.push_back(fmt::format("{}: no fault that may be dealt makes a job like it", original->scenario.id));
    } else {
      pool.push_back(std::move(*original));
    }
  }
  return pool;
}

}  // namespace

Deal deal(const DealRequest& request, const TableSource& tables, const DebriefOf& debrief_of) {
  Deal dealt;
  const std::vector<Original> pool = originals_of(request, tables, dealt.problems);
  if (pool.empty()) return dealt;
  std::vector<std::optional<DealtJob>> jobs(static_cast<std::size_t>(request.count));
  on_all_cores(jobs.size(),
               [&](std::size_t pupil) { jobs[pupil] = dealt_to(pupil, pool, request.seed, tables, debrief_of); });
  std::set<std::string> codes;
  for (std::size_t pupil = 0; pupil < jobs.size(); ++pupil) {
    if (jobs[pupil] && !request.codes.empty()) jobs[pupil]->code = request.codes[pupil];
    if (!jobs[pupil]) {
      dealt.problems.push_back(
          fmt::format("no variant for pupil {} came within {:.0f} % of par in {} tries; widen "
                      "deal.faults or take another seed",
                      pupil + 1, 100.0 * par_band, most_tries));
      continue;
    }
    while (!codes.insert(jobs[pupil]->code).second) jobs[pupil]->code += "2";
    dealt.jobs.push_back(std::move(*jobs[pupil]));
  }
  return dealt;
}

}  // namespace voltfall
