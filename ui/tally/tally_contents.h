#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "debrief/debrief_contents.h"
#include "marking/marking.h"
#include "wording/wording.h"

namespace voltfall {

/// What a class is judged by beside points; each is asked of every first attempt that counts.
enum class Concept { battery_first, loaded_testing, ground_side, supported_name, same_reading_again, safe_work };
inline constexpr std::size_t concept_count = 6;
std::string_view id_of(Concept one);

/// How often it was so, of how often it could have been.
struct Tallied {
  int held = 0, of = 0;
};

struct TallyPart {
  std::string part;  ///< diagnosis, proof, ...
  double points = 0.0, out_of = 0.0;
};

/// One record, as the tally tells of it.
struct TallyRecord {
  std::string pupil;  ///< code; the file's name for practice
  std::string file, job, title, vehicle_type, was, named;
  std::vector<std::string> fault_classes;
  int attempt = 0;
  MarkVerdict verdict = MarkVerdict::refused;
  std::vector<std::string> reasons;
  bool closed = false, passed = false, found = false;  ///< `found`: the first naming was right
  double total = 0.0, minutes = 0.0, money = 0.0;
  std::vector<TallyPart> parts;
  bool first_attempt_counts = false;       ///< what the class is judged by
  std::optional<DebriefContents> debrief;  ///< of those
};

/// What was named where something else was wrong.
struct WrongCall {
  std::string named, was;
  int times = 0;
};

/// A test that cost the class more than the best one would have.
struct DearTest {
  std::string test;
  int times = 0;
  double minutes = 0.0;  ///< over the best choice, all in all
};

/// How far a judgement of the class would reach. The project's own rule: eight jobs, four fault classes, two vehicles.
struct Reach {
  int jobs = 0, fault_classes = 0, vehicles = 0;
  static constexpr int jobs_asked = 8, fault_classes_asked = 4, vehicles_asked = 2;
  bool enough() const {
    return jobs >= jobs_asked && fault_classes >= fault_classes_asked && vehicles >= vehicles_asked;
  }
};

struct TallyContents {
  std::vector<TallyRecord> records;  ///< by pupil, job and attempt
  std::vector<std::string> pupils, jobs;
  std::vector<WrongCall> wrong_calls;  ///< the commonest first
  std::vector<DearTest> dear_tests;    ///< the dearest first
  std::array<Tallied, concept_count> concepts;
  std::vector<TallyPart> mean_parts;  ///< over first attempts that count
  Reach reach;
};

/// Works out every debrief anew, on all cores: some half a second of a core for each.
TallyContents tally_contents(const std::vector<Marked>& marked, const Wording& words);

}  // namespace voltfall
