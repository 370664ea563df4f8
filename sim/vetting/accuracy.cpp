#include "vetting/accuracy.h"

#include <cmath>

#include "instruments/multimeter.h"

namespace voltfall::vetting {
namespace {

double meter_volts_accuracy(double volts) {
  constexpr double share = 0.005, counts = 2.0;
  const MeterDisplay display = volts_display(volts);
  const double count = std::pow(10.0, -display.decimals) * (display.unit == "mV" ? 1.0e-3 : 1.0);
  return share * std::abs(volts) + counts * count;
}

double bench_accuracy(std::string_view test, double figure) {
  constexpr double ohm_share = 0.01, ohm_count = 0.05, torque_share = 0.04, ruler_mm = 0.1;
  if (test == "hold_in") return ohm_share * figure + ohm_count;
  return test == "clutch_torque" ? torque_share * figure : ruler_mm;
}

}  // namespace

double accuracy_of(const Question& question, double figure) {
  constexpr double ohm_share = 0.01, ohm_counts = 0.2;
  constexpr double clamp_share = 0.02, clamp_A = 1.0;
  constexpr double load_test_V = 0.05, gravity = 0.005, cold_amps_share = 0.04, rpm = 2.0, kelvin = 1.0;
  switch (question.kind) {
    case Finding::Kind::volts:
      return meter_volts_accuracy(figure);
    case Finding::Kind::ohms:
      return ohm_share * figure + ohm_counts;
    case Finding::Kind::amps:
      return clamp_share * figure + clamp_A;
    case Finding::Kind::load_volts:
      return load_test_V;
    case Finding::Kind::gravity:
      return gravity;
    case Finding::Kind::cold_amps:
      return cold_amps_share * figure;
    case Finding::Kind::speed:
      return rpm;
    case Finding::Kind::temperature:
      return kelvin;
    case Finding::Kind::bench:
      return bench_accuracy(question.about, figure);
    default:
      return 0.0;
  }
}

}  // namespace voltfall::vetting
