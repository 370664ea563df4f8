#include <benchmark/benchmark.h>

#include <cmath>
#include <memory>

#include "recording/tape.h"
#include "rig/rig.h"

namespace voltfall {
namespace {

constexpr double crank_s = 3.0;

// A whole crank on one core, key to start and held, every signal of every step on the tape. The tape is opened and
// closed outside the time, as that is done once a job.
void crank_recorded(benchmark::State& state, const RigParameters& parameters, bool must_engage) {
  const auto steps = std::lround(crank_s / Rig::step_s);
  double simulated_s = 0.0;
  for ([[maybe_unused]] auto _ : state) {
    state.PauseTiming();
    auto tape = std::make_unique<Tape>(Rig::step_s);
    state.ResumeTiming();
    Rig rig(parameters);
    Controls controls;
    controls.key = KeyPosition::start;
    for (long step = 0; step < steps; ++step) {
      rig.step(controls);
      benchmark::DoNotOptimize(rig.take_events());
      tape->append(rig.readings());
    }
    if (must_engage && !rig.readings().meshed) state.SkipWithError("the healthy vehicle did not engage");
    simulated_s += crank_s;
    state.PauseTiming();
    tape.reset();
    state.ResumeTiming();
  }
  state.counters["times_real_time"] = benchmark::Counter(simulated_s, benchmark::Counter::kIsRate);
}

void whole_crank_recorded(benchmark::State& state) {
  crank_recorded(state, {}, true);
}
BENCHMARK(whole_crank_recorded)->Unit(benchmark::kMillisecond);

// With a chattering relay: the model's dearest condition.
void chattering_crank_recorded(benchmark::State& state) {
  RigParameters parameters;
  parameters.joints.positive_clamp.added_ohm = 0.05;
  crank_recorded(state, parameters, false);
}
BENCHMARK(chattering_crank_recorded)->Unit(benchmark::kMillisecond);

// What the engagement costs beside turning an engine that has long been caught: a second of the latter.
void second_of_steady_cranking(benchmark::State& state) {
  Rig rig(RigParameters{});
  Controls controls;
  controls.key = KeyPosition::start;
  const auto steps_a_second = std::lround(1.0 / Rig::step_s);
  const auto crank_a_second = [&] {
    for (long step = 0; step < steps_a_second; ++step) rig.step(controls);
    benchmark::DoNotOptimize(rig.take_events());
  };
  crank_a_second();
  double simulated_s = 0.0;
  for ([[maybe_unused]] auto _ : state) {
    crank_a_second();
    simulated_s += 1.0;
  }
  if (!rig.readings().meshed) state.SkipWithError("the healthy vehicle did not stay engaged");
  state.counters["times_real_time"] = benchmark::Counter(simulated_s, benchmark::Counter::kIsRate);
}
BENCHMARK(second_of_steady_cranking)->Unit(benchmark::kMillisecond)->Iterations(10);

}  // namespace
}  // namespace voltfall
