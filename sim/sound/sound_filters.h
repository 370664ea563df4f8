#pragma once

namespace voltfall {

/// A filter of second order on equally spaced samples, in the form that keeps its last two inputs and outputs apart.
class SecondOrderFilter {
 public:
  /// Lets a band about `centre_Hz` through, at 1 in its middle; `sharpness` is the centre over the band's width.
  static SecondOrderFilter band(double centre_Hz, double sharpness, double samples_per_s);
  /// Lets through what lies above `corner_Hz`.
  static SecondOrderFilter above(double corner_Hz, double sharpness, double samples_per_s);

  double next(double in);

 private:
  double in_0_ = 0.0, in_1_ = 0.0, in_2_ = 0.0;  // how much of the present input and of the two before it
  double out_1_ = 0.0, out_2_ = 0.0;             // how much of the two outputs before is taken away
  double memory_1_ = 0.0, memory_2_ = 0.0;
};

}  // namespace voltfall
