#include "vetting/vet.h"

#include <algorithm>

#include "vetting/vet_parts.h"

namespace voltfall {
namespace vetting {
namespace {

/// A signature is simulated from what is typical: here, of this very vehicle.
Scenario as_its_own_kind(const Scenario& scenario) {
  Scenario own = scenario;
  own.typical = scenario.healthy;
  own.typical_rest = scenario.rest;
  return own;
}

std::vector<VetPoint> points_of(const Vehicle& vehicle) {
  std::vector<VetPoint> points;
  const auto volts = [](const Signature& signature, Condition condition, TestPoint point) {
    return signature.at(condition).volts_between(point, TestPoint::negative_post);
  };
  for (const TestPoint point : all_test_points()) {
    points.push_back({point, volts(vehicle.healthy_shows, Condition::rest, point),
                      volts(vehicle.faulty_shows, Condition::rest, point),
                      volts(vehicle.healthy_shows, Condition::cranking, point),
                      volts(vehicle.faulty_shows, Condition::cranking, point)});
  }
  return points;
}

VetTrace trace_of(const RigParameters& vehicle, const RestingPlace& rest) {
  constexpr double held_s = 2.0;
  VetTrace trace;
  double next_s = 0.0;
  run_crank(vehicle, rest, {}, {.for_s = held_s}, [&](const Readings& now) {
    if (now.time_s < next_s) return;
    next_s += VetTrace::sample_s;
    const auto between = [&](TestPoint red, TestPoint black) {
      return static_cast<float>(now.volts_at(red) - now.volts_at(black));
    };
    trace.posts_V.push_back(between(TestPoint::battery_positive_post, TestPoint::negative_post));
    trace.starter_V.push_back(between(TestPoint::starter_terminal, TestPoint::starter_case));
    trace.loop_A.push_back(static_cast<float>(now.loop_A));
    trace.crank_rpm.push_back(static_cast<float>(now.crank_rpm));
  });
  return trace;
}

}  // namespace

Vehicle::Vehicle(const Scenario& of) : scenario(of), healthy(of.healthy), faulty(of.faulty()) {
  const Scenario own = as_its_own_kind(of);
  healthy_shows = signature_of(healthy, own);
  faulty_shows = signature_of(faulty, own, &healthy_shows);
}

namespace {

/// What needs no table.
VetReport at_a_glance(const Vehicle& vehicle) {
  const Scenario& scenario = vehicle.scenario;
  VetReport report;
  report.id = scenario.id;
  report.title = scenario.title;
  judge_complaint(vehicle, report);
  judge_evidence(vehicle, report);
  judge_decoys(vehicle, report);
  judge_words(vehicle, report);
  report.points = points_of(vehicle);
  report.healthy_trace = trace_of(vehicle.healthy, scenario.rest);
  report.faulty_trace = trace_of(vehicle.faulty, scenario.rest);
  return report;
}

void put_unsound_first(VetReport& report) {
  std::stable_partition(report.remarks.begin(), report.remarks.end(),
                        [](const VetRemark& remark) { return remark.unsound; });
}

}  // namespace

void add_remark(VetReport& report, bool unsound, std::string id, std::string text) {
  report.remarks.push_back({std::move(id), unsound, std::move(text)});
}

}  // namespace vetting

VetReport vet_at_a_glance(const Scenario& scenario) {
  VetReport report = vetting::at_a_glance(vetting::Vehicle(scenario));
  vetting::put_unsound_first(report);
  return report;
}

VetReport vet(const Scenario& scenario, const std::shared_ptr<const SignatureTable>& table) {
  const Diagnosis diagnosis(scenario, table);
  const vetting::Subject subject(scenario, diagnosis);
  VetReport report = vetting::at_a_glance(subject);
  report.complete = true;
  judge_what_is_left(subject, report);
  judge_plan(subject, report);
  vetting::put_unsound_first(report);
  return report;
}

}  // namespace voltfall
