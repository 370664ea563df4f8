#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>

#include "outside/ngspice_deck.h"
#include "recording/tape.h"
#include "rig/rig.h"

namespace voltfall {
namespace {

constexpr double run_s = 3.0;
const LoadParameters stand{.kind = Load::torque, .torque_Nm = 4.5};

std::string circuit_deck() {
  DeckRun run;
  run.load = stand;
  run.for_s = run_s;
  return vehicle_deck("Healthy vehicle, key to start", {}, run);
}

// What a run comes to: the inrush, the first second as a mean, and the last one.
struct Figures {
  double peak_A, first_A, last_A;
};

double worst_difference(const Figures& one, const Figures& limit) {
  return std::max({std::abs(one.peak_A / limit.peak_A - 1.0), std::abs(one.first_A / limit.first_A - 1.0),
                   std::abs(one.last_A / limit.last_A - 1.0)});
}

double processor_time_s(int whose) {
  rusage used{};
  getrusage(whose, &used);
  const auto seconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + 1.0e-6 * static_cast<double>(time.tv_usec);
  };
  return seconds(used.ru_utime) + seconds(used.ru_stime);
}

Figures model_figures(double step_s, Tape* tape) {
  Rig rig(RigParameters{}, RestingPlace{}, stand, step_s);
  Controls controls;
  controls.key = KeyPosition::start;
  const auto steps = std::lround(run_s / step_s), steps_a_second = std::lround(1.0 / step_s);
  Figures figures{};
  for (long step = 0; step < steps; ++step) {
    rig.step(controls);
    rig.take_events();
    const double loop_A = rig.readings().loop_A;
    if (tape != nullptr) tape->append(rig.readings());
    figures.peak_A = std::max(figures.peak_A, loop_A);
    if (step < steps_a_second) figures.first_A += loop_A / static_cast<double>(steps_a_second);
    if (step >= steps - steps_a_second) figures.last_A += loop_A / static_cast<double>(steps_a_second);
  }
  return figures;
}

/// How exactly ngspice is asked to work.
struct Exactness {
  double relative_tolerance, longest_step_s;
};

// The deck with its own last lines, options and analysis, put aside.
std::string deck_for(const Exactness& exactness) {
  const std::string whole = circuit_deck();
  return whole.substr(0, whole.find(".options")) +
         fmt::format(".options reltol={:g} abstol=1e-6 vntol=1e-6 itl4=60\n", exactness.relative_tolerance) +
         fmt::format(".tran {0:g} {1:g} 0 {0:g} uic\n", exactness.longest_step_s, run_s) +
         ".meas tran peak max i(Vloop)\n.meas tran first avg i(Vloop) from=0 to=1\n" +
         fmt::format(".meas tran last avg i(Vloop) from={:g} to={:g}\n.end\n", run_s - 1.0, run_s);
}

std::optional<double> figure_in(const std::string& printed, const std::string& name) {
  const std::size_t line = printed.find("\n" + name);
  const std::size_t equals = line == std::string::npos ? line : printed.find('=', line);
  if (equals == std::string::npos) return std::nullopt;
  return std::strtod(printed.c_str() + equals + 1, nullptr);
}

// Empty when ngspice does not get through, which it does not at every tolerance.
std::optional<Figures> ngspice_figures(const Exactness& exactness, double& took_s) {
  constexpr const char* patience = "timeout 120 ngspice -b ";
  const auto path = std::filesystem::temp_directory_path() / fmt::format("voltfall_speed_{}.cir", getpid());
  std::ofstream(path) << deck_for(exactness);
  const double before_s = processor_time_s(RUSAGE_CHILDREN);
  std::string printed = "\n";
  if (std::FILE* pipe = popen((patience + path.string() + " 2>&1").c_str(), "r")) {
    std::array<char, 4096> piece{};
    while (const std::size_t got = std::fread(piece.data(), 1, piece.size(), pipe)) printed.append(piece.data(), got);
    pclose(pipe);
  }
  took_s = processor_time_s(RUSAGE_CHILDREN) - before_s;
  std::filesystem::remove(path);
  const auto peak = figure_in(printed, "peak"), first = figure_in(printed, "first"), last = figure_in(printed, "last");
  if (!peak || !first || !last) return std::nullopt;
  return Figures{*peak, *first, *last};
}

// Processor time of one run of the model, everything on the tape: the mean of some.
double model_time_s() {
  constexpr int runs = 10;
  double took_s = 0.0;
  for (int i = 0; i < runs; ++i) {
    Tape tape(Rig::step_s);
    const double before_s = processor_time_s(RUSAGE_SELF);
    benchmark::DoNotOptimize(model_figures(Rig::step_s, &tape));
    took_s += (processor_time_s(RUSAGE_SELF) - before_s) / runs;
  }
  return took_s;
}

// The same circuit in ngspice, in the same run. Each has its own limit, which it nears as it works more exactly; how
// far a run is from that limit is its error. Of ngspice's settings, coarsest first, the first one counts whose error is
// no larger than the model's at its shipped step.
void same_circuit_in_ngspice(benchmark::State& state) {
  constexpr Exactness limit{1.0e-6, 1.0e-4};
  constexpr std::array<Exactness, 8> settings{{{1.0e-3, 1.0e-2},
                                               {1.0e-3, 2.0e-3},
                                               {1.0e-4, 2.0e-3},
                                               {1.0e-4, 1.0e-3},
                                               {1.0e-5, 1.0e-3},
                                               {1.0e-5, 5.0e-4},
                                               {1.0e-5, 3.0e-4},
                                               {1.0e-5, 2.0e-4}}};
  for ([[maybe_unused]] auto _ : state) {
    const double model_error =
        worst_difference(model_figures(Rig::step_s, nullptr), model_figures(Rig::step_s / 8.0, nullptr));
    double took_s = 0.0;
    const auto exact = ngspice_figures(limit, took_s);
    if (!exact) {
      state.SkipWithError("ngspice is missing or did not get through: `apt-get install ngspice`, or run tests/run.sh");
      return;
    }
    double error = 1.0;
    for (const Exactness& setting : settings) {
      const auto figures = ngspice_figures(setting, took_s);
      error = figures ? worst_difference(*figures, *exact) : 1.0;
      state.counters["ngspice_longest_step_ms"] = 1.0e3 * setting.longest_step_s;
      if (error <= model_error) break;
    }
    const double model_s = model_time_s();
    state.SetIterationTime(took_s);
    state.counters["model_error_percent"] = 100.0 * model_error;
    state.counters["ngspice_error_percent"] = 100.0 * error;
    state.counters["model_ms"] = 1.0e3 * model_s;
    state.counters["ngspice_times_slower"] = took_s / model_s;
  }
}
BENCHMARK(same_circuit_in_ngspice)->UseManualTime()->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace
}  // namespace voltfall
