#pragma once

#include <cstddef>
#include <memory>

#include "rig/readings.h"
#include "rig/state.h"

namespace voltfall {

/// What a cutaway shows of one instant. Floats, so that a minute of steps fits into memory.
struct Mechanism {
  float shoe_travel_m, pinion_travel_m;
  float relay_plunger_m, relay_disc_m;
  float tooth_position_m;  ///< pinion tooth from a ring tooth, within half a pitch
  float pinion_rad, armature_rad;
  float crank_rad;    ///< of the 4 pi cycle
  float cylinder_Pa;  ///< absolute, in cylinder 1
  float battery_A, drive_A, hold_in_A, field_2_A, field_34_A, armature_A, relay_coil_A;
  float movable_Wb, second_Wb, third_and_fourth_Wb;
  float relay_closed, grounding_closed;  ///< 1: closed
  float in_contact;                      ///< 1: the teeth are in the contact world
  float seated;                          ///< 1: the gear-lash law has them
};

Mechanism mechanism_of(const RigState& state, const Readings& readings);

/// The instant a share of the way from one to the next step. Angles and the teeth go the short way round.
/// @param pitch_m  circular pitch, over which the tooth position repeats
Mechanism between(const Mechanism& one, const Mechanism& next, float share, double pitch_m);

/// The last steps of a run, oldest overwritten first. Memory is taken once, at the start, and touched as it fills.
class MechanismTape {
 public:
  /// @param steps  kept, at least 2
  explicit MechanismTape(long steps);

  void append(const Mechanism& now);
  /// Steps are counted from 0 on; `held_from()` to `count() - 1` can be had.
  long count() const { return count_; }
  long held_from() const { return count_ > size_ ? count_ - size_ : 0; }
  const Mechanism& at(long step) const { return rows_[static_cast<std::size_t>(step % size_)]; }

 private:
  long size_, count_ = 0;
  std::unique_ptr<Mechanism[]> rows_;
};

}  // namespace voltfall
