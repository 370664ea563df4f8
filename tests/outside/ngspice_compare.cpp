#include "outside/ngspice_compare.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace voltfall {
namespace {

constexpr double bounce_s = 0.004;  // shut again sooner than this, it is the same closing

// Walks along the model's time and tells the deck's.
class CommonClock {
 public:
  CommonClock(const Waves& model, const Waves& deck) : model_(switchings_of(model)), deck_(switchings_of(deck)) {}

  void move_to(double model_s) {
    now_s_ = model_s;
    while (passed_ < std::min(model_.size(), deck_.size()) && model_[passed_].time_s <= model_s) ++passed_;
  }
  bool settling() const { return passed_ > 0 && now_s_ - model_[passed_ - 1].time_s < settling_s; }
  bool at_a_jump() const {
    const double since_s = passed_ > 0 ? now_s_ - model_[passed_ - 1].time_s : jump_s;
    const double until_s = passed_ < model_.size() ? model_[passed_].time_s - now_s_ : jump_s;
    return since_s < jump_s || until_s < jump_s;
  }
  double deck_s() const {
    const double later_s = passed_ > 0 ? deck_[passed_ - 1].time_s - model_[passed_ - 1].time_s : 0.0;
    const double next_s =
        passed_ < deck_.size() ? deck_[passed_].time_s - jump_s : std::numeric_limits<double>::infinity();
    return std::min(now_s_ + later_s, next_s);
  }

 private:
  std::vector<Switching> model_, deck_;
  std::size_t passed_ = 0;
  double now_s_ = 0.0;
};

// How far a value is from those that the deck takes within a time of a moment.
double distance(double value, const Waves& deck, Signal signal, double time_s, double within_s) {
  double lowest = deck.at(signal, time_s), highest = lowest;
  const auto include = [&](double there) {
    lowest = std::min(lowest, there);
    highest = std::max(highest, there);
  };
  if (within_s > 0.0) {
    include(deck.at(signal, time_s - within_s));
    include(deck.at(signal, time_s + within_s));
    const auto first = std::lower_bound(deck.time_s.begin(), deck.time_s.end(), time_s - within_s);
    for (auto at = first; at != deck.time_s.end() && *at <= time_s + within_s; ++at) {
      include(deck.of(signal)[static_cast<std::size_t>(at - deck.time_s.begin())]);
    }
  }
  return std::max({lowest - value, value - highest, 0.0});
}

}  // namespace

std::vector<Switching> switchings_of(const Waves& waves) {
  std::vector<Switching> all = waves.relay;
  all.insert(all.end(), waves.grounding.begin(), waves.grounding.end());
  std::stable_sort(all.begin(), all.end(),
                   [](const Switching& one, const Switching& other) { return one.time_s < other.time_s; });
  return all;
}

double least_full_scale(Signal signal) {
  switch (signal) {
    case Signal::battery_posts_V:
    case Signal::starter_V:
    case Signal::s_terminal_V:
    case Signal::body_V:
      return 1.0e-3;
    case Signal::motor_rpm:
      return 1.0;
    case Signal::loop_A:
    case Signal::relay_coil_A:
    case Signal::drive_coil_A:
    case Signal::shoe_mm:
    case Signal::plunger_mm:
      break;
  }
  return 0.1;
}

double full_scale(Signal signal, const Waves& deck) {
  double most = least_full_scale(signal);
  for (const double value : deck.of(signal)) most = std::max(most, std::abs(value));
  return most;
}

Difference difference(Signal signal, const Waves& model, const Waves& deck, double from_s, double to_s, double off_s) {
  const double scale = full_scale(signal, deck);
  Difference found;
  CommonClock clock(model, deck);
  for (std::size_t i = 0; i < model.time_s.size(); ++i) {
    const double time_s = model.time_s[i];
    clock.move_to(time_s);
    if (time_s < from_s || time_s > to_s || clock.at_a_jump()) continue;
    ++found.samples;
    const double value = model.of(signal)[i];
    const double within_s = clock.settling() ? off_s : 0.0;
    const double off = distance(value, deck, signal, clock.deck_s(), within_s) / scale;
    if (off <= found.worst) continue;
    found = {off, time_s, value, deck.at(signal, clock.deck_s()), found.samples};
  }
  return found;
}

double first_bounces_end_s(const Waves& waves) {
  double shut_s = waves.relay.empty() ? 0.0 : waves.relay.front().time_s;
  for (std::size_t i = 1; i + 1 < waves.relay.size(); i += 2) {
    if (waves.relay[i + 1].time_s - waves.relay[i].time_s > bounce_s) break;
    shut_s = waves.relay[i + 1].time_s;
  }
  return shut_s;
}

Chatter chatter_of(const Waves& waves) {
  double first_s = 0.0, last_s = 0.0, shut_s = 0.0, shut_before_last_s = 0.0;
  double parted_s = -1.0, met_s = 0.0;
  Chatter chatter;
  for (const Switching& moved : waves.relay) {
    if (!moved.closed) {
      parted_s = moved.time_s;
      shut_s += moved.time_s - met_s;
      continue;
    }
    met_s = moved.time_s;
    if (parted_s >= 0.0 && moved.time_s - parted_s < bounce_s) continue;
    if (chatter.closings == 0) first_s = moved.time_s;
    ++chatter.closings;
    last_s = moved.time_s;
    shut_before_last_s = shut_s;
  }
  if (chatter.closings > 1) {
    chatter.per_s = (chatter.closings - 1) / (last_s - first_s);
    chatter.duty = shut_before_last_s / (last_s - first_s);
  }
  return chatter;
}

}  // namespace voltfall
