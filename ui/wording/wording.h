#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "instruments/kit.h"
#include "job/findings.h"
#include "rig/readings.h"
#include "rig/test_points.h"
#include "scenario/problem.h"

namespace voltfall {

/// Something the learner may name: a fault of the catalogue, a decoy that no vehicle here has, or `nothing_found`.
struct Nameable {
  std::string id;
  std::string_view name;
};

/// The words of one language: every id in files and records turned into what a person reads.
/// A missing word shows as its id, so that a gap is seen and nothing is hidden.
class Wording {
 public:
  /// The text under a path of the language file, for example `outcome.name_first`.
  std::string_view text(std::string_view path) const;
  bool has(std::string_view path) const;
  /// A list of texts under a path; empty when there is none.
  std::vector<std::string_view> list(std::string_view path) const;

  std::string_view point(TestPoint point) const;        ///< `relay, battery stud`
  std::string_view point_short(TestPoint point) const;  ///< `relay bat. stud`
  std::string_view cable(HeavyCable cable) const;
  std::string_view component(std::string_view id) const;
  std::string_view fault(std::string_view id) const;  ///< component and mechanism; also for `nothing_found` and decoys
  std::string_view found(std::string_view fault_id) const;  ///< what was found, for the debrief
  std::string_view repair(std::string_view id) const;       ///< the job as it is ordered
  std::string_view repaired(std::string_view id) const;     ///< the job as it was done
  std::string_view limit(std::string_view key) const;
  std::string_view observation(std::string_view id) const;
  std::string_view look(std::string_view id) const;     ///< what a close look showed
  std::string_view outcome(std::string_view id) const;  ///< what the session answered to an action
  std::string_view kit(Kit kit) const;                  ///< `load tester`
  std::string_view kit_about(Kit kit) const;            ///< what it is good for, and its limits
  std::string_view device(Device device) const;
  std::string_view touch(std::string_view id) const;     ///< `look`, `wiggle`, `press`, `tap`, `feel`
  std::string_view bench(std::string_view id) const;     ///< a test of the starter off the vehicle
  std::string_view hand(std::string_view id) const;      ///< something done to the vehicle by hand, as one chooses it
  std::string_view capacity(std::string_view id) const;  ///< of the service sheet
  std::string_view gate(std::string_view id) const;
  std::string_view score_part(std::string_view id) const;
  std::string_view state(ElectricalState state) const;
  std::string_view crank_state(CrankState state) const;
  std::string_view lamp_look(LampLook look) const;
  std::string_view event(RigEventKind kind) const;      ///< caption of a sound
  std::vector<std::string_view> cautions() const;       ///< for the work order, in the order a job meets them
  std::string_view gloss(std::string_view term) const;  ///< two lines on a trade word

  /// Everything that can be named whose words hold all words of `typed`, each as the beginning of a word; synonyms
  /// count. Alphabetical, never by likelihood. Nothing below three letters.
  std::vector<Nameable> complete(std::string_view typed) const;

  /// What a whole name or synonym means, whatever its case and punctuation; empty when it is none.
  std::optional<std::string> meant_by(std::string_view typed) const;

  /// The whole list that `complete` searches, alphabetical.
  std::vector<Nameable> namings() const;

  /// Reads a language file. Mistakes are added to `problems`; what could be read is kept.
  static Wording read(const std::filesystem::path& file, std::vector<Problem>& problems);

 private:
  std::string_view under(std::string_view section, std::string_view id, std::string_view part) const;
  /// The name and every synonym of what can be named, in plain lower-case words.
  std::vector<std::string> spellings(const Nameable& choice) const;

  std::map<std::string, std::string, std::less<>> texts_;
  std::map<std::string, std::vector<std::string>, std::less<>> lists_;
};

/// The English words that ship with the program, read once.
const Wording& english();

}  // namespace voltfall
