#include "bench/healthy_crank.h"

#include <cmath>

#include "rig/crank_run.h"

namespace voltfall {
namespace {

constexpr double row_s = 1.0e-3, engaging_s = 0.3, cranked_s = 1.5;

PointVolts volts_of(const Readings& now) {
  PointVolts volts{};
  for (std::size_t i = 0; i < test_point_count; ++i) volts[i] = static_cast<float>(now.node_V[i]);
  return volts;
}

}  // namespace

HealthyCrank::HealthyCrank(const RigParameters& healthy, const RestingPlace& rest, bool headlamps) {
  Rig still(healthy, rest);
  Controls controls = ready_to_crank(healthy);
  controls.headlamps = headlamps;
  constexpr double lamps_warm_s = 0.3;
  for (double t_s = 0.0; t_s < lamps_warm_s; t_s += Rig::step_s) still.step(controls);
  rest_ = volts_of(still.readings());
  const CrankResult cranked =
      run_crank(healthy, rest, {}, {.for_s = cranked_s, .headlamps = headlamps}, [&](const Readings& now) {
        const bool due = now.time_s >= row_s * static_cast<double>(engaging_.size());
        if (due && now.time_s < engaging_s) engaging_.push_back(volts_of(now));
      });
  for (std::size_t i = 0; i < test_point_count; ++i) {
    settled_[i] = static_cast<float>(cranked.settled.points[i].mean);
  }
}

const PointVolts& HealthyCrank::after_key(double after_s) const {
  const auto row = static_cast<std::size_t>(std::max(0.0, after_s / row_s));
  return row < engaging_.size() ? engaging_[row] : settled_;
}

}  // namespace voltfall
