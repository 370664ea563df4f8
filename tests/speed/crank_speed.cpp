#include <benchmark/benchmark.h>

#include <vector>

#include "outside/ngspice_deck.h"
#include "rig/crank_run.h"

namespace voltfall {
namespace {

constexpr double crank_s = 3.0;

// A whole crank, key to settled, every step's readings stored.
void whole_crank_recorded(benchmark::State& state) {
  double simulated_s = 0.0;
  for ([[maybe_unused]] auto _ : state) {
    std::vector<Readings> recording;
    recording.reserve(static_cast<std::size_t>(crank_s / Rig::step_s) + 1);
    const CrankResult cranked =
        run_crank({}, {}, {}, {.for_s = crank_s}, [&](const Readings& now) { recording.push_back(now); });
    if (!cranked.engaged()) state.SkipWithError("the healthy vehicle did not engage");
    benchmark::DoNotOptimize(recording.data());
    simulated_s += crank_s;
  }
  state.counters["times_real_time"] = benchmark::Counter(simulated_s, benchmark::Counter::kIsRate);
}
BENCHMARK(whole_crank_recorded)->Unit(benchmark::kMillisecond);

// The same with a chattering relay, the model's dearest condition.
void chattering_crank_recorded(benchmark::State& state) {
  RigParameters parameters;
  parameters.joints.positive_clamp.added_ohm = 0.05;
  double simulated_s = 0.0;
  for ([[maybe_unused]] auto _ : state) {
    std::vector<Readings> recording;
    run_crank(parameters, {}, {}, {.for_s = crank_s}, [&](const Readings& now) { recording.push_back(now); });
    benchmark::DoNotOptimize(recording.data());
    simulated_s += crank_s;
  }
  state.counters["times_real_time"] = benchmark::Counter(simulated_s, benchmark::Counter::kIsRate);
}
BENCHMARK(chattering_crank_recorded)->Unit(benchmark::kMillisecond);

// The engaged motor alone, for as long, in ngspice: no relay, shoe, teeth or engine, and its own larger steps.
void ngspice_engaged_motor(benchmark::State& state) {
  const std::string deck = engaged_motor_deck({}, 4.0, crank_s);
  double simulated_s = 0.0, wall_s = 0.0;
  for ([[maybe_unused]] auto _ : state) {
    const DeckAnswer answer = run_ngspice(deck);
    state.SetIterationTime(answer.wall_s);
    simulated_s += crank_s;
    wall_s += answer.wall_s;
  }
  state.counters["times_real_time"] = simulated_s / wall_s;
}
BENCHMARK(ngspice_engaged_motor)->UseManualTime()->Unit(benchmark::kMillisecond)->Iterations(3);

}  // namespace
}  // namespace voltfall
