#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <unistd.h>

#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

#include "console/table_place.h"
#include "marking/marking.h"
#include "session/record.h"
#include "tour/learner.h"

namespace voltfall {
namespace {

constexpr int copies = 30;

/// A folder of records of somebody who works to a plan, each job's many times over; gone when this is.
class RecordsOfAPlan {
 public:
  explicit RecordsOfAPlan(const std::vector<std::string>& jobs)
      : folder_(std::filesystem::temp_directory_path() / fmt::format("voltfall_marking_{}", getpid())) {
    std::filesystem::create_directories(folder_);
    for (const std::string& job : jobs) make(job);
  }
  ~RecordsOfAPlan() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  RecordsOfAPlan(const RecordsOfAPlan&) = delete;
  RecordsOfAPlan& operator=(const RecordsOfAPlan&) = delete;

  const std::vector<std::filesystem::path>& all() const { return all_; }

 private:
  void make(const std::string& job) {
    const auto scenario = std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios" / (job + ".toml");
    const std::filesystem::path first = folder_ / (job + "_0.vfrec");
    test::planner_learner(scenario, [&](Session& session) {
      if (const auto problem = begin_record(first, 1, session)) throw std::runtime_error(problem->text());
    });
    for (int copy = 0; copy < copies; ++copy) {
      all_.push_back(folder_ / fmt::format("{}_{}.vfrec", job, copy));
      if (copy > 0) std::filesystem::copy_file(first, all_.back());
    }
  }

  std::filesystem::path folder_;
  std::vector<std::filesystem::path> all_;
};

// A short job, one of middling length, and one of the three longest. A second record of the same number is played and
// scored like any other before it is refused as handed in twice.
void records_marked(benchmark::State& state) {
  const RecordsOfAPlan records({"one_click_lamps_bright", "no_click_with_the_lamps_on", "starts_when_it_likes"});
  for (auto _ : state) {
    benchmark::DoNotOptimize(mark_records(records.all(), table_store().source(), by_program()));
  }
  const auto marked = static_cast<double>(records.all().size()) * static_cast<double>(state.iterations());
  state.counters["s_per_thousand"] =
      benchmark::Counter(marked / 1000.0, benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}

BENCHMARK(records_marked)->Iterations(1)->Unit(benchmark::kSecond)->UseRealTime();

}  // namespace
}  // namespace voltfall
