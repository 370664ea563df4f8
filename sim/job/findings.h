#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "instruments/kit.h"
#include "instruments/multimeter.h"
#include "rig/controls.h"
#include "rig/test_points.h"

namespace voltfall {

/// The electrical state a reading was taken in; readings chain in the fall line only within one state.
enum class ElectricalState { at_rest, key_on, cranking };
std::string_view id_of(ElectricalState state);

/// The rest of the circumstances something was noted in.
struct Around {
  Gear gear = Gear::park;
  bool ignition_live = false;
  bool clutch_pedal_down = false;
  bool s_wire_on = true;
  bool belt_off = false;
  bool plugs_out = false;
  bool starter_off = false;     ///< on the bench
  bool remote_pressed = false;  ///< the remote switch held: the starter runs with the key where it was
  std::vector<Hung> hung;       ///< in the order of `Device`

  bool operator==(const Around&) const = default;
};

/// A reading or observation the learner chose to note. Only these are evidence.
struct Finding {
  enum class Kind {
    volts,
    ohms,
    amps,
    heard_or_seen,  ///< `observation`, about the latest crank
    looked,         ///< `component`, `observation`
    felt,           ///< by hand: `component`, `observation`
    gravity,        ///< hydrometer: `cell`, `shown`
    cold_amps,      ///< conductance tester's estimate of the cold cranking rating
    load_volts,     ///< battery posts under the load tester
    temperature,    ///< thermometer aimed at `red`
    speed,          ///< tachometer
    lamp,           ///< test lamp from `red` to `black`: `observation` is lamp_bright, lamp_dim or lamp_dark
    bench,          ///< starter on the bench: `observation` is the bench test's id
    trace           ///< recorder: peak of channel 1, from `red` to `black` or in `clamp`
  } kind = Kind::volts;
  int number = 0;  ///< 1-based, as listed
  double job_minute = 0.0;
  ElectricalState state = ElectricalState::at_rest;
  bool headlamps = false;
  bool battery_connected = true;
  Around around;
  bool faults_there = true;  ///< none of the hidden faults had gone away for a while; not for the learner
  bool after_repair = false;
  int repairs_before = 0;  ///< how many repairs had been done
  double loop_A = 0.0;     ///< mean over the reading's own window, rounded as a clamp would show it
  MeterHold hold = MeterHold::none;
  // a meter or clamp reading
  std::optional<TestPoint> red, black;
  std::optional<HeavyCable> clamp;
  MeterDisplay shown;
  /// The second figure where an instrument has one: amperes beside load volts, revolutions beside no-load amperes, the
  /// lowest beside a trace's peak, the free way beside a clutch's driving way.
  MeterDisplay also_shown;
  /// Recorder: channel 1's mean over the capture's last third of a second, as the meter would have shown it; `no_lead`
  /// where something was switched in that time.
  MeterDisplay settled;
  double held_s = 0.0;  ///< load tester: how long the load had been on
  int cell = 0;         ///< 1 to 6, from the positive end
  /// Temperature, and a hand that feels for warmth: seconds at `usual_cranking_A` that would have warmed a joint as
  /// much as the plain cranks so far, less what it has given off since; 0 when the starter was also fed with something
  /// changed.
  double cranked_s = 0.0;
  // an observation, or what a close look showed at `component`
  std::string observation;
  std::string component;
  bool observation_true = false;  ///< what the session itself saw; not for the learner before the debrief

  bool is_reading() const { return kind == Kind::volts || kind == Kind::ohms || kind == Kind::amps; }
  /// Same two points in either order.
  bool is_between(TestPoint one, TestPoint other) const;
};

/// An id in plain words: underscores become spaces.
std::string plain_words(std::string_view id);

/// What was seen, alone: `0.512 V`, `11.02 V / 310 A`, or an observation's id. What a record compares on replay.
std::string shown_words(const Finding& finding);

/// Puts the figures of a `shown_words` in place of the finding's own. Returns by how many counts of the coarser display
/// the worse of them was off; empty, with nothing changed, when the words are not figures of the same kind.
std::optional<double> set_displayed(Finding& finding, std::string_view words);

/// A finding on one line: `0.512 V from battery positive post to positive clamp, cranking, 152 A`.
std::string in_words(const Finding& finding);

/// The figure as it would be with the leads the other way round, so that red is at `first`.
double volts_from(const Finding& finding, TestPoint first);

}  // namespace voltfall
