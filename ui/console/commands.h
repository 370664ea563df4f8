#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace voltfall {

// One function per command; each returns the process's exit code and writes errors to standard error.

struct CrankOptions {
  std::optional<std::filesystem::path> scenario;
  std::vector<std::string> settings;  ///< PATH=VALUE
  std::string load = "engine";        ///< engine, free, locked, torque=N·m
  std::optional<double> supply_V;
  std::optional<double> for_s;
  std::optional<double> crank_angle_deg;
  std::optional<double> tooth_phase;
  std::optional<std::uint64_t> rest_seed;  ///< where compression left the engine, drawn by this
  std::optional<std::filesystem::path> csv;
  std::optional<std::string> json;  ///< a path, or - for standard output
  bool headlamps = false;
  bool list = false;
};
int crank_command(const CrankOptions& options);

/// A scenario worked in the terminal: plain lines in and out, the same record and score as on the screen.
int bay_text_command(const std::filesystem::path& scenario, const std::filesystem::path& record);

/// Replays records and scores them again.
int mark_command(const std::vector<std::filesystem::path>& records);

/// The debrief of a closed job: plain lines, or with `html` a page that prints, written there (`-`: standard output).
/// 0 well, 1 not closed or not written, 2 the record can't be played.
int debrief_command(const std::filesystem::path& record, const std::string& html);

/// The service sheet of a scenario's vehicle as an HTML file that prints; `-` for standard output.
int sheet_command(const std::filesystem::path& scenario, const std::string& out);

/// Plays the demonstration job by itself, printing readings, verdict and score. For a machine with no display.
int demonstration_command();

}  // namespace voltfall
