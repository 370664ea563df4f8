#pragma once

#include <array>
#include <optional>
#include <string>

#include "bench/open_bench.h"
#include "bench/pull.h"
#include "desktop/bench/bench_sound.h"
#include "desktop/style/hands.h"
#include "scenario/scenario.h"
#include "wording/wording.h"

namespace voltfall {

enum class BenchView { engage, volts, threshold };

/// What the right-hand column of the bench lists.
enum class BenchColumn { knobs, faults, walks };

/// What the person has set up on the screen; the vehicle and its time are the bench's.
struct BenchSheet {
  Hands hands;
  BenchView view = BenchView::engage;
  BenchColumn column = BenchColumn::knobs;
  std::string search;
  float tooth_zoom = 1.0F;
  const BenchKnob* taken = nullptr;  ///< named in the column to be swept, this frame
  bool keys_shown = false;           ///< the list of keys lies over the sheet
  bool crank_held = false;           ///< by key or mouse, this frame
  std::string refused;               ///< why the last change was not made
  double frame_s = 1.0 / 60.0;
};

/// All that a view of the bench draws from.
struct BenchScene {
  OpenBench& bench;
  BenchSheet& sheet;
  const Wording& words;
  const std::map<std::string, Limit>& limits;
  const HeldShoe& held;  ///< of the vehicle as it is now
  BenchSound& sound;
};

}  // namespace voltfall
