#include "sound/sounds_heard.h"

#include <algorithm>

namespace voltfall {

void SoundsHeard::follow(const SoundCues& cues) {
  levels_ = cues.levels();
  if (cues.closings_per_s() > 0.0) {
    closings_per_s_ = cues.closings_per_s();
    let_stand(SoundKind::chatter, 1.0);
  }
  // Teeth that mill find their gap within hundredths.
  const double grind = level_of(levels_, SoundKind::grind);
  if (grind >= named_force) let_stand(SoundKind::grind, grind);
  for (const SoundStrike& strike : cues.strikes()) {
    const bool goes_on = strike.kind == SoundKind::compression_beat;  // told by its level
    if (!goes_on && strike.force >= named_force) let_stand(strike.kind, strike.force);
  }
}

void SoundsHeard::let_stand(SoundKind kind, double level) {
  Standing& knock = standing_[static_cast<std::size_t>(kind)];
  knock = {std::max(knock.level, std::min(level, 1.0)), stands_s};
}

void SoundsHeard::let_pass(double clock_s) {
  for (Standing& knock : standing_) {
    knock.left_s -= clock_s;
    if (knock.left_s <= 0.0) knock = {};
  }
}

std::vector<HeardSound> SoundsHeard::now() const {
  std::vector<HeardSound> heard;
  for (const SoundKind kind : all_sound_kinds) {
    const auto index = static_cast<std::size_t>(kind);
    const double level = std::max(levels_[index], standing_[index].level);
    if (level < from_level) continue;
    heard.push_back({kind, level, kind == SoundKind::chatter ? closings_per_s_ : 0.0});
  }
  std::stable_sort(heard.begin(), heard.end(),
                   [](const HeardSound& one, const HeardSound& other) { return one.level > other.level; });
  return heard;
}

}  // namespace voltfall
