#include "sound/sound_kind.h"

namespace voltfall {

std::string_view id_of(SoundKind kind) {
  switch (kind) {
    case SoundKind::relay_snap:
      return "relay_snap";
    case SoundKind::relay_release:
      return "relay_release";
    case SoundKind::chatter:
      return "chatter";
    case SoundKind::shoe_clunk:
      return "shoe_clunk";
    case SoundKind::shoe_drop:
      return "shoe_drop";
    case SoundKind::grind:
      return "grind";
    case SoundKind::whirr:
      return "whirr";
    case SoundKind::whine:
      return "whine";
    case SoundKind::compression_beat:
      return "compression_beat";
    case SoundKind::labouring:
      return "labouring";
    case SoundKind::run_on_howl:
      return "run_on_howl";
    case SoundKind::engine_idle:
      break;
  }
  return "engine_idle";
}

}  // namespace voltfall
