#pragma once

#include <array>
#include <cstddef>

#include "rig/heat.h"
#include "rig/parameters.h"
#include "rig/readings.h"

namespace voltfall {

/// What broke in one span of time; a short list without a heap.
class Harm {
 public:
  void add(RigEventKind kind) { kinds_[count_++] = kind; }
  const RigEventKind* begin() const { return kinds_.data(); }
  const RigEventKind* end() const { return kinds_.data() + count_; }

 private:
  std::array<RigEventKind, 8> kinds_{};
  std::size_t count_ = 0;
};

/// Heat past a limit does damage that stays: it edits the parameters, as a fault would, and a repair undoes it.
/// Returns what has just begun to fail. The limits are those of common materials, from memory:
/// - field and drive coils above 220 °C lose turns to shorts, the faster the hotter
/// - the armature's solder above 300 °C is thrown out of the commutator, which adds resistance at the brushes
/// - brush springs above 260 °C go soft, the same way
/// - a bad joint above 150 °C oxidises further
/// - a relay's contact faces above 1000 °C run together
/// - a fusible link melts through; so does a control cable or a thin lead 400 K above the air
Harm damage_after(RigParameters& parameters, const PartTemperatures& temperatures, double span_s);

}  // namespace voltfall
