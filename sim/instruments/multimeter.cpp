#include "instruments/multimeter.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace voltfall {
namespace {

constexpr double counts = 6000.0;
constexpr double volts_loading_ohm = 1.0e7;
constexpr double ohms_open_circuit_V = 3.0;  // what the leads show apart; the source falls off in a straight line to it
constexpr double buzzes_below_ohm = 30.0;    // common practice
// The jack for amperes: shunt and fuse together (common practice: 10 A, fast; what melts it from memory).
constexpr double shunt_ohm = 0.010, amps_fuse_holds_A = 13.5, amps_fuse_melts_A2s = 200.0;
// From memory: an ohm range shrugs off a few volts; the battery's, for a moment too long, take its fuse along.
constexpr double ohms_bear_V = 9.0, ohms_bear_for_s = 0.5;

struct OhmRange {
  double full_scale_ohm, source_A, unit_ohm;
  int decimals;
  const char* unit;

  double inner_ohm() const { return ohms_open_circuit_V / source_A; }
};

constexpr std::array<OhmRange, 6> ohm_ranges{{
    {600.0, 1.0e-3, 1.0, 1, "ohm"},
    {6.0e3, 1.0e-4, 1.0e3, 3, "kohm"},
    {60.0e3, 1.0e-5, 1.0e3, 2, "kohm"},
    {600.0e3, 1.0e-6, 1.0e3, 1, "kohm"},
    {6.0e6, 1.0e-7, 1.0e6, 3, "Mohm"},
    {60.0e6, 1.0e-8, 1.0e6, 2, "Mohm"},
}};

// Below this share of a range the meter steps down: far enough under a tenth that it never steps straight back.
constexpr double step_down_share = 0.09;

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;  // + 0.0 turns a negative zero into a plain one
}

MeterDisplay figure(double value, int decimals, const char* unit) {
  return {MeterDisplay::Kind::value, rounded(value, decimals), decimals, unit};
}

bool fits(double value, int decimals) {
  return std::abs(value) * std::pow(10.0, decimals) < counts - 0.5;
}

MeterDisplay shunt_display(double amps) {
  if (fits(amps, 3)) return figure(amps, 3, "A");
  if (fits(amps, 2)) return figure(amps, 2, "A");
  return {MeterDisplay::Kind::overload, 0.0, 2, "A"};
}

MeterDisplay ohms_display(const OhmRange& range, std::optional<double> ohms) {
  const double value = ohms.value_or(0.0) / range.unit_ohm;
  if (!ohms || !fits(value, range.decimals)) return {MeterDisplay::Kind::overload, 0.0, range.decimals, range.unit};
  return figure(value, range.decimals, range.unit);
}

}  // namespace

double MeterDisplay::base_value() const {
  if (unit == "mV") return value * 1.0e-3;
  if (unit == "kohm") return value * 1.0e3;
  if (unit == "Mohm") return value * 1.0e6;
  return value;
}

std::string MeterDisplay::text() const {
  if (kind == Kind::value) return fmt::format("{:.{}f}", value, decimals);
  if (kind == Kind::fuse_blown) return "FUSE";
  return kind == Kind::overload ? "OL" : "- - -";
}

std::string MeterDisplay::text_with_unit() const {
  const bool has_unit = kind == Kind::value || kind == Kind::overload;
  return has_unit && !unit.empty() ? text() + " " + unit : text();
}

MeterDisplay volts_display(double volts) {
  if (fits(volts * 1.0e3, 1)) return figure(volts * 1.0e3, 1, "mV");
  if (fits(volts, 3)) return figure(volts, 3, "V");
  if (fits(volts, 2)) return figure(volts, 2, "V");
  return {MeterDisplay::Kind::overload, 0.0, 2, "V"};
}

void WindowMean::restart() {
  sum_ = 0.0;
  filled_s_ = 0.0;
}

std::optional<double> WindowMean::add(double value, double dt_s) {
  assert(dt_s > 0.0);
  sum_ += value * dt_s;
  filled_s_ += dt_s;
  if (filled_s_ < length_s_ - 0.5 * dt_s) return std::nullopt;
  const double mean = sum_ / filled_s_;
  restart();
  return mean;
}

Multimeter::Multimeter() : amps_fuse_(amps_fuse_holds_A, amps_fuse_melts_A2s) {}

bool Multimeter::measures_ohms() const {
  return function_ == MeterFunction::ohms || function_ == MeterFunction::continuity;
}

bool Multimeter::range_is_dead() const {
  return (function_ == MeterFunction::amps_dc && amps_fuse_.blown()) || (measures_ohms() && ohms_fuse_blown_);
}

void Multimeter::set_function(MeterFunction function) {
  if (function == function_) return;
  function_ = function;
  hold_ = MeterHold::none;
  ohm_range_ = 0;
  hook_up_anew();
}

void Multimeter::set_hold(MeterHold hold) {
  if (measures_ohms()) return;
  hold_ = hold;
  hold_mean_.restart();
  held_volts_.reset();
}

void Multimeter::put_red(std::optional<TestPoint> point) {
  red_ = point;
  hook_up_anew();
}

void Multimeter::put_black(std::optional<TestPoint> point) {
  black_ = point;
  hook_up_anew();
}

void Multimeter::start_over() {
  display_mean_.restart();
  hold_mean_.restart();
  shown_volts_.reset();
  held_volts_.reset();
}

// Other leads or another function: what was strained before is at peace.
void Multimeter::hook_up_anew() {
  overdriven_s_ = 0.0;
  highest_shunt_A_ = 0.0;
  start_over();
}

void Multimeter::replace_fuses() {
  amps_fuse_.replace();
  ohms_fuse_blown_ = false;
  hook_up_anew();
}

std::optional<AttachedBranch> Multimeter::loading() const {
  if (!red_ || !black_ || *red_ == *black_ || range_is_dead()) return std::nullopt;
  if (function_ == MeterFunction::volts_dc) return AttachedBranch{*red_, *black_, volts_loading_ohm};
  if (function_ == MeterFunction::amps_dc) return AttachedBranch{*red_, *black_, shunt_ohm};
  const OhmRange& range = ohm_ranges[ohm_range_];
  return AttachedBranch{*red_, *black_, range.inner_ohm(), range.source_A};
}

void Multimeter::watch(const Readings& readings, double dt_s) {
  if (!red_ || !black_) return;
  const double volts = readings.volts_at(*red_) - readings.volts_at(*black_);
  strain_fuses(volts, dt_s);
  if (range_is_dead()) return;
  if (hold_ != MeterHold::none) {
    if (const auto mean = hold_mean_.add(volts, dt_s)) hold_extreme(*mean, readings.time_s);
  }
  if (const auto mean = display_mean_.add(volts, dt_s)) update(*mean, readings.time_s);
}

void Multimeter::strain_fuses(double volts, double dt_s) {
  if (function_ == MeterFunction::amps_dc && !amps_fuse_.blown()) {
    highest_shunt_A_ = std::max(highest_shunt_A_, std::abs(volts) / shunt_ohm);
    if (amps_fuse_.carry(volts / shunt_ohm, dt_s)) shown_volts_.reset();
  }
  if (!measures_ohms()) return;
  overdriven_s_ = std::abs(volts) > ohms_bear_V ? overdriven_s_ + dt_s : 0.0;
  ohms_fuse_blown_ = ohms_fuse_blown_ || overdriven_s_ > ohms_bear_for_s;
}

void Multimeter::update(double volts, double time_s) {
  shown_volts_ = volts;
  shown_at_s_ = time_s;
  if (function_ == MeterFunction::ohms) change_ohm_range(ohms_from(volts));
}

void Multimeter::hold_extreme(double volts, double time_s) {
  const bool beyond = !held_volts_ || (hold_ == MeterHold::lowest ? volts < *held_volts_ : volts > *held_volts_);
  if (!beyond) return;
  held_volts_ = volts;
  held_at_s_ = time_s;
}

// R = V / (I - V/Ri): the source gives I less what its own inner resistance takes. No current left over: open leads.
std::optional<double> Multimeter::ohms_from(double volts) const {
  const OhmRange& range = ohm_ranges[ohm_range_];
  const double through_A = range.source_A - volts / range.inner_ohm();
  if (through_A < 1.0e-3 * range.source_A) return std::nullopt;
  return volts / through_A;
}

void Multimeter::change_ohm_range(std::optional<double> ohms) {
  const OhmRange& range = ohm_ranges[ohm_range_];
  const bool over = ohms_display(range, ohms).kind == MeterDisplay::Kind::overload;
  if (over && ohm_range_ + 1 < ohm_ranges.size()) {
    ++ohm_range_;
    start_over();
  } else if (!over && ohm_range_ > 0 && std::abs(*ohms) < step_down_share * range.full_scale_ohm) {
    --ohm_range_;
    start_over();
  }
}

MeterDisplay Multimeter::display() const {
  if (range_is_dead()) return {MeterDisplay::Kind::fuse_blown, 0.0, 0, ""};
  if (!red_ || !black_) return {};
  const std::optional<double>& volts = hold_ == MeterHold::none ? shown_volts_ : held_volts_;
  if (!volts) return {MeterDisplay::Kind::settling, 0.0, 2, ""};
  if (function_ == MeterFunction::volts_dc) return volts_display(*volts);
  if (function_ == MeterFunction::amps_dc) return shunt_display(*volts / shunt_ohm);
  return ohms_display(ohm_ranges[ohm_range_], ohms_from(*volts));
}

bool Multimeter::buzzes() const {
  if (function_ != MeterFunction::continuity || !shown_volts_ || range_is_dead()) return false;
  const auto ohms = ohms_from(*shown_volts_);
  return ohms && std::abs(*ohms) < buzzes_below_ohm;
}

std::optional<double> Multimeter::shown_at_s() const {
  if (range_is_dead()) return std::nullopt;
  if (hold_ != MeterHold::none) return held_volts_ ? std::optional(held_at_s_) : std::nullopt;
  return shown_volts_ ? std::optional(shown_at_s_) : std::nullopt;
}

}  // namespace voltfall
