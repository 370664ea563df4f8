#include "limits/limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "numbers/straight_lines.h"

namespace voltfall {
namespace {

// What kind of reading a key is about, besides when it is taken.
bool measures(const LimitKey& key, const Finding& finding) {
  using Kind = Finding::Kind;
  switch (finding.kind) {
    case Kind::volts:
      return key.unit == "V" && (key.measured_at == MeasuredAt::rest || key.measured_at == MeasuredAt::key_start);
    case Kind::ohms:
      return key.measured_at == MeasuredAt::power_off;
    case Kind::amps:
      return key.id == "cranking_current";
    case Kind::speed:
      return key.id == "cranking_speed";
    case Kind::load_volts:
      return key.measured_at == MeasuredAt::load_test;
    case Kind::gravity:
      return key.id == "battery_gravity";
    case Kind::cold_amps:
      return key.id == "battery_cold_amps";
    case Kind::bench:
      return key.id == bench_limit(finding.observation);
    default:
      return false;
  }
}

bool measured_right(const LimitKey& key, const Finding& finding) {
  if (!measures(key, finding)) return false;
  switch (key.measured_at) {
    case MeasuredAt::key_start:
      return finding.state == ElectricalState::cranking;
    case MeasuredAt::rest:
      return finding.state == ElectricalState::at_rest && !finding.headlamps;
    case MeasuredAt::power_off:
      return finding.state == ElectricalState::at_rest;
    case MeasuredAt::load_test:
    case MeasuredAt::bench:
      return true;
  }
  return false;
}

Judged judged_drop(const Limit& limit, double volts, double loop_A) {
  const double beyond = limit.to_A > 0.0 ? std::max(1.0, loop_A / limit.to_A) : 1.0;
  if (volts > limit.highest * beyond) return Judged::outside;
  return loop_A >= limit.from_A && loop_A <= limit.to_A ? Judged::inside : Judged::does_not_apply;
}

Judged judged_floor(const Limit& limit, double volts, double loop_A) {
  if (loop_A > limit.to_A) return Judged::does_not_apply;
  if (volts < limit.lowest) return Judged::outside;
  return loop_A >= limit.from_A ? Judged::inside : Judged::does_not_apply;
}

Judged judged_band(const Limit& limit, double value) {
  const bool high = limit.highest > 0.0 && value > limit.highest;
  return high || value < limit.lowest ? Judged::outside : Judged::inside;
}

}  // namespace

std::string_view bench_limit(std::string_view test) {
  if (test == "no_load") return "no_load_current";
  return test == "hold_in" ? "hold_in_coil" : test;
}

LimitInForce limit_in_force(std::string_view limit, const Scenario& scenario) {
  const LimitKey* key = limit_key_named(limit);
  assert(key != nullptr);
  const auto own = scenario.limits.find(std::string(limit));
  if (own != scenario.limits.end()) return {key, own->second};
  return {key, {key->lowest, key->highest, key->from_A, key->to_A}};
}

Judged judged_by(const LimitInForce& limit, const Finding& finding) {
  if (!measured_right(*limit.key, finding)) return Judged::does_not_apply;
  const bool upper = limit.figures.highest > 0.0;
  if (finding.shown.kind == MeterDisplay::Kind::overload && upper) return Judged::outside;
  if (finding.shown.kind != MeterDisplay::Kind::value) return Judged::does_not_apply;
  const double value = std::abs(finding.shown.base_value());
  const double loop_A = std::abs(finding.loop_A);
  if (limit.key->is_drop()) return judged_drop(limit.figures, value, loop_A);
  if (limit.key->is_floor()) return judged_floor(limit.figures, value, loop_A);
  return judged_band(limit.figures, value);
}

Judged judged_by(const ProvingPair& pair, const Finding& finding, const Scenario& scenario) {
  const LimitInForce limit = limit_in_force(pair.limit, scenario);
  const bool at_points = finding.kind == Finding::Kind::volts || finding.kind == Finding::Kind::ohms;
  if (at_points && !finding.is_between(pair.first, pair.second)) return Judged::does_not_apply;
  if (finding.kind != Finding::Kind::cold_amps && finding.kind != Finding::Kind::load_volts) {
    return judged_by(limit, finding);
  }
  if (!measured_right(*limit.key, finding)) return Judged::does_not_apply;
  const double floor = finding.kind == Finding::Kind::load_volts
                           ? load_test_floor_V(limit.figures.lowest, scenario.healthy.ambient_C)
                           : limit.figures.lowest;
  return measured_value(finding, scenario) < floor ? Judged::outside : Judged::inside;
}

double measured_value(const Finding& finding, const Scenario& scenario) {
  const double value = std::abs(finding.shown.base_value());
  return finding.kind == Finding::Kind::cold_amps ? value / scenario.healthy.battery.rated_CCA_A : value;
}

double load_test_floor_V(double lowest_V, double battery_C) {
  constexpr double usual_V = 9.6;
  constexpr std::array<TablePoint, 7> volts_at_C{
      {{-12, 8.7}, {-7, 8.9}, {-1, 9.1}, {4, 9.3}, {10, 9.4}, {18, 9.5}, {20, 9.6}}};
  return lowest_V - usual_V + on_straight_lines(volts_at_C, battery_C);
}

std::string limit_in_words(const LimitInForce& limit) {
  const auto& [lowest, highest, from_A, to_A] = limit.figures;
  const std::string unit = limit.key->unit.empty() ? "" : fmt::format(" {}", limit.key->unit);
  if (lowest > 0.0 && highest > 0.0) return fmt::format("{:g} to {:g}{}", lowest, highest, unit);
  return lowest > 0.0 ? fmt::format("at least {:g}{}", lowest, unit) : fmt::format("limit {:g}{}", highest, unit);
}

}  // namespace voltfall
