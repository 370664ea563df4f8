#pragma once

// What the files of this folder share; of no use outside it.

#include "vetting/vet.h"

namespace voltfall::vetting {

/// This very vehicle, sound and as it comes in.
struct Vehicle {
  const Scenario& scenario;
  RigParameters healthy, faulty;
  Signature healthy_shows, faulty_shows;

  explicit Vehicle(const Scenario& scenario);

  bool nothing_wrong() const { return scenario.faults.empty(); }
};

/// And everything that can be asked of it.
struct Subject : Vehicle {
  const Diagnosis& diagnosis;

  Subject(const Scenario& of, const Diagnosis& with) : Vehicle(of), diagnosis(with) {}
};

/// How far outside the band the figure lies; negative inside.
double outside(const Expected& limit, double figure);

void add_remark(VetReport& report, bool unsound, std::string id, std::string text);

/// Does the complaint occur?
void judge_complaint(const Vehicle& vehicle, VetReport& report);

/// Readings and signs: is the fault observable, and provable by a clear margin?
void judge_evidence(const Vehicle& vehicle, VetReport& report);

/// What else would explain each reading, and what can't be told apart by all of them.
void judge_what_is_left(const Subject& subject, VetReport& report);

/// The plan, and whether any step of it, or every proof, endangers somebody.
void judge_plan(const Subject& subject, VetReport& report);

/// Are the decoys on sound things, and to be seen?
void judge_decoys(const Vehicle& vehicle, VetReport& report);

/// Does the work order's text name what is at fault?
void judge_words(const Vehicle& vehicle, VetReport& report);

/// Why this question must not be asked of this vehicle; empty where it may.
std::string_view danger_in(const Question& question, const RigParameters& faulty);

}  // namespace voltfall::vetting
