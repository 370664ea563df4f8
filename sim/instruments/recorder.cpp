#include "instruments/recorder.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace voltfall {
namespace {

double value_on(const RecorderInput& input, const Readings& readings) {
  if (input.round) return readings.amps_in(*input.round);
  if (input.red && input.black) return readings.volts_at(*input.red) - readings.volts_at(*input.black);
  return 0.0;
}

std::size_t samples_in(double span_s) {
  return static_cast<std::size_t>(std::lround(span_s / Recorder::sample_s));
}

}  // namespace

double Capture::peak(int channel) const {
  const auto& one = samples.at(static_cast<std::size_t>(channel - 1));
  return one.empty() ? 0.0 : *std::max_element(one.begin(), one.end());
}

double Capture::lowest(int channel) const {
  const auto& one = samples.at(static_cast<std::size_t>(channel - 1));
  return one.empty() ? 0.0 : *std::min_element(one.begin(), one.end());
}

std::optional<double> Capture::mean_of_last(int channel, double seconds) const {
  const std::vector<double>& all = samples.at(static_cast<std::size_t>(channel - 1));
  const auto count = static_cast<std::ptrdiff_t>(std::lround(seconds / sample_s));
  if (count < 1 || count > std::ssize(all)) return std::nullopt;
  return std::accumulate(all.end() - count, all.end(), 0.0) / static_cast<double>(count);
}

void Recorder::connect(int channel, const RecorderInput& input) {
  inputs_.at(static_cast<std::size_t>(channel - 1)) = input;
  state_ = State::idle;
  capture_.reset();
}

void Recorder::arm(double level, bool rising, double span_s) {
  level_ = level;
  rising_ = rising;
  span_s_ = std::clamp(span_s, shortest_span_s, longest_span_s);
  whole_ = samples_in(span_s_);
  before_ = samples_in(span_s_ * before_trigger_share);
  store_.clear();
  store_.reserve(whole_);
  next_ = 0;
  last_.reset();
  capture_.reset();
  sum_ = {};
  filled_s_ = 0.0;
  state_ = State::armed;
}

void Recorder::watch(const Readings& readings, double dt_s) {
  if (state_ != State::armed && state_ != State::triggered) return;
  for (std::size_t i = 0; i < inputs_.size(); ++i) sum_[i] += value_on(inputs_[i], readings) * dt_s;
  filled_s_ += dt_s;
  if (filled_s_ < sample_s - 0.5 * dt_s) return;
  const std::array<double, 2> sample{sum_[0] / filled_s_, sum_[1] / filled_s_};
  sum_ = {};
  filled_s_ = 0.0;
  take_sample(sample, readings.time_s);
}

void Recorder::take_sample(const std::array<double, 2>& sample, double time_s) {
  if (state_ == State::armed) {
    const bool crossed =
        last_ && (rising_ ? *last_ < level_ && sample[0] >= level_ : *last_ > level_ && sample[0] <= level_);
    last_ = sample[0];
    if (crossed) {
      trigger(time_s);
    } else if (store_.size() < before_) {
      store_.push_back(sample);
    } else if (before_ > 0) {
      store_[next_] = sample;
      next_ = (next_ + 1) % before_;
    }
    if (!crossed) return;
  }
  store_.push_back(sample);
  if (store_.size() >= whole_) finish();
}

// The ring of what went before is laid out in order of time.
void Recorder::trigger(double time_s) {
  if (store_.size() == before_)
    std::rotate(store_.begin(), store_.begin() + static_cast<std::ptrdiff_t>(next_), store_.end());
  before_ = store_.size();
  triggered_at_s_ = time_s;
  state_ = State::triggered;
}

void Recorder::finish() {
  Capture whole;
  whole.sample_s = sample_s;
  whole.trigger_sample = before_;
  whole.triggered_at_s = triggered_at_s_;
  whole.inputs = inputs_;
  for (std::size_t i = 0; i < inputs_.size(); ++i) {
    if (!inputs_[i].connected()) continue;
    for (const auto& sample : store_) whole.samples[i].push_back(sample[i]);
  }
  capture_ = std::move(whole);
  state_ = State::captured;
}

}  // namespace voltfall
