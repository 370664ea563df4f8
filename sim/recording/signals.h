#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

#include "rig/readings.h"

namespace voltfall {

/// One number of the readings that a tape keeps.
struct Signal {
  std::string_view name;
  std::string_view unit;  ///< empty for a plain number; "yes" for what is 1 when so and else 0
  double display;  ///< a difference below all that instruments and drawings show; a tape may forget less than this
  double (*in)(const Readings&);
};

/// Every signal but the volts of the test points and the amperes of the cables. A new signal is one row here.
inline constexpr std::array plain_signals{
    Signal{"loop", "A", 1.0e-3, [](const Readings& now) { return now.loop_A; }},
    Signal{"crank_speed", "rpm", 1.0e-2, [](const Readings& now) { return now.crank_rpm; }},
    Signal{"motor_speed", "rpm", 1.0e-2, [](const Readings& now) { return now.motor_rpm; }},
    Signal{"shaft", "Nm", 1.0e-3, [](const Readings& now) { return now.shaft_Nm; }},
    Signal{"shoe_travel", "m", 1.0e-6, [](const Readings& now) { return now.shoe_travel_m; }},
    Signal{"pinion_travel", "m", 1.0e-6, [](const Readings& now) { return now.pinion_travel_m; }},
    Signal{"shoe_seated", "yes", 0.5, [](const Readings& now) { return now.shoe_seated ? 1.0 : 0.0; }},
    Signal{"meshed", "yes", 0.5, [](const Readings& now) { return now.meshed ? 1.0 : 0.0; }},
    Signal{"relay_closed", "yes", 0.5, [](const Readings& now) { return now.relay_closed ? 1.0 : 0.0; }},
    Signal{"grounding_contacts_closed", "yes", 0.5,
           [](const Readings& now) { return now.grounding_contacts_closed ? 1.0 : 0.0; }},
    Signal{"lamp_light", "", 1.0e-4, [](const Readings& now) { return now.lamp_light; }},
    Signal{"lamp", "V", 1.0e-5, [](const Readings& now) { return now.lamp_V; }},
    Signal{"crank_angle", "deg", 1.0e-2, [](const Readings& now) { return now.crank_angle_deg; }},
    Signal{"winding", "C", 1.0e-2, [](const Readings& now) { return now.winding_C; }},
    Signal{"hottest_joint", "C", 1.0e-2, [](const Readings& now) { return now.hottest_joint_C; }},
};

inline constexpr std::size_t first_cable_signal = test_point_count;
inline constexpr std::size_t first_plain_signal = first_cable_signal + heavy_cable_count;
inline constexpr std::size_t signal_count = first_plain_signal + plain_signals.size();

/// Test points in numbered order, cables, then `plain_signals`; a signal's place here is how it is asked for.
/// Volts are against battery -, named by the point's id; amperes are positive from battery + to battery -, named by the
/// cable's.
std::span<const Signal, signal_count> all_signals();

constexpr std::size_t signal_of(TestPoint point) {
  return static_cast<std::size_t>(point);
}
constexpr std::size_t signal_of(HeavyCable cable) {
  return first_cable_signal + static_cast<std::size_t>(cable);
}
/// Empty when no signal has that name.
std::optional<std::size_t> signal_named(std::string_view name);

/// Every signal at once. As floats they are good to 6e-8 of their value: a microvolt in a battery's volts, a tenth of a
/// milliampere in its starting current, far below what any display shows.
void sample_signals(const Readings& now, std::span<float, signal_count> into);

}  // namespace voltfall
