#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "diagnosis/diagnosis.h"
#include "rig/crank_run.h"
#include "scenario/scenario.h"

namespace voltfall {

/// Something that an author should know of a scenario.
struct VetRemark {
  std::string id;  ///< stable, for a machine: `complaint_absent`
  bool unsound;    ///< the job must not go out like this; else it is worth a thought
  std::string text;
};

/// A reading of the allowed kit under which a sound vehicle of the kind and this one answer differently.
struct VetReading {
  Question question;
  double healthy = 0.0, faulty = 0.0;  ///< in the limit's unit; of this very vehicle
  Expected limit;
  int answer = 0;            ///< what the faulty figure is held to be
  double accuracy = 0.0;     ///< what the instrument may be out by at the faulty figure
  double margin = 0.0;       ///< how far the faulty figure lies outside the limit, in accuracies
  bool shows_fault = false;  ///< it is a failing of the hidden thing itself
  std::optional<int> left;   ///< candidates that would explain this answer alone; empty at a glance
};

/// A sound, look or touch that shows the hidden thing itself.
struct VetSign {
  Question question;
  int answer = 0;
};

/// One step of the cheapest sound order.
struct VetStep {
  std::optional<Question> question;  ///< empty for a repair
  int answer = 0;
  std::vector<std::string> repairs;  ///< ids; empty with no question: hand it back as sound
  double minutes = 0.0;
  double truth_share = 0.0;  ///< of what is wrong with what can't be told from it, after the step
};

/// Volts of a test point against battery -.
struct VetPoint {
  TestPoint point;
  double rest_healthy_V, rest_faulty_V, cranking_healthy_V, cranking_faulty_V;
};

/// A crank as a recorder would draw it.
struct VetTrace {
  static constexpr double sample_s = 0.01;
  std::vector<float> posts_V, starter_V, loop_A, crank_rpm;
};

/// What is heard and seen of the vehicle as it comes in, as observation ids.
struct VetHeard {
  std::vector<std::string> healthy, faulty;
};

struct VetReport {
  std::string id, title;
  bool complete = false;           ///< false: at a glance, without what else would explain it and without par
  std::vector<VetRemark> remarks;  ///< those that make it unsound first
  VetHeard key_alone, with_lamps;
  std::vector<VetReading> readings;  ///< those that single it out best first; at a glance the clearest
  std::vector<VetSign> signs;        ///< beside readings
  std::vector<std::vector<std::string>> not_told_apart;  ///< fault ids of each thing this kit can't tell from it
  std::vector<VetStep> par;
  double par_minutes = 0.0;
  std::vector<VetPoint> points;
  VetTrace healthy_trace, faulty_trace;

  bool sound() const { return remarks.empty() || !remarks.front().unsound; }
};

/// Ids of the observations that hold in a prediction.
std::vector<std::string> observations_in(const Snapshot& shot);

/// What can be told at once, without a table: the complaint, the readings, what is provable, the decoys, the words,
/// points and traces.
VetReport vet_at_a_glance(const Scenario& scenario);

/// Simulates the vehicle sound and faulty, and asks: does what the driver complains of happen, can the fault be seen
/// with this kit, what can't be told from it, what singles it out, what does the cheapest sound order cost, are the
/// decoys honest, is there a way that endangers nobody.
/// @param table  of the scenario
VetReport vet(const Scenario& scenario, const std::shared_ptr<const SignatureTable>& table);

}  // namespace voltfall
