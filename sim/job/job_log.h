#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace voltfall {

/// Published minutes of each kind of work; one table, after trade practice. Nothing else in the program knows them.
namespace job_minutes {
inline constexpr double first_crank = 3.0;         ///< hear the driver, reproduce the complaint
inline constexpr double crank = 1.0;               ///< any later turn of the key to start
inline constexpr double reading_at_rest = 1.0;     ///< noted, at a new pair of points
inline constexpr double reading_under_load = 1.5;  ///< noted, at a new pair; beside the crank itself
inline constexpr double repeated_reading = 0.5;    ///< same pair, same state
inline constexpr double clamp_reading = 1.5;
inline constexpr double behind_dash = 12.0;  ///< once, at the first reading there
inline constexpr double look = 1.0;
inline constexpr double ignition_disabled = 2.0;
inline constexpr double other_safety_step = 0.5;  ///< brake, eye protection
inline constexpr double negative_clamp = 1.0;     ///< off, and again on
// The kit, common practice: a half-CCA load test is five minutes in all, six cells with the hydrometer eight, a jumper
// two to four.
inline constexpr double load_tester_hung = 3.0;
inline constexpr double booster_hung = 5.0;
inline constexpr double heavy_lead_hung = 3.0;
inline constexpr double remote_switch_hung = 2.0;
inline constexpr double jumper_hung = 2.0;
inline constexpr double test_lamp_hung = 0.5;
inline constexpr double load_reading = 1.0;
inline constexpr double lamp_reading = 0.5;
inline constexpr double thermometer_reading = 0.5;
inline constexpr double tachometer_reading = 1.0;
inline constexpr double recorder_channel = 1.5;
inline constexpr double trace = 1.0;
inline constexpr double conductance_test = 2.0;
inline constexpr double first_cell = 3.0, next_cell = 1.0;
inline constexpr double fuse_replaced = 1.0;
// Hands. Access is counted once in a job, however often it is made.
inline constexpr double s_wire_lifted = 0.5;
inline constexpr double belt_off = 10.0;
inline constexpr double plugs_out = 30.0;
inline constexpr double engine_barred = 8.0;
inline constexpr double part_disturbed = 0.5;
inline constexpr double part_felt = 0.5;
inline constexpr double starter_off = 50.0;  ///< off, and on again
inline constexpr double first_bench_test = 10.0, next_bench_test = 3.0;
inline constexpr double least_starter_repair = 10.0;  ///< what is left of a starter repair once it lies on the bench
}  // namespace job_minutes

/// Parts used up by the work itself, in the scenario's currency units; common practice.
namespace job_money {
inline constexpr double meter_fuse = 4.0, jumper_fuse = 0.5;
}

/// One thing done, for the debrief's timeline.
struct LogEntry {
  double at_minute = 0.0;  ///< when it began
  std::string what;        ///< crank, reading, look, observation, safety, hands, hang, bench, name, repair, wait, close
  std::string detail;      ///< ids, or the reading in words
  double minutes = 0.0;
  double money = 0.0;
  bool counted = true;  ///< false: making safe, cooling and proof, which economy leaves out
};

enum class MarkKind { omission, slip, critical };

/// Something done wrong for safety: `id` is one of session/outcomes.h.
struct SafetyMark {
  MarkKind kind;
  std::string id;
  double at_minute;
};

class JobLog {
 public:
  void add(std::string what, std::string detail, double minutes, bool counted, double money = 0.0);
  /// The same omission counts once however often it is repeated; slips and critical acts count each time.
  void mark(MarkKind kind, std::string_view id);
  /// Part of the money already logged went on parts that cured nothing.
  void waste(double money) { wasted_money_ += money; }

  double minutes() const { return minutes_; }
  double money() const { return money_; }
  double wasted_money() const { return wasted_money_; }
  double counted_minutes() const { return counted_minutes_; }
  const std::vector<LogEntry>& entries() const { return entries_; }
  const std::vector<SafetyMark>& marks() const { return marks_; }
  int count(MarkKind kind) const;
  bool critical() const { return count(MarkKind::critical) > 0; }

 private:
  std::vector<LogEntry> entries_;
  std::vector<SafetyMark> marks_;
  double minutes_ = 0.0, money_ = 0.0, counted_minutes_ = 0.0, wasted_money_ = 0.0;
};

}  // namespace voltfall
