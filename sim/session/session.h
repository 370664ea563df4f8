#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "instruments/clamp_meter.h"
#include "instruments/multimeter.h"
#include "rig/rig.h"
#include "scenario/scenario.h"
#include "scoring/score.h"

namespace voltfall {

// A person's actions. Each is one small struct; `Action` is what a record stores and a replay feeds back.
struct TurnKey { KeyPosition to; };
struct SwitchHeadlamps { bool on; };
struct ShiftGear { Gear to; };
struct SetBrake { bool on; };
struct DisableIgnition { bool disabled; };
struct WearEyeProtection { bool on; };
struct ConnectNegative { bool connected; };           ///< negative clamp off (before unbolting) and on again
struct PutProbe { bool red; std::optional<TestPoint> at; };
struct PutClamp { std::optional<HeavyCable> round; };
struct ZeroClamp {};
struct SetMeterFunction { MeterFunction to; };
struct SetMeterHold { MeterHold to; };
struct NoteReading { bool clamp = false; };           ///< the meter's display, or the clamp's
struct NoteObservation { std::string id; };           ///< heard or seen: one_click, chatter, lamps_dim, lamps_bright, silence, whirr, slow_crank, normal_crank ...
struct LookClosely { std::string component; };        ///< costs a minute; shows green crust and the like if there is any
struct NameFault { std::string fault_id; std::vector<int> evidence; };  ///< `nothing_found` is allowed; seals the naming
struct DoRepair { std::string repair_id; };
struct PassTime { double wait_s; };                   ///< let it cool
struct CloseJob {};                                   ///< hand the vehicle back: the score is made

using Action = std::variant<TurnKey, SwitchHeadlamps, ShiftGear, SetBrake, DisableIgnition, WearEyeProtection,
                            ConnectNegative, PutProbe, PutClamp, ZeroClamp, SetMeterFunction, SetMeterHold, NoteReading,
                            NoteObservation, LookClosely, NameFault, DoRepair, PassTime, CloseJob>;

/// The electrical state a reading was taken in; readings chain in the fall line only within one state.
enum class ElectricalState { at_rest, key_on, cranking };

/// A reading or observation the learner chose to note. Only these are evidence.
struct Finding {
  int number;               ///< 1-based, as listed
  double job_minute;
  ElectricalState state;
  bool headlamps;
  bool after_repair;
  double loop_A;            ///< as the clamp would display it; the reading carries the current it was taken at
  MeterHold hold;
  // a meter reading
  std::optional<TestPoint> red, black;
  std::optional<HeavyCable> clamp;
  MeterDisplay shown;
  // or an observation
  std::string observation;
};

/// Why an action was not carried out, or what it did: said on the sheet in plain words by the user interface.
struct Outcome {
  bool done = true;
  std::string id;           ///< wording id when there is something to say, e.g. `negative_still_connected`
};

/// One person's work on one scenario. Time is the rig's: it goes by while something is happening and stands still
/// once the vehicle is at rest, so that wall time never counts and a replay is quick.
class Session {
 public:
  explicit Session(Scenario scenario);

  Outcome act(const Action& action);

  /// Lets up to `steps` rig steps go by; returns how many did (0 while everything is at rest).
  int run_steps(int steps);

  const Scenario& scenario() const;
  const Rig& rig() const;
  const Controls& controls() const;
  const Multimeter& meter() const;
  const ClampMeter& clamp() const;
  const std::vector<Finding>& findings() const;
  double job_minutes() const;           ///< published minutes of what was done so far
  double money_spent() const;
  std::uint64_t step_count() const;
  ElectricalState electrical_state() const;
  CrankState crank_state() const;       ///< as heard and seen over the last half second
  double closings_per_s() const;        ///< relay, over the last second
  std::optional<std::string> named_fault() const;
  bool closed() const;
  std::optional<Score> score() const;   ///< once closed
  std::vector<RigEvent> take_events();  ///< for sound, captions and animation
};

}  // namespace voltfall
