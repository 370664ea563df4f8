#pragma once

#include <deque>
#include <memory>
#include <optional>
#include <vector>

#include "bench/open_bench.h"
#include "sound/sound_maker.h"

namespace voltfall {

/// What the bench sounds like, on the machine's loudspeaker if it has one; and what there is to hear, in words, whether
/// or not it can be heard. No sound device is no error.
class BenchSound {
 public:
  explicit BenchSound(const RigParameters& parameters);
  ~BenchSound();
  BenchSound(const BenchSound&) = delete;
  BenchSound& operator=(const BenchSound&) = delete;

  /// The model made a step of the bench's time.
  void record(const Rig& rig, const Readings& now, std::span<const RigEvent> events);
  /// Wall time went by, and the bench stands where it stands: what it shows is what is heard, the first time over or
  /// again.
  void pass(double wall_s, const OpenBench& bench);
  std::vector<HeardSound> heard() const;

  /// 0 to 1.
  double volume() const { return volume_; }
  void set_volume(double volume);
  bool muted() const { return muted_; }
  void mute(bool muted);
  bool has_device() const;

 private:
  class Stream;
  struct Recorded {
    SoundState state;
    std::vector<RigEvent> events;
  };
  SoundMaker maker_;
  std::deque<Recorded> recorded_;  ///< the steps that can be gone back over, oldest first
  long recorded_from_ = 1;         ///< step number of the first
  long followed_ = 0;              ///< the last step that the maker was told of
  std::unique_ptr<Stream> stream_;
  std::vector<float> samples_;
  double volume_ = 0.6, owed_ = 0.0;
  bool muted_ = false;
};

}  // namespace voltfall
