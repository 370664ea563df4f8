#include <benchmark/benchmark.h>

#include "sweep/sweep.h"

namespace voltfall {
namespace {

constexpr int cranks = 200;

// On all cores, so by the clock on the wall.
void sweep_of_200_cranks(benchmark::State& state, const char* path, double from, double to, bool by_ratio) {
  const Knob knob{settable_at(path), from, to, by_ratio};
  for (auto _ : state) {
    SweepProgress progress;
    benchmark::DoNotOptimize(sweep({}, knob, cranks, progress));
  }
}

BENCHMARK_CAPTURE(sweep_of_200_cranks, charge, "battery.charge", 0.02, 1.0, false)
    ->Iterations(1)
    ->Unit(benchmark::kSecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(sweep_of_200_cranks, mounting_face, "joints.mounting_face.added_ohm", 1.0e-3, 1.0, true)
    ->Iterations(1)
    ->Unit(benchmark::kSecond)
    ->UseRealTime();

}  // namespace
}  // namespace voltfall
