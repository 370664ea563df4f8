#include "instruments/clamp_meter.h"

#include <cmath>
#include <numbers>

namespace voltfall {
namespace {

// From memory, for a hand-held clamp of a thousand amperes: the sensor's zero goes with the jaw's temperature, which
// comes to the hand's within some ten minutes, and wanders a little besides.
constexpr double hand_C = 33.0, drift_A_per_K = 0.02, warming_s = 600.0;
constexpr double wander_A = 0.1, wander_period_s = 240.0;

}  // namespace

MeterDisplay amps_display(double amps) {
  if (std::abs(amps) >= 1000.5) return {MeterDisplay::Kind::overload, 0.0, 0, "A"};
  const bool fine = std::abs(amps) < 59.95;
  const double step_A = fine ? 0.1 : 1.0;
  return {MeterDisplay::Kind::value, std::round(amps / step_A) * step_A + 0.0, fine ? 1 : 0, "A"};
}

void ClampMeter::put_round(std::optional<HeavyCable> cable) {
  round_ = cable;
  mean_.restart();
  raw_A_.reset();
}

double ClampMeter::drift_A() const {
  const double warmed = 1.0 - std::exp(-in_use_s_ / warming_s);
  const double phase = 2.0 * std::numbers::pi * in_use_s_ / wander_period_s;
  return drift_A_per_K * (hand_C - air_C_) * warmed + wander_A * std::sin(phase) * warmed;
}

void ClampMeter::zero() {
  if (raw_A_) {
    zero_A_ = *raw_A_;
  } else {
    zero_next_ = true;
  }
}

void ClampMeter::watch(const Readings& readings, double dt_s) {
  in_use_s_ += dt_s;
  const auto mean = mean_.add(round_ ? readings.amps_in(*round_) : 0.0, dt_s);
  if (!mean) return;
  raw_A_ = *mean + offset_A + drift_A();
  shown_at_s_ = readings.time_s;
  if (!zero_next_) return;
  zero_A_ = *raw_A_;
  zero_next_ = false;
}

MeterDisplay ClampMeter::display() const {
  if (!raw_A_) return {MeterDisplay::Kind::settling, 0.0, 1, ""};
  return amps_display(*raw_A_ - zero_A_);
}

}  // namespace voltfall
