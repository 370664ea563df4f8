#include <benchmark/benchmark.h>

#include <filesystem>
#include <stdexcept>

#include "diagnosis/diagnosis.h"
#include "scenario/read_scenario.h"

// What a learner waits for: the table of a vehicle, once; a start with the table kept; the best next test.

namespace voltfall {
namespace {

Scenario first_job() {
  ReadScenario read =
      read_scenario(std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios" / "clicks_in_the_morning.toml");
  if (!read.scenario) throw std::runtime_error(read.problems.front().text());
  return std::move(*read.scenario);
}

const std::filesystem::path& kept_file() {
  static const auto file = std::filesystem::temp_directory_path() / "voltfall_speed.vftable";
  return file;
}

void table_of_a_vehicle(benchmark::State& state) {
  const Scenario job = first_job();
  for ([[maybe_unused]] auto _ : state) {
    TableProgress progress;
    const auto table = build_table(job, progress);
    state.counters["hypotheses"] = static_cast<double>(table->signatures.size());
    save_table(*table, table_hash(job), kept_file());
  }
}
BENCHMARK(table_of_a_vehicle)->Unit(benchmark::kSecond)->Iterations(1)->UseRealTime();

void start_with_the_table_kept(benchmark::State& state) {
  const Scenario job = first_job();
  for ([[maybe_unused]] auto _ : state) {
    auto table = load_table(job, table_hash(job), kept_file());
    if (!table) return state.SkipWithError("run table_of_a_vehicle first");
    const Diagnosis diagnosis(job, std::make_shared<const SignatureTable>(with_truth(std::move(*table), job)));
    benchmark::DoNotOptimize(diagnosis.problem().tests.data());
  }
}
BENCHMARK(start_with_the_table_kept)->Unit(benchmark::kMillisecond)->UseRealTime();

void best_next_test(benchmark::State& state) {
  const Scenario job = first_job();
  const auto kept = load_table(job, table_hash(job), kept_file());
  if (!kept) return state.SkipWithError("run table_of_a_vehicle first");
  const Diagnosis diagnosis(job, std::make_shared<const SignatureTable>(with_truth(*kept, job)));
  const decision::Situation start = decision::at_start(diagnosis.problem());
  for ([[maybe_unused]] auto _ : state)
    benchmark::DoNotOptimize(diagnosis.planner().best_next(start).minutes_to_finish);
}
BENCHMARK(best_next_test)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace voltfall
