#include "sound/sound_filters.h"

#include <cmath>
#include <numbers>

namespace voltfall {
namespace {

// The analogue second-order section carried over by the bilinear transform, warped to meet its own corner:
//     s = (1 - z^-1) / (1 + z^-1) / tan(w/2)
// With c = cos w and a = sin w / (2 sharpness) the common denominator is 1 + a - 2 c z^-1 + (1 - a) z^-2.
struct Corner {
  double cosine, damping, whole;
};

Corner corner_at(double Hz, double sharpness, double samples_per_s) {
  const double turn = 2.0 * std::numbers::pi * Hz / samples_per_s;
  const double damping = std::sin(turn) / (2.0 * sharpness);
  return {std::cos(turn), damping, 1.0 + damping};
}

}  // namespace

SecondOrderFilter SecondOrderFilter::band(double centre_Hz, double sharpness, double samples_per_s) {
  const Corner at = corner_at(centre_Hz, sharpness, samples_per_s);
  SecondOrderFilter filter;
  filter.in_0_ = at.damping / at.whole;
  filter.in_2_ = -at.damping / at.whole;
  filter.out_1_ = -2.0 * at.cosine / at.whole;
  filter.out_2_ = (1.0 - at.damping) / at.whole;
  return filter;
}

SecondOrderFilter SecondOrderFilter::above(double corner_Hz, double sharpness, double samples_per_s) {
  const Corner at = corner_at(corner_Hz, sharpness, samples_per_s);
  SecondOrderFilter filter = band(corner_Hz, sharpness, samples_per_s);
  filter.in_0_ = filter.in_2_ = 0.5 * (1.0 + at.cosine) / at.whole;
  filter.in_1_ = -(1.0 + at.cosine) / at.whole;
  return filter;
}

double SecondOrderFilter::next(double in) {
  constexpr double nothing = 1.0e-15;  // far below the last bit of a sample; denormal numbers are slow
  const double out = in_0_ * in + memory_1_;
  memory_1_ = in_1_ * in - out_1_ * out + memory_2_;
  memory_2_ = in_2_ * in - out_2_ * out;
  if (std::abs(memory_1_) + std::abs(memory_2_) < nothing) memory_1_ = memory_2_ = 0.0;
  return out;
}

}  // namespace voltfall
