#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cmath>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <memory>
#include <string>
#include <vector>

#include "recording/tape.h"
#include "rig/rig.h"

namespace voltfall {
namespace {

constexpr double bytes_per_MiB = 1024.0 * 1024.0;
constexpr int minutes = 60, compared = 10;
constexpr double crank_s_a_minute = 5.0;

double processor_time_s() {
  timespec now{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1.0e-9 * static_cast<double>(now.tv_nsec);
}

// The most memory this process has ever had resident.
double peak_memory_MiB() {
  std::ifstream file("/proc/self/status");
  for (std::string word; file >> word;) {
    double kibibytes = 0.0;
    if (word == "VmHWM:" && file >> kibibytes) return kibibytes / 1024.0;
  }
  return 0.0;
}

// A file that counts what it is given.
class CountingFile : public TapeStore {
 public:
  CountingFile(const std::filesystem::path& path, double& written) : file_(path), written_(written) {}
  std::optional<std::string> write(std::uint64_t offset, std::span<const std::byte> bytes) override {
    written_ += static_cast<double>(bytes.size());
    return file_.write(offset, bytes);
  }
  bool read(std::uint64_t offset, std::span<std::byte> into) const override { return file_.read(offset, into); }

 private:
  TapeFile file_;
  double& written_;
};

std::filesystem::path tape_path() {
  return std::filesystem::temp_directory_path() / fmt::format("voltfall_speed_{}", getpid());
}

// A minute of a job: the key at start for five seconds, then let go.
void live_a_minute(Rig& rig, Tape& tape) {
  const auto crank_steps = std::lround(crank_s_a_minute / Rig::step_s);
  const auto steps = std::lround(60.0 / Rig::step_s);
  Controls controls;
  for (long step = 0; step < steps; ++step) {
    controls.key = step < crank_steps ? KeyPosition::start : KeyPosition::on;
    rig.step(controls);
    rig.take_events();
    tape.append(rig.readings());
  }
}

// An hour's job, step by step, on a tape with its file: memory, and whether the last ten minutes cost what the first
// ten did.
void hours_job(benchmark::State& state) {
  double written_bytes = 0.0, first_s = 0.0, last_s = 0.0, total_s = 0.0;
  for ([[maybe_unused]] auto _ : state) {
    Rig rig(RigParameters{});
    Tape tape(Rig::step_s, std::make_unique<CountingFile>(tape_path(), written_bytes));
    for (int minute = 0; minute < minutes; ++minute) {
      const double began_s = processor_time_s();
      live_a_minute(rig, tape);
      const double took_s = processor_time_s() - began_s;
      if (minute < compared) first_s += took_s;
      if (minute >= minutes - compared) last_s += took_s;
      total_s += took_s;
    }
    if (const auto trouble = tape.take_trouble()) state.SkipWithError(trouble->c_str());
  }
  state.counters["peak_memory_MiB"] = peak_memory_MiB();
  state.counters["on_disk_MiB"] = written_bytes / bytes_per_MiB;
  state.counters["last_minutes_over_first"] = last_s / first_s;
  state.counters["times_real_time"] = 60.0 * minutes / total_s;
}
BENCHMARK(hours_job)->Unit(benchmark::kSecond)->Iterations(1);

// A tape of ten minutes, all signals moving, as a drawing of 1500 columns asks for it.
void tape_drawn(benchmark::State& state) {
  Tape tape(Rig::step_s, std::make_unique<TapeFile>(tape_path()));
  Readings now;
  for (long step = 0; step < std::lround(600.0 / Rig::step_s); ++step) {
    now.time_s = static_cast<double>(step) * Rig::step_s;
    for (double& volts : now.node_V) volts = static_cast<double>(step % 1000);
    tape.append(now);
  }
  std::vector<TapeRange> parts(1500);
  const auto seconds = static_cast<double>(state.range(0));
  const auto ago_s = static_cast<double>(state.range(1));
  for ([[maybe_unused]] auto _ : state) {
    const TapeView view =
        tape.look(tape_signal_of(TestPoint::starter_terminal), 600.0 - ago_s, 600.0 - ago_s + seconds, parts);
    benchmark::DoNotOptimize(view);
  }
}
BENCHMARK(tape_drawn)
    ->ArgNames({"seconds", "ago"})
    ->Args({1, 1})
    ->Args({30, 30})
    ->Args({60, 60})
    ->Args({10, 300})
    ->Args({600, 600})
    ->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace voltfall
