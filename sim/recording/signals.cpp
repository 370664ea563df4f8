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
constexpr std::array<Signal, signal_count> unnamed_signals = [] {
  std::array<Signal, signal_count> all{};
  const auto points = [&]<std::size_t... i>(std::index_sequence<i...>) {
    ((all[i] = {"", "V", 1.0e-5, volts_in<i>}), ...);
  };
  const auto cables = [&]<std::size_t... i>(std::index_sequence<i...>) {
    ((all[first_cable_signal + i] = {"", "A", 1.0e-3, amps_in<i>}), ...);
  };
  points(std::make_index_sequence<test_point_count>());
  cables(std::make_index_sequence<heavy_cable_count>());
  std::copy(plain_signals.begin(), plain_signals.end(), all.begin() + first_plain_signal);
  return all;
}();

}  // namespace

std::span<const Signal, signal_count> all_signals() {
  static const std::array<Signal, signal_count> named = [] {
    std::array<Signal, signal_count> all = unnamed_signals;
    for (const TestPoint point : all_test_points()) all[signal_of(point)].name = id_of(point);
    for (std::size_t i = 0; i < heavy_cable_count; ++i) {
      const auto cable = static_cast<HeavyCable>(i);
      all[signal_of(cable)].name = id_of(cable);
    }
    return all;
  }();
  return named;
}

std::optional<std::size_t> signal_named(std::string_view name) {
  const auto signals = all_signals();
  const auto found =
      std::find_if(signals.begin(), signals.end(), [&](const Signal& signal) { return signal.name == name; });
  if (found == signals.end()) return std::nullopt;
  return static_cast<std::size_t>(found - signals.begin());
}

void sample_signals(const Readings& now, std::span<float, signal_count> into) {
  [&]<std::size_t... i>(std::index_sequence<i...>) {
    ((into[i] = static_cast<float>(unnamed_signals[i].in(now))), ...);
  }
  (std::make_index_sequence<signal_count>());
}

}  // namespace voltfall
