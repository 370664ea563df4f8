#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "instruments/multimeter.h"
#include "rig/controls.h"
#include "rig/test_points.h"

namespace voltfall {

// A person's actions. Each is one small struct; `Action` is what a record stores and a replay feeds back.
struct TurnKey {
  KeyPosition to = KeyPosition::off;
};
struct SwitchHeadlamps {
  bool on = false;
};
struct ShiftGear {
  Gear to = Gear::park;
};
struct SetBrake {
  bool on = false;
};
struct DisableIgnition {
  bool disabled = false;
};
struct WearEyeProtection {
  bool on = false;
};
/// Negative clamp off (before unbolting) and on again (last).
struct ConnectNegative {
  bool connected = true;
};
/// Empty: the lead is taken off.
struct PutProbe {
  bool red = true;
  std::optional<TestPoint> at;
};
struct PutClamp {
  std::optional<HeavyCable> round;
};
/// Takes the present reading as zero.
struct ZeroClamp {};
struct SetMeterFunction {
  MeterFunction to = MeterFunction::volts_dc;
};
struct SetMeterHold {
  MeterHold to = MeterHold::none;
};
/// The meter's display, or the clamp's.
struct NoteReading {
  bool clamp = false;
};
/// One of `all_observations()`, about the latest crank.
struct NoteObservation {
  std::string id;
};
/// A component of the catalogue; a minute; becomes a finding.
struct LookClosely {
  std::string component;
};
struct NameFault {
  std::vector<std::string> fault_ids;  ///< one for each fault, or `nothing_found` alone; an id the catalogue has not
                                       ///< (a decoy of the completion list) is a wrong name, not an error
  std::vector<int> evidence;           ///< at most six finding numbers
};
struct DoRepair {
  std::string repair_id;
};
struct PassTime {
  double wait_s = 0.0;
};  ///< let it cool
/// Hand the vehicle back: the score is made.
struct CloseJob {};

using Action = std::variant<TurnKey, SwitchHeadlamps, ShiftGear, SetBrake, DisableIgnition, WearEyeProtection,
                            ConnectNegative, PutProbe, PutClamp, ZeroClamp, SetMeterFunction, SetMeterHold, NoteReading,
                            NoteObservation, LookClosely, NameFault, DoRepair, PassTime, CloseJob>;

}  // namespace voltfall
