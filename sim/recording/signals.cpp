#include "recording/signals.h"

#include <algorithm>
#include <utility>

namespace voltfall {
namespace {

template <std::size_t point>
double volts_in(const Readings& now) {
  return now.node_V[point];
}

template <std::size_t cable>
double amps_in(const Readings& now) {
  return now.cable_A[cable];
}

// Known to the compiler whole, so that a sample is straight code without a call.
constexpr std::array<TapeSignal, tape_signal_count> unnamed = [] {
  std::array<TapeSignal, tape_signal_count> all{};
  const auto points = [&]<std::size_t... i>(std::index_sequence<i...>) {
    ((all[i] = {"", "V", 1.0e-5, volts_in<i>}), ...);
  };
  const auto cables = [&]<std::size_t... i>(std::index_sequence<i...>) {
    ((all[first_cable_signal + i] = {"", "A", 1.0e-3, amps_in<i>}), ...);
  };
  points(std::make_index_sequence<test_point_count>());
  cables(std::make_index_sequence<heavy_cable_count>());
  std::copy(plain_tape_signals.begin(), plain_tape_signals.end(), all.begin() + first_plain_signal);
  return all;
}();

}  // namespace

std::span<const TapeSignal, tape_signal_count> tape_signals() {
  static const std::array<TapeSignal, tape_signal_count> named = [] {
    std::array<TapeSignal, tape_signal_count> all = unnamed;
    for (const TestPoint point : all_test_points()) all[tape_signal_of(point)].name = id_of(point);
    for (std::size_t i = 0; i < heavy_cable_count; ++i) {
      const auto cable = static_cast<HeavyCable>(i);
      all[tape_signal_of(cable)].name = id_of(cable);
    }
    return all;
  }();
  return named;
}

std::optional<std::size_t> tape_signal_named(std::string_view name) {
  const auto signals = tape_signals();
  const auto found =
      std::find_if(signals.begin(), signals.end(), [&](const TapeSignal& signal) { return signal.name == name; });
  if (found == signals.end()) return std::nullopt;
  return static_cast<std::size_t>(found - signals.begin());
}

void sample_for_tape(const Readings& now, std::span<float, tape_signal_count> into) {
  [&]<std::size_t... i>(std::index_sequence<i...>) {
    ((into[i] = static_cast<float>(unnamed[i].in(now))), ...);
  }
  (std::make_index_sequence<tape_signal_count>());
}

}  // namespace voltfall
