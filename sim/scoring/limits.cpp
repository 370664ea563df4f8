#include "scoring/limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace voltfall {
namespace {

Limit usual_figures(const LimitKey& key) {
  Limit limit;
  if (key.kind == LimitKind::drop) limit.highest_V = key.usual;
  if (key.kind == LimitKind::floor) limit.lowest_V = key.usual;
  if (key.kind == LimitKind::ohms) limit.highest_ohm = key.usual;
  limit.from_A = key.from_A;
  limit.to_A = key.to_A;
  return limit;
}

bool measured_right(const LimitKey& key, const Finding& finding) {
  const bool ohms = key.kind == LimitKind::ohms;
  if (finding.kind != (ohms ? Finding::Kind::ohms : Finding::Kind::volts)) return false;
  const bool cranking = finding.state == ElectricalState::cranking;
  switch (key.measured_at) {
    case MeasuredAt::key_start:
      return cranking;
    case MeasuredAt::rest:
      return finding.state == ElectricalState::at_rest && !finding.headlamps;
    case MeasuredAt::power_off:
      return finding.state == ElectricalState::at_rest;
  }
  return false;
}

Judged judged_drop(const Limit& limit, double volts, double loop_A) {
  const double beyond = limit.to_A > 0.0 ? std::max(1.0, loop_A / limit.to_A) : 1.0;
  if (volts > limit.highest_V * beyond) return Judged::outside;
  return loop_A >= limit.from_A && loop_A <= limit.to_A ? Judged::inside : Judged::does_not_apply;
}

Judged judged_floor(const Limit& limit, double volts, double loop_A) {
  if (loop_A > limit.to_A) return Judged::does_not_apply;
  if (volts < limit.lowest_V) return Judged::outside;
  return loop_A >= limit.from_A ? Judged::inside : Judged::does_not_apply;
}

Judged judged_ohms(const Limit& limit, const Finding& finding) {
  if (finding.shown.kind == MeterDisplay::Kind::overload) return Judged::outside;
  return finding.shown.base_value() > limit.highest_ohm ? Judged::outside : Judged::inside;
}

}  // namespace

LimitInForce limit_in_force(std::string_view limit, const Scenario& scenario) {
  const LimitKey* key = limit_key_named(limit);
  assert(key != nullptr);
  const auto own = scenario.limits.find(std::string(limit));
  return {key, own == scenario.limits.end() ? usual_figures(*key) : own->second};
}

Judged judged_by(const LimitInForce& limit, const Finding& finding) {
  if (!measured_right(*limit.key, finding)) return Judged::does_not_apply;
  const double loop_A = std::abs(finding.loop_A);
  if (limit.key->kind == LimitKind::ohms) return judged_ohms(limit.figures, finding);
  if (finding.shown.kind != MeterDisplay::Kind::value) return Judged::does_not_apply;
  const double volts = std::abs(finding.shown.base_value());
  return limit.key->kind == LimitKind::drop ? judged_drop(limit.figures, volts, loop_A)
                                            : judged_floor(limit.figures, volts, loop_A);
}

Judged judged_by(const ProvingPair& pair, const Finding& finding, const Scenario& scenario) {
  if (!finding.is_between(pair.first, pair.second)) return Judged::does_not_apply;
  return judged_by(limit_in_force(pair.limit, scenario), finding);
}

std::string limit_in_words(const LimitInForce& limit) {
  switch (limit.key->kind) {
    case LimitKind::drop:
      return fmt::format("limit {} V", limit.figures.highest_V);
    case LimitKind::floor:
      return fmt::format("at least {} V", limit.figures.lowest_V);
    case LimitKind::ohms:
      return fmt::format("limit {} ohm", limit.figures.highest_ohm);
  }
  return {};
}

}  // namespace voltfall
