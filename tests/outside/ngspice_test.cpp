// The model against an independent solver: the same vehicles written out as netlists, solved by ngspice with its own
// steps, compared waveform against waveform.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "outside/ngspice_compare.h"
#include "rig/rig.h"
#include "support/cranks.h"

namespace voltfall {
namespace {

constexpr double settled_agreement = 0.005;   // of the value
constexpr double transient_agreement = 0.02;  // of the signal's full scale
constexpr double chatter_agreement = 0.05;
// How far in time a sample may be off just after a switching; and the starter's volts while the disc bounces. The
// contact is then shut for microseconds at a time, one piece of a step in the model and as long as copper takes to
// throw the disc back in the deck; when the arc of so small a current goes out, and the volts with it, hangs on that.
constexpr double off_s = jump_s, arc_off_s = Rig::step_s;
constexpr double switching_s = 0.5 * Rig::step_s;  // within which a contact moves when the deck's does

struct Pair {
  explicit Pair(std::string_view id) : of(deck_case(id)), model(model_waves(of)), deck(ngspice_waves(of).waves) {}
  const DeckCase& of;
  Waves model, deck;
};

std::vector<Signal> all_signals() {
  std::vector<Signal> signals;
  for (std::size_t i = 0; i < signal_count; ++i) signals.push_back(static_cast<Signal>(i));
  return signals;
}

void expect_same_switchings(const Pair& pair, double until_s) {
  const std::vector<Switching> model = switchings_of(pair.model), deck = switchings_of(pair.deck);
  const auto before = [&](const std::vector<Switching>& moves) {
    return std::count_if(moves.begin(), moves.end(), [&](const Switching& one) { return one.time_s < until_s; });
  };
  ASSERT_EQ(before(model), before(deck));
  if (before(model) == 0) return;
  EXPECT_NEAR(model[0].time_s, deck[0].time_s, switching_s);
  for (std::size_t i = 0; i < static_cast<std::size_t>(before(model)); ++i) {
    EXPECT_EQ(model[i].closed, deck[i].closed) << i;
    EXPECT_NEAR(model[i].time_s - model[0].time_s, deck[i].time_s - deck[0].time_s, switching_s) << i;
  }
}

void expect_same_waveforms(const Pair& pair, double until_s) {
  const double first_s = pair.model.relay.empty() ? 0.0 : pair.model.relay.front().time_s;
  const double steady_s = std::min(first_bounces_end_s(pair.model), until_s);
  const auto expect_within = [&](Signal signal, double from_s, double to_s, double may_be_off_s) {
    const Difference found = difference(signal, pair.model, pair.deck, from_s, to_s, may_be_off_s);
    EXPECT_LE(found.worst, transient_agreement)
        << id_of(signal) << " at " << found.at_s << " s: model " << found.model << ", ngspice " << found.deck;
    return found.samples;
  };
  for (const Signal signal : all_signals()) {
    const double bouncing_off_s = signal == Signal::starter_V ? arc_off_s : off_s;
    const int samples = expect_within(signal, 0.0, first_s, off_s) +
                        expect_within(signal, first_s, steady_s, bouncing_off_s) +
                        expect_within(signal, steady_s, until_s, off_s);
    EXPECT_GT(samples, 0.9 * until_s / Rig::step_s) << id_of(signal);
  }
}

void expect_same_settled(const Pair& pair) {
  const double end_s = pair.of.run.for_s;
  const double from_s = end_s - std::min(1.0, end_s / 3.0);
  for (const Signal signal : all_signals()) {
    const double deck = pair.deck.mean(signal, from_s, end_s);
    EXPECT_NEAR(pair.model.mean(signal, from_s, end_s), deck,
                settled_agreement * std::max(std::abs(deck), least_full_scale(signal)))
        << id_of(signal);
  }
}

struct Extremes {
  double lowest, highest;
};

// From the first closing on.
Extremes extremes(const Waves& waves, Signal signal) {
  Extremes found{waves.at(signal, waves.relay.front().time_s), waves.at(signal, waves.relay.front().time_s)};
  for (std::size_t i = 0; i < waves.time_s.size(); ++i) {
    if (waves.time_s[i] < waves.relay.front().time_s) continue;
    found.lowest = std::min(found.lowest, waves.of(signal)[i]);
    found.highest = std::max(found.highest, waves.of(signal)[i]);
  }
  return found;
}

void expect_agreement(std::string_view id) {
  const Pair pair(id);
  expect_same_switchings(pair, pair.of.run.for_s);
  expect_same_waveforms(pair, pair.of.run.for_s);
  expect_same_settled(pair);
}

TEST(NgspiceDeck, HealthyCrank) {
  expect_agreement("healthy");
}

TEST(NgspiceDeck, AddedResistance) {
  expect_agreement("added_resistance");
}

TEST(NgspiceDeck, ControlSide) {
  expect_agreement("control_side");
}

TEST(NgspiceDeck, LostStrapWithParasiticPath) {
  expect_agreement("lost_strap");
}

TEST(NgspiceDeck, LostStrapWithLampsLit) {
  expect_agreement("lost_strap_lamps");
}

TEST(NgspiceDeck, PullInOverAMovingGap) {
  expect_agreement("pull_in");
}

TEST(NgspiceDeck, AnotherStarterInTheCold) {
  expect_agreement("cold");
}

TEST(NgspiceDeck, HeavyLoad) {
  expect_agreement("heavy_load");
}

// What follows the first drop-out hangs on the last micron of each bounce, so it is compared by what it amounts to.
TEST(NgspiceDeck, ChatterByItsFirstClosingThenByRateAndSpread) {
  const Pair pair("chatter");
  const auto opens = std::find_if(pair.model.relay.begin(), pair.model.relay.end(), [&](const Switching& one) {
    return !one.closed && one.time_s > pair.model.relay.front().time_s + 0.01;
  });
  ASSERT_NE(opens, pair.model.relay.end());
  const double drops_out_s = opens->time_s - 1.0e-3;
  expect_same_switchings(pair, drops_out_s);
  expect_same_waveforms(pair, drops_out_s);
  const Chatter model = chatter_of(pair.model), deck = chatter_of(pair.deck);
  EXPECT_GE(deck.closings, 5);
  EXPECT_NEAR(model.per_s, deck.per_s, chatter_agreement * deck.per_s);
  EXPECT_NEAR(model.duty, deck.duty, chatter_agreement * deck.duty);
  for (const Signal signal : {Signal::loop_A, Signal::battery_posts_V, Signal::relay_coil_A, Signal::plunger_mm}) {
    const double within = chatter_agreement * full_scale(signal, pair.deck);
    const Extremes of_model = extremes(pair.model, signal), of_deck = extremes(pair.deck, signal);
    EXPECT_NEAR(of_model.lowest, of_deck.lowest, within) << id_of(signal);
    EXPECT_NEAR(of_model.highest, of_deck.highest, within) << id_of(signal);
  }
}

}  // namespace
}  // namespace voltfall
