#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "diagnosis/known_jobs.h"
#include "hearing/crank_watch.h"
#include "instruments/clamp_meter.h"
#include "instruments/hung_devices.h"
#include "instruments/kit.h"
#include "instruments/multimeter.h"
#include "instruments/recorder.h"
#include "instruments/tachometer.h"
#include "instruments/thermometer.h"
#include "job/findings.h"
#include "job/job_log.h"
#include "job/naming.h"
#include "rig/rig.h"
#include "scenario/scenario.h"
#include "scoring/score_job.h"
#include "session/actions.h"

namespace voltfall {

/// Why an action was not carried out, or what it did: said on the sheet in plain words by the user interface.
struct Outcome {
  bool done = true;
  std::string id;  ///< one of session/outcomes.h when there is something to say, else empty; for LookClosely what
                   ///< the look showed
};

/// One change of the learner's own list of what may still be wrong.
struct SuspectMark {
  std::string fault_id;
  bool struck = true;
  int findings_then = 0;  ///< how many findings there were
  double job_minute = 0.0;
};

/// One person's work on one scenario. Time is the rig's: it goes by while something is happening and stands still
/// once the vehicle is at rest, so that wall time never counts and a replay is quick.
///
/// A vehicle comes in with the ignition live, the brake off, in park, nobody wearing eye protection. A job goes:
/// act() and run_steps() in turn, as often as liked; NameFault; DoRepair; the failing reading noted again; CloseJob.
/// Bound to nothing else: same scenario, same actions at the same step counts, same bits.
class Session {
 public:
  static constexpr double step_s = Rig::step_s;

  /// @param tables  asked once, when the job is closed and scored
  explicit Session(Scenario scenario, TableSource tables = table_on_the_spot);

  /// Carries the action out at the present step. An action that can't be done changes nothing and says why.
  /// Safety is judged here and while time goes by: see `log().marks`.
  Outcome act(const Action& action);

  /// Lets up to `steps` rig steps go by; returns how many did (0 while everything is at rest). However the steps are
  /// portioned, the bits are the same.
  int run_steps(int steps);
  /// The same in seconds of rig time, rounded to whole steps.
  int run_for_s(double seconds);

  /// The latest finding stands as this record says it was displayed (`shown_words`). Returns how many counts of the
  /// display it was off; empty, with nothing changed, when the two are not figures of the same kind.
  std::optional<double> take_as_displayed(std::string_view recorded);

  /// Called after every action with the step count it happened at; for the record.
  using Listener = std::function<void(const Session&, std::uint64_t step, const Action&, const Outcome&)>;
  void listen(Listener listener);

  /// With these at hand when the job is closed, what others of the same job asked for need not be worked out again.
  void share(std::shared_ptr<KnownJobs> known_jobs) { known_jobs_ = std::move(known_jobs); }

  const Scenario& scenario() const { return scenario_; }
  const Rig& rig() const { return rig_; }
  const Controls& controls() const { return controls_; }
  bool brake_on() const { return brake_on_; }
  bool eye_protection_on() const { return eye_protection_on_; }
  const Multimeter& meter() const { return meter_; }
  const ClampMeter& clamp() const { return clamp_; }
  const std::vector<Finding>& findings() const { return findings_; }
  std::uint64_t step_count() const { return step_count_; }
  /// Cranking while the starter is fed: by the key, the remote switch or a jumper to the relay's coil.
  ElectricalState electrical_state() const;
  bool starter_fed() const;
  /// The starter is fed or the load tester is turned up: something that a person would not leave on.
  bool under_load() const;

  bool has_kit(Kit kit) const;
  /// What an instrument's display shows; `no_lead` for one that has none, or that is not connected.
  MeterDisplay shown_by(Kit kit) const;
  /// True when that display (the lamp's glow, the recorder's capture) can be noted now.
  bool can_be_noted(Kit kit) const;
  const std::vector<Hung>& hung() const { return devices_.all(); }
  bool remote_pressed() const { return devices_.remote_pressed(); }
  double load_tester_A() const { return devices_.load_tester().asked_A(); }  ///< what the pile is turned to
  double load_held_s() const { return devices_.load_tester().held_s(); }
  double test_lamp_light() const { return devices_.lamp_light(); }  ///< 0 to 1
  std::optional<TestPoint> thermometer_at() const { return thermometer_.at(); }
  const Recorder& recorder() const { return recorder_; }
  bool meter_fuse_blown() const { return meter_.fuse_blown(); }
  bool jumper_fuse_blown() const { return devices_.jumper_fuse_blown(); }
  bool starter_off() const { return controls_.starter_off; }
  bool vehicle_moved() const { return vehicle_moved_; }  ///< the starter drove it off in gear
  /// The learner's own list: what they have struck off, and every change of it.
  const std::set<std::string>& struck_suspects() const { return struck_; }
  const std::vector<SuspectMark>& suspect_marks() const { return suspect_marks_; }

  /// True when the display shows a whole window taken in the present state (or a held figure): it can be noted.
  bool meter_can_be_noted() const { return can_be_noted(Kit::multimeter); }
  bool clamp_can_be_noted() const { return can_be_noted(Kit::clamp_meter); }
  /// State the held extreme was taken in; empty when hold is off or has no figure.
  std::optional<ElectricalState> held_from() const;

  CrankState crank_state() const { return watch_.state(); }          ///< as heard and seen over the last half second
  double closings_per_s() const { return watch_.closings_per_s(); }  ///< relay, over the last second
  LampLook lamp_look() const;
  /// The present crank, or the last one; empty before the first.
  const std::optional<CrankSeen>& last_crank() const { return watch_.last_crank(); }

  const JobLog& log() const { return log_; }  ///< timeline, minutes, money, safety
  double job_minutes() const { return log_.minutes(); }
  double money_spent() const { return log_.money(); }
  const std::vector<Naming>& namings() const { return namings_; }
  /// The latest naming's first fault; empty before any.
  std::optional<std::string> named_fault() const;
  const std::vector<std::string>& repairs_done() const { return repairs_done_; }
  /// A crank after the last repair (or any crank when there was none) turned the engine properly.
  bool cranked_since_repair() const { return cranked_since_repair_; }
  /// A critical act happened: whatever follows is practice.
  bool is_practice() const { return log_.critical(); }
  bool closed() const { return closed_; }
  std::optional<Score> score() const { return score_; }  ///< once closed, unless the job is sealed and not released
  /// What the score was made from, for the debrief. Once there is a score.
  JobFacts facts() const;
  std::vector<RigEvent> take_events();  ///< since the last call; for sound, captions and animation

 private:
  /// Ways in that are paid for once.
  enum class Access { behind_dash, belt, plugs, starter };
  /// The circumstances of the latest crank: what is heard of it is noted when the key has long been let go.
  struct CrankTaken {
    Around around;
    bool headlamps = false;
    bool faults_there = true;
  };
  /// The circumstances a displayed figure came about in.
  struct Taken {
    ElectricalState state = ElectricalState::at_rest;
    bool steady = false;   ///< nothing was switched within the figure's own window
    bool settled = false;  ///< nor within the third of a second before it showed
    double loop_A = 0.0;   ///< mean over that window
    Around around;
  };
  struct DisplayTrack {
    std::optional<double> shown_at_s;
    Taken taken;
  };
  /// Loop current of the latest third of a second, step by step, so that a figure's own window can be averaged.
  class RecentAmps {
   public:
    RecentAmps();
    void add(double amps);
    double mean_of_last(std::size_t steps) const;

   private:
    std::vector<double> ring_;
    std::size_t next_ = 0, filled_ = 0;
  };

  Outcome carry_out(const TurnKey& action);
  Outcome carry_out(const SwitchHeadlamps& action);
  Outcome carry_out(const ShiftGear& action);
  Outcome carry_out(const SetBrake& action);
  Outcome carry_out(const DisableIgnition& action);
  Outcome carry_out(const WearEyeProtection& action);
  Outcome carry_out(const ConnectNegative& action);
  Outcome carry_out(const PutProbe& action);
  Outcome carry_out(const PutClamp& action);
  Outcome carry_out(const ZeroClamp& action);
  Outcome carry_out(const SetMeterFunction& action);
  Outcome carry_out(const SetMeterHold& action);
  Outcome carry_out(const NoteReading& action);
  Outcome carry_out(const NoteObservation& action);
  Outcome carry_out(const LookClosely& action);
  Outcome carry_out(const NameFault& action);
  Outcome carry_out(const DoRepair& action);
  Outcome carry_out(const PassTime& action);
  Outcome carry_out(const CloseJob& action);
  Outcome carry_out(const MoveClutchPedal& action);
  Outcome carry_out(const LiftSWire& action);
  Outcome carry_out(const TakeBeltOff& action);
  Outcome carry_out(const TakePlugsOut& action);
  Outcome carry_out(const BarEngine& action);
  Outcome carry_out(const DisturbPart& action);
  Outcome carry_out(const FeelPart& action);
  Outcome carry_out(const HangDevice& action);
  Outcome carry_out(const TakeDeviceOff& action);
  Outcome carry_out(const PressRemote& action);
  Outcome carry_out(const TurnLoadTester& action);
  Outcome carry_out(const BridgeStuds& action);
  Outcome carry_out(const DipHydrometer& action);
  Outcome carry_out(const TestConductance& action);
  Outcome carry_out(const AimThermometer& action);
  Outcome carry_out(const PutRecorderChannel& action);
  Outcome carry_out(const ArmRecorder& action);
  Outcome carry_out(const TakeStarterOff& action);
  Outcome carry_out(const TestOnBench& action);
  Outcome carry_out(const StrikeSuspect& action);
  Outcome carry_out(const ReplaceFuse& action);

  void step_once();
  bool is_quiet() const;
  void switched();
  void follow(Kit kit, std::optional<double> shown_at_s, double window_s);
  void judge_running_crank();
  Outcome feed_starter(bool by_bypass);
  void stop_feeding();
  void judge_crank_safety(Outcome& outcome, bool by_bypass);
  bool bypassed() const;
  bool drives_off() const;
  void judge_kit();
  Outcome require_eye_protection();
  std::optional<double> shown_at_s(Kit kit) const;
  DisplayTrack& track_of(Kit kit) { return tracks_[static_cast<std::size_t>(kit)]; }
  const DisplayTrack& track_of(Kit kit) const { return tracks_[static_cast<std::size_t>(kit)]; }
  void follow_displays();
  void fill_reading(Finding& finding, Kit from) const;
  Outcome note(Finding finding, std::string what, std::string detail, double minutes);
  Around around() const;
  /// None of the hidden faults has gone away for a while.
  bool faults_are_there() const;
  void attach_kit();
  Outcome judge_hanging(const Hung& hung);
  bool battery_is_live() const;
  double access_minutes(Access access, double published);
  void work_for(double minutes);
  void tap_brushes_down();
  void let_go_of_brushes();
  void rest_elsewhere();
  std::uint64_t seed() const;
  void set_triggers(const Triggers& next);
  void follow_heat();
  void cool_for(double span_s);
  void count_heat();
  bool would_crank_plainly() const;
  double warmed_by_plain_cranking_s() const;
  void follow_wait(double waited_s);
  void shake(std::string_view component);
  RigParameters awake() const;
  std::string_view charge_hazard() const;
  Finding new_finding(Finding::Kind kind) const;
  void charge_reading(const Finding& finding);
  Outcome check_naming(const NameFault& action) const;

  Scenario scenario_;
  TableSource tables_;
  std::shared_ptr<KnownJobs> known_jobs_;
  Rig rig_;
  Controls controls_;
  Multimeter meter_;
  ClampMeter clamp_;
  HungDevices devices_;
  Thermometer thermometer_;
  Tachometer tachometer_;
  Recorder recorder_;
  CrankWatch watch_;
  CrankTaken crank_taken_;
  /// As `Finding::cranked_s`, of plain cranks and of others.
  double plain_cranked_s_ = 0.0, other_cranked_s_ = 0.0;
  bool cranks_plainly_ = false;
  JobLog log_;
  std::vector<Finding> findings_;
  std::vector<Naming> namings_;
  std::vector<std::string> repairs_done_;
  std::vector<RigEvent> events_;
  RecentAmps recent_A_;
  std::array<DisplayTrack, kit_count> tracks_;
  Listener listener_;
  KnownJob job_;  ///< once closed
  bool closed_ = false;
  std::optional<Score> score_;
  std::uint64_t step_count_ = 0;
  std::uint64_t switched_at_step_ = 0;
  double quiet_s_ = 0.0;
  bool brake_on_ = false, eye_protection_on_ = false;
  bool vehicle_moved_ = false;
  bool meter_fuse_counted_ = false, load_slip_counted_ = false;
  std::set<std::string> struck_;
  std::vector<SuspectMark> suspect_marks_;
  std::set<Access> accessed_;
  std::set<TestPoint> shown_cool_;            ///< by the thermometer, since the starter was last fed
  std::optional<double> tapped_brushes_ohm_;  ///< what holds the brushes up again after the next crank
  std::uint64_t bridged_until_step_ = 0;
  int times_barred_ = 0, cells_dipped_ = 0, bench_tests_ = 0, times_cranked_ = 0;
  Triggers triggers_;  ///< of intermittent faults
  bool cranked_since_repair_ = false;
  int cranks_since_repair_ = 0;
  std::size_t marks_before_crank_ = 0;
  std::optional<double> long_crank_ended_at_minute_;
};

}  // namespace voltfall
