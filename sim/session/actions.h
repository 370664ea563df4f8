#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "instruments/kit.h"
#include "instruments/multimeter.h"
#include "instruments/starter_bench.h"
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
/// What an instrument shows now.
struct NoteReading {
  Kit from = Kit::multimeter;  ///< one that has a display or a glow: meter, clamp, load tester, lamp, thermometer,
                               ///< tachometer, recorder
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
// Hands.
struct MoveClutchPedal {
  bool down = false;
};
/// The push-on wire of the relay's S terminal.
struct LiftSWire {
  bool lifted = false;
};
struct TakeBeltOff {
  bool off = false;
};
struct TakePlugsOut {
  bool out = false;
};
/// Two turns by hand at the crank pulley: a finding of how it goes, and the engine rests elsewhere.
struct BarEngine {};
enum class Touch { wiggle, press, tap };
/// A component of the catalogue, with the hand or a soft hammer.
struct DisturbPart {
  Touch how = Touch::wiggle;
  std::string component;
};
/// The back of a hand on it: a finding of how warm it is.
struct FeelPart {
  std::string component;
};

// Things hung across the circuit.
struct HangDevice {
  Hung hung;
};
struct TakeDeviceOff {
  Device device = Device::test_lamp;
};
struct PressRemote {
  bool pressed = false;
};
/// Current the load tester's pile is turned to; 0 lets go.
struct TurnLoadTester {
  double amps = 0.0;
};
/// A tool laid across the relay's heavy studs.
struct BridgeStuds {};

// Instruments that give a finding at once.
struct DipHydrometer {
  int cell = 1;
};
struct TestConductance {};

/// A new fuse in the meter or in the jumper.
struct ReplaceFuse {
  Kit in = Kit::multimeter;  ///< or fused_jumper
};

// Instruments with a display.
struct AimThermometer {
  std::optional<TestPoint> at;
};
/// One channel of the recorder: volts from `red` to `black`, or amperes in a cable.
struct PutRecorderChannel {
  int channel = 1;  ///< 1 or 2
  std::optional<TestPoint> red, black;
  std::optional<HeavyCable> round;
};
/// Waits for channel 1 to cross `level` and then keeps `span_s` of both.
struct ArmRecorder {
  double level = 0.0;
  bool rising = true;
  double span_s = 1.0;
};

// The starter off the vehicle.
struct TakeStarterOff {
  bool off = true;
};
struct TestOnBench {
  BenchTest test = BenchTest::no_load;
};

/// The learner's own list of what may still be wrong. A fault of the catalogue.
struct StrikeSuspect {
  std::string fault_id;
  bool struck = true;
};
struct PassTime {
  double wait_s = 0.0;
};  ///< let it cool
/// Hand the vehicle back: the score is made.
struct CloseJob {};

using Action =
    std::variant<TurnKey, SwitchHeadlamps, ShiftGear, SetBrake, DisableIgnition, WearEyeProtection, ConnectNegative,
                 PutProbe, PutClamp, ZeroClamp, SetMeterFunction, SetMeterHold, NoteReading, NoteObservation,
                 LookClosely, NameFault, DoRepair, PassTime, CloseJob, MoveClutchPedal, LiftSWire, TakeBeltOff,
                 TakePlugsOut, BarEngine, DisturbPart, FeelPart, HangDevice, TakeDeviceOff, PressRemote, TurnLoadTester,
                 BridgeStuds, DipHydrometer, TestConductance, AimThermometer, PutRecorderChannel, ArmRecorder,
                 TakeStarterOff, TestOnBench, StrikeSuspect, ReplaceFuse>;

/// True for an action that, once done, leaves a finding behind.
bool makes_finding(const Action& action);

}  // namespace voltfall
