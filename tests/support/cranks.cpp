#include "support/cranks.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "rig/settable.h"

namespace voltfall {

RigParameters vehicle_with(std::initializer_list<Setting> settings) {
  RigParameters parameters;
  for (const Setting& setting : settings) {
    const Settable* settable = settable_at(setting.path);
    if (settable == nullptr) throw std::invalid_argument("no such path: " + std::string(setting.path));
    settable->in(parameters) = setting.value;
  }
  return parameters;
}

CrankResult crank(const RigParameters& parameters, const LoadParameters& load) {
  return run_crank(parameters, {}, load, {});
}

CrankResult crank_for(double seconds, const RigParameters& parameters, const LoadParameters& load,
                      const RestingPlace& rest) {
  return run_crank(parameters, rest, load, {.for_s = seconds});
}

CrankResult crank_with_lamps(const RigParameters& parameters) {
  return run_crank(parameters, {}, {}, {.for_s = {}, .headlamps = true});
}

double volts_between(const CrankResult& result, TestPoint red, TestPoint black) {
  const auto mean_V = [&](TestPoint point) { return result.settled.points[static_cast<std::size_t>(point)].mean; };
  return mean_V(red) - mean_V(black);
}

double closure_over_limit(const EnergyLedger& energy) {
  return std::abs(energy.closure_error_J()) / std::max(1.0e-3 * std::abs(energy.battery_out_J), 1.0);
}

}  // namespace voltfall
