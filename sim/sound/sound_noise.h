#pragma once

#include <cstdint>

namespace voltfall {

/// White noise from -1 to 1, the same one every time: Marsaglia's 32-bit xorshift with shifts 13, 17, 5
/// ("Xorshift RNGs", Journal of Statistical Software 8(14), 2003).
class SoundNoise {
 public:
  double next() {
    bits_ ^= bits_ << 13;
    bits_ ^= bits_ >> 17;
    bits_ ^= bits_ << 5;
    return static_cast<double>(bits_) / 2147483648.0 - 1.0;
  }

 private:
  std::uint32_t bits_ = 2463534242U;
};

}  // namespace voltfall
