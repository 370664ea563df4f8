#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hearing/crank_watch.h"
#include "instruments/clamp_meter.h"
#include "instruments/multimeter.h"
#include "job/findings.h"
#include "job/job_log.h"
#include "job/naming.h"
#include "rig/rig.h"
#include "scenario/scenario.h"
#include "scoring/score.h"
#include "session/actions.h"

namespace voltfall {

/// Why an action was not carried out, or what it did: said on the sheet in plain words by the user interface.
struct Outcome {
  bool done = true;
  std::string id;  ///< one of session/outcomes.h when there is something to say, else empty; for LookClosely what
                   ///< the look showed
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

  explicit Session(Scenario scenario);

  /// Carries the action out at the present step. An action that can't be done changes nothing and says why.
  /// Safety is judged here and while time goes by: see `log().marks`.
  Outcome act(const Action& action);

  /// Lets up to `steps` rig steps go by; returns how many did (0 while everything is at rest). However the steps are
  /// portioned, the bits are the same.
  int run_steps(int steps);
  /// The same in seconds of rig time, rounded to whole steps.
  int run_for_s(double seconds);

  /// Called after every action with the step count it happened at; for the record.
  using Listener = std::function<void(const Session&, std::uint64_t step, const Action&, const Outcome&)>;
  void listen(Listener listener);

  const Scenario& scenario() const { return scenario_; }
  const Rig& rig() const { return rig_; }
  const Controls& controls() const { return controls_; }
  bool brake_on() const { return brake_on_; }
  bool eye_protection_on() const { return eye_protection_on_; }
  const Multimeter& meter() const { return meter_; }
  const ClampMeter& clamp() const { return clamp_; }
  const std::vector<Finding>& findings() const { return findings_; }
  std::uint64_t step_count() const { return step_count_; }
  ElectricalState electrical_state() const;
  /// True when the display shows a whole window taken in the present state (or a held figure): it can be noted.
  bool meter_can_be_noted() const;
  bool clamp_can_be_noted() const;
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
  bool closed() const { return score_.has_value(); }
  std::optional<Score> score() const { return score_; }  ///< once closed
  std::vector<RigEvent> take_events();                   ///< since the last call; for sound, captions and animation

 private:
  /// The circumstances a displayed figure came about in.
  struct Taken {
    ElectricalState state = ElectricalState::at_rest;
    bool steady = false;  ///< nothing was switched within the figure's own window
    double loop_A = 0.0;  ///< mean over that window
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

  void step_once();
  bool is_quiet() const;
  void switched();
  void follow(DisplayTrack& track, std::optional<double> shown_at_s, double window_s);
  void judge_running_crank();
  Outcome begin_crank();
  void end_crank();
  Outcome require_eye_protection();
  Outcome note_display(bool clamp);
  Finding new_finding(Finding::Kind kind) const;
  void charge_reading(const Finding& finding);
  Outcome check_naming(const NameFault& action) const;
  bool has_kit(Kit kit) const;

  Scenario scenario_;
  Rig rig_;
  Controls controls_;
  Multimeter meter_;
  ClampMeter clamp_;
  CrankWatch watch_;
  JobLog log_;
  std::vector<Finding> findings_;
  std::vector<Naming> namings_;
  std::vector<std::string> repairs_done_;
  std::vector<RigEvent> events_;
  RecentAmps recent_A_;
  DisplayTrack meter_track_, clamp_track_;
  Listener listener_;
  std::optional<Score> score_;
  std::uint64_t step_count_ = 0;
  std::uint64_t switched_at_step_ = 0;
  double quiet_s_ = 0.0;
  bool brake_on_ = false, eye_protection_on_ = false;
  bool behind_dash_open_ = false;
  bool cranked_since_repair_ = false;
  int cranks_since_repair_ = 0;
  std::size_t marks_before_crank_ = 0;
  std::optional<double> long_crank_ended_at_minute_;
};

}  // namespace voltfall
