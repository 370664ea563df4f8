#pragma once

namespace voltfall {

/// A cartridge fuse: its element gathers I^2 t and gives heat off again, so that it bears `holds_A` for ever and goes
/// at once when the circuit is short.
class Fuse {
 public:
  /// @param melting_A2s what melts it when no heat has time to leave
  Fuse(double holds_A, double melting_A2s) : holds_A_(holds_A), melting_A2s_(melting_A2s) {}

  /// Lets a current flow for a moment; true when that has just blown it.
  bool carry(double amps, double dt_s);
  bool blown() const { return blown_; }
  void replace() { *this = Fuse(holds_A_, melting_A2s_); }

 private:
  double holds_A_, melting_A2s_;
  double gathered_A2s_ = 0.0;
  bool blown_ = false;
};

}  // namespace voltfall
