#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

#include "rig/readings.h"

namespace voltfall {

/// One number of the readings that a tape keeps.
struct TapeSignal {
  std::string_view name;
  std::string_view unit;  ///< empty for a plain number; "yes" for what is 1 when so and else 0
  double display;  ///< a difference below all that instruments and drawings show; a tape may forget less than this
  double (*in)(const Readings&);
};

/// Every signal but the volts of the test points and the amperes of the cables. A new signal is one row here.
inline constexpr std::array plain_tape_signals{
    TapeSignal{"loop", "A", 1.0e-3, [](const Readings& now) { return now.loop_A; }},
    TapeSignal{"crank_speed", "rpm", 1.0e-2, [](const Readings& now) { return now.crank_rpm; }},
    TapeSignal{"motor_speed", "rpm", 1.0e-2, [](const Readings& now) { return now.motor_rpm; }},
    TapeSignal{"shaft", "Nm", 1.0e-3, [](const Readings& now) { return now.shaft_Nm; }},
    TapeSignal{"shoe_travel", "m", 1.0e-6, [](const Readings& now) { return now.shoe_travel_m; }},
    TapeSignal{"pinion_travel", "m", 1.0e-6, [](const Readings& now) { return now.pinion_travel_m; }},
    TapeSignal{"shoe_seated", "yes", 0.5, [](const Readings& now) { return now.shoe_seated ? 1.0 : 0.0; }},
    TapeSignal{"meshed", "yes", 0.5, [](const Readings& now) { return now.meshed ? 1.0 : 0.0; }},
    TapeSignal{"relay_closed", "yes", 0.5, [](const Readings& now) { return now.relay_closed ? 1.0 : 0.0; }},
    TapeSignal{"grounding_contacts_closed", "yes", 0.5,
               [](const Readings& now) { return now.grounding_contacts_closed ? 1.0 : 0.0; }},
    TapeSignal{"lamp_light", "", 1.0e-4, [](const Readings& now) { return now.lamp_light; }},
    TapeSignal{"lamp", "V", 1.0e-5, [](const Readings& now) { return now.lamp_V; }},
    TapeSignal{"crank_angle", "deg", 1.0e-2, [](const Readings& now) { return now.crank_angle_deg; }},
    TapeSignal{"winding", "C", 1.0e-2, [](const Readings& now) { return now.winding_C; }},
    TapeSignal{"hottest_joint", "C", 1.0e-2, [](const Readings& now) { return now.hottest_joint_C; }},
};

inline constexpr std::size_t first_cable_signal = test_point_count;
inline constexpr std::size_t first_plain_signal = first_cable_signal + heavy_cable_count;
inline constexpr std::size_t tape_signal_count = first_plain_signal + plain_tape_signals.size();

/// Test points in numbered order, cables, then `plain_tape_signals`; a signal's place here is how it is asked for.
/// Volts are against battery -, named by the point's id; amperes are positive from battery + to battery -, named by the
/// cable's.
std::span<const TapeSignal, tape_signal_count> tape_signals();

constexpr std::size_t tape_signal_of(TestPoint point) {
  return static_cast<std::size_t>(point);
}
constexpr std::size_t tape_signal_of(HeavyCable cable) {
  return first_cable_signal + static_cast<std::size_t>(cable);
}
/// Empty when no signal has that name.
std::optional<std::size_t> tape_signal_named(std::string_view name);

/// Every signal at once. As floats they are good to 6e-8 of their value: a microvolt in a battery's volts, a tenth of a
/// milliampere in its starting current, far below what any display shows.
void sample_for_tape(const Readings& now, std::span<float, tape_signal_count> into);

}  // namespace voltfall
