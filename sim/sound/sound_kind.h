#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace voltfall {

/// What a person would say is to be heard. Snap, release, clunk and drop are single knocks; the rest go on.
enum class SoundKind : std::uint8_t {
  relay_snap,        ///< the relay's disc slaps the studs
  relay_release,     ///< its plunger falls back on its stop
  chatter,           ///< snaps that repeat by themselves
  shoe_clunk,        ///< the pole shoe comes home
  shoe_drop,         ///< and falls back
  grind,             ///< pinion teeth slide over the ring's faces, or are struck after a gap
  whirr,             ///< the motor's own sound
  whine,             ///< tooth meeting tooth
  compression_beat,  ///< the engine's compressions as it is cranked
  labouring,         ///< slow and heavy, with much current
  run_on_howl,       ///< a running engine drives the pinion
  engine_idle,       ///< the engine runs by itself
};

inline constexpr std::array all_sound_kinds{
    SoundKind::relay_snap,       SoundKind::relay_release, SoundKind::chatter,     SoundKind::shoe_clunk,
    SoundKind::shoe_drop,        SoundKind::grind,         SoundKind::whirr,       SoundKind::whine,
    SoundKind::compression_beat, SoundKind::labouring,     SoundKind::run_on_howl, SoundKind::engine_idle};
inline constexpr std::size_t sound_kind_count = all_sound_kinds.size();

std::string_view id_of(SoundKind kind);

/// How loud each kind is, from 0 to about 1.
using SoundLevels = std::array<double, sound_kind_count>;

inline double level_of(const SoundLevels& levels, SoundKind kind) {
  return levels[static_cast<std::size_t>(kind)];
}

}  // namespace voltfall
