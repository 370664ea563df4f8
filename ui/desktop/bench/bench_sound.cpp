#include "desktop/bench/bench_sound.h"

#include <SFML/Audio.hpp>
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <deque>
#include <filesystem>
#include <mutex>

namespace voltfall {
namespace {

constexpr auto rate = static_cast<unsigned>(SoundMaker::samples_per_s);
constexpr std::size_t portion = rate / 50;      // what the device takes at a time: 20 ms
constexpr std::size_t most_waiting = rate / 8;  // later than this, and ear and eye no longer agree

/// A sound server of this user, or a device. OpenAL says on standard error that it found none: ask before it does.
bool machine_has_sound() {
  if (std::getenv("PULSE_SERVER") != nullptr) return true;
  std::error_code none;
  const char* runtime = std::getenv("XDG_RUNTIME_DIR");
  const std::filesystem::path served(runtime != nullptr ? runtime : "/nowhere");
  for (const auto& place : {served / "pulse", served / "pipewire-0", std::filesystem::path("/dev/snd/timer")}) {
    if (std::filesystem::exists(place, none)) return true;
  }
  return false;
}

}  // namespace

/// Samples wait here between the picture's thread, which makes them, and the device's, which plays them.
class BenchSound::Stream : public sf::SoundStream {
 public:
  Stream() { initialize(1, rate); }
  ~Stream() override { stop(); }

  void add(std::span<const float> samples) {
    const std::lock_guard lock(mutex_);
    for (const float sample : samples) waiting_.push_back(static_cast<sf::Int16>(std::lround(32000.0F * sample)));
    while (waiting_.size() > most_waiting) waiting_.pop_front();
  }

 private:
  bool onGetData(Chunk& chunk) override {
    const std::lock_guard lock(mutex_);
    const std::size_t count = std::min(portion, waiting_.size());
    std::copy_n(waiting_.begin(), count, playing_.begin());
    std::fill(playing_.begin() + static_cast<std::ptrdiff_t>(count), playing_.end(), sf::Int16{0});
    waiting_.erase(waiting_.begin(), waiting_.begin() + static_cast<std::ptrdiff_t>(count));
    chunk.samples = playing_.data();
    chunk.sampleCount = playing_.size();
    return true;
  }
  void onSeek(sf::Time /*offset*/) override {}

  std::mutex mutex_;
  std::deque<sf::Int16> waiting_;
  std::array<sf::Int16, portion> playing_{};
};

BenchSound::BenchSound(const RigParameters& parameters) : maker_(parameters) {
  if (!machine_has_sound()) return;
  stream_ = std::make_unique<Stream>();
  set_volume(volume_);
  stream_->play();
}

BenchSound::~BenchSound() = default;

void BenchSound::record(const Rig& rig, const Readings& now, std::span<const RigEvent> events) {
  SoundState state = sound_state_of(rig.state(), now, rig.parameters());
  state.time_s = now.time_s;
  recorded_.push_back({state, {events.begin(), events.end()}});
  constexpr auto most = static_cast<std::size_t>(OpenBench::kept_s / Rig::step_s);
  if (recorded_.size() <= most) return;
  recorded_.pop_front();
  ++recorded_from_;
}

void BenchSound::pass(double wall_s, const OpenBench& bench) {
  // The maker wants to know a little of what comes, by the clock: the slower the model, the less of it.
  constexpr double ahead_s = 0.045;
  constexpr long least_ahead = 3;
  const long ahead = std::max(std::lround(ahead_s * bench.speed() / Rig::step_s), least_ahead);
  const auto shown = std::lround(bench.shown_s() / Rig::step_s);
  const long newest = recorded_from_ + static_cast<long>(recorded_.size()) - 1;
  const long wanted = std::min(newest, shown + ahead);
  if (shown < followed_ - 2 * ahead || shown > followed_ + 2000) followed_ = shown;
  for (long step = std::max(followed_ + 1, recorded_from_); step <= wanted; ++step) {
    const Recorded& then = recorded_[static_cast<std::size_t>(step - recorded_from_)];
    maker_.follow(then.state, then.events);
  }
  followed_ = std::max(followed_, wanted);
  owed_ += std::min(wall_s, 0.1) * SoundMaker::samples_per_s;
  const auto count = static_cast<std::size_t>(owed_);
  owed_ -= static_cast<double>(count);
  samples_.resize(count);
  maker_.render(samples_, bench.paused() ? 0.0 : bench.speed());
  if (stream_ && !muted_) stream_->add(samples_);
}

std::vector<HeardSound> BenchSound::heard() const {
  return maker_.heard();
}

void BenchSound::set_volume(double volume) {
  volume_ = std::clamp(volume, 0.0, 1.0);
  constexpr float full = 100.0F;
  if (stream_) stream_->setVolume(full * static_cast<float>(volume_));
}

void BenchSound::mute(bool muted) {
  muted_ = muted;
}

bool BenchSound::has_device() const {
  return stream_ != nullptr;
}

}  // namespace voltfall
