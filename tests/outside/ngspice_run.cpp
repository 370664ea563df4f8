#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <numbers>
#include <sstream>
#include <stdexcept>

#include "outside/ngspice_waves.h"

namespace voltfall {
namespace {

namespace fs = std::filesystem;

using Columns = std::map<std::string, std::vector<double>>;

std::string output_of(const std::string& command, int& status) {
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("no shell to run ngspice with");
  std::string printed;
  char piece[4096];
  std::size_t got = 0;
  while ((got = std::fread(piece, 1, sizeof piece, pipe)) > 0) printed.append(piece, got);
  status = pclose(pipe);
  return printed;
}

// ngspice's raw file: a header in words, then doubles, point by point.
Columns columns_of(const std::string& raw) {
  const std::string mark = "Binary:\n";
  const std::size_t end = raw.find(mark);
  if (end == std::string::npos) throw std::runtime_error("ngspice wrote no waveforms");
  std::istringstream header(raw.substr(0, end));
  std::vector<std::string> names;
  bool naming = false;
  for (std::string line; std::getline(header, line);) {
    if (naming) {
      std::istringstream words(line);
      std::string number, name;
      words >> number >> name;
      names.push_back(name);
    }
    naming = naming || line.rfind("Variables:", 0) == 0;
  }
  Columns columns;
  const char* place = raw.data() + end + mark.size();
  const std::size_t points = (raw.size() - end - mark.size()) / sizeof(double) / names.size();
  for (std::size_t point = 0; point < points; ++point) {
    for (const std::string& name : names) {
      double value = 0.0;
      std::memcpy(&value, place, sizeof value);
      place += sizeof value;
      columns[name].push_back(value);
    }
  }
  return columns;
}

const std::vector<double>& column(const Columns& columns, const std::string& name) {
  const auto found = columns.find(name);
  if (found == columns.end()) throw std::runtime_error("ngspice ran but gave no `" + name + "`");
  return found->second;
}

std::vector<double> difference(const Columns& columns, const std::string& one, const std::string& other) {
  std::vector<double> values = column(columns, "v(" + one + ")");
  const std::vector<double>& less = column(columns, "v(" + other + ")");
  for (std::size_t i = 0; i < values.size(); ++i) values[i] -= less[i];
  return values;
}

// The moments at which a 0-to-1 signal goes through a half.
std::vector<Switching> switchings(const std::vector<double>& time_s, const std::vector<double>& touching) {
  std::vector<Switching> found;
  for (std::size_t i = 1; i < time_s.size(); ++i) {
    const double before = touching[i - 1] - 0.5, after = touching[i] - 0.5;
    if ((before < 0.0) == (after < 0.0)) continue;
    found.push_back({time_s[i - 1] + (time_s[i] - time_s[i - 1]) * before / (before - after), after >= 0.0});
  }
  return found;
}

Waves waves_of(const Columns& columns) {
  constexpr double rpm_per_rad_per_s = 30.0 / std::numbers::pi;
  Waves waves;
  waves.time_s = column(columns, "time");
  const auto set = [&](Signal signal, std::vector<double> values) {
    waves.signals[static_cast<std::size_t>(signal)] = std::move(values);
  };
  set(Signal::loop_A, column(columns, "i(vloop)"));
  set(Signal::battery_posts_V, column(columns, "v(battery_positive_post)"));
  set(Signal::starter_V, difference(columns, "starter_terminal", "starter_case"));
  set(Signal::s_terminal_V, difference(columns, "s_terminal", "relay_case"));
  set(Signal::body_V, difference(columns, "body", "engine_block"));
  set(Signal::shoe_mm, column(columns, "v(shoe)"));
  set(Signal::relay_coil_A, column(columns, "i(vrelay_coil)"));
  set(Signal::plunger_mm, column(columns, "v(plunger)"));
  set(Signal::drive_coil_A, column(columns, "i(vdrive)"));
  std::vector<double> rpm = column(columns, "v(armature)");
  for (double& value : rpm) value *= rpm_per_rad_per_s;
  set(Signal::motor_rpm, std::move(rpm));
  waves.relay = switchings(waves.time_s, column(columns, "v(relay_touch)"));
  waves.grounding = switchings(waves.time_s, column(columns, "v(grounding_touch)"));
  return waves;
}

// A file that goes with this object.
struct PassingFile {
  explicit PassingFile(const std::string& ending)
      : path(fs::temp_directory_path() / fmt::format("voltfall_deck_{}{}", getpid(), ending)) {}
  ~PassingFile() {
    std::error_code ignored;
    fs::remove(path, ignored);
  }
  PassingFile(const PassingFile&) = delete;
  PassingFile& operator=(const PassingFile&) = delete;
  fs::path path;
};

// What ngspice printed, and its waveforms if it came to the end.
struct Attempt {
  std::string printed, raw;
  double wall_s;
  bool finished;
};

Attempt attempt(const std::string& deck) {
  const PassingFile netlist(".cir"), raw(".raw");
  std::ofstream(netlist.path) << deck;
  int status = 0;
  const auto began = std::chrono::steady_clock::now();
  std::string printed =
      output_of(fmt::format("ngspice -b -r '{}' '{}' 2>&1", raw.path.string(), netlist.path.string()), status);
  const double wall_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  const bool finished = status == 0 && printed.find("aborted") == std::string::npos;
  std::ifstream file(raw.path, std::ios::binary);
  return {
      std::move(printed), {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()}, wall_s, finished};
}

}  // namespace

DeckWaves ngspice_waves(const DeckCase& one) {
  constexpr int most_attempts = 6;
  constexpr double shorter = 0.93;
  int status = 0;
  output_of("command -v ngspice", status);
  if (status != 0) throw std::runtime_error("ngspice is not installed: `apt-get install ngspice`, or run tests/run.sh");
  DeckCase tried = one;
  std::string printed;
  for (int attempts = 0; attempts < most_attempts; ++attempts) {
    Attempt run = attempt(tried.deck());
    if (run.finished) return {waves_of(columns_of(run.raw)), run.wall_s};
    printed = std::move(run.printed);
    tried.run.longest_step_s *= shorter;
  }
  throw std::runtime_error("ngspice failed; it said:\n" + printed);
}

}  // namespace voltfall
