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
  std::filesystem::path key;
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

// `key`, where a command takes it, is the file of an instructor's key; empty: none, and sealed jobs stay shut.

/// Replays records and scores them again. 0 all count, 1 some are refused or for a person to judge, 2 the key can't be
/// read.
int mark_command(const std::vector<std::filesystem::path>& records, const std::filesystem::path& key);

/// The debrief of a closed job: plain lines, or with `html` a page that prints, written there (`-`: standard output).
/// 0 well, 1 not closed, not released or not written, 2 the record can't be played.
struct DebriefOptions {
  std::filesystem::path record;
  std::filesystem::path release{};  ///< kept with the records from then on
  std::filesystem::path key{};
  std::string html{};
};
int debrief_command(const DebriefOptions& options);

/// The service sheet of a scenario's vehicle as an HTML file that prints; `-` for standard output.
int sheet_command(const std::filesystem::path& scenario, const std::filesystem::path& key, const std::string& out);

/// Reads and simulates scenarios, given as files or as folders of them, and says what their author should know; `json`
/// for machines. 0 all sound, 1 some are not, 2 some can't be read.
int vet_command(const std::vector<std::filesystem::path>& scenarios, const std::filesystem::path& key, bool json);

/// The reference of the scenario file, as Markdown; `-` for standard output.
int format_command(const std::string& out);

/// Makes a new instructor's key. An existing file is left alone.
int key_command(const std::filesystem::path& out);

/// Seals a scenario for one pupil. 0 well, 1 not written, 2 scenario, code or key can't be used.
struct SealOptions {
  std::filesystem::path scenario, key;
  std::string code;
  std::filesystem::path out;  ///< empty: beside the scenario, called after it and the code
};
int seal_command(const SealOptions& options);

/// Deals variants of a scenario, or of a folder of them, sealed for pupils, with a key sheet. 0 well, 1 not all could
/// be dealt or written (then nothing is sealed), 2 scenario or key can't be used.
struct DealOptions {
  std::filesystem::path scenario, key, into;
  std::filesystem::path codes;  ///< of an earlier deal, one on a line; in place of `count`
  int count = 0;
  std::uint64_t seed = 0;
};
int deal_command(const DealOptions& options);

/// The class, from a folder of records and those below it: a page that prints and a table for spreadsheets, each
/// written where it is asked for (`-`: standard output). 0 well, 1 not written, 2 no records or no key.
struct TallyOptions {
  std::filesystem::path folder, key;
  std::string html, csv;
};
int tally_command(const TallyOptions& options);

/// Releases score and debrief of sealed jobs, given as files or as folders of them.
int release_command(const std::vector<std::filesystem::path>& jobs, const std::filesystem::path& key,
                    const std::filesystem::path& out);

/// Plays the demonstration job by itself, printing readings, verdict and score. For a machine with no display.
int demonstration_command();

}  // namespace voltfall
