#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "scenario/toml_section.h"
#include "walks/walk.h"
#include "walks/walk_text.h"

namespace voltfall {

/// One table of a walk's file, in the manner of the scenario reader's Section: every getter notes its key as known and
/// reports what is wrong with the value; `finish` reports the keys that nobody asked for.
class WalkTable {
 public:
  /// @param name  as messages call it: `predict.repeat`; empty for the file's top
  WalkTable(const toml::table& table, std::string_view name, Mistakes& mistakes);

  /// Null when nothing stands there.
  const toml::node* at(std::string_view key);
  std::optional<std::string> text(std::string_view key, std::size_t longest);
  std::optional<double> number(std::string_view key, const Range& range);
  std::optional<bool> flag(std::string_view key);
  /// Index of the chosen name.
  std::optional<std::size_t> choice(std::string_view key, std::span<const std::string_view> names);
  /// Null, with the mistake noted, when something else stands there or it is needed and missing.
  const toml::table* table(std::string_view key, bool needed);

  std::string needed_text(std::string_view key, std::size_t longest);
  double needed_number(std::string_view key, const Range& range);
  std::size_t needed_choice(std::string_view key, std::span<const std::string_view> names);
  bool require(std::string_view key);

  void finish();

  std::string path_of(std::string_view key) const;
  WalkLine place() const;
  const toml::table& node() const { return table_; }
  Mistakes& mistakes() { return mistakes_; }

 private:
  const toml::table& table_;
  std::string name_;
  Mistakes& mistakes_;
  std::vector<std::string_view> known_;
};

// The parts of a walk's file. What is wrong is noted in `mistakes`; what comes back is then of no use.

/// Vehicle, lamps, key and setup of a question or a sight.
/// @param otherwise  the vehicle when the file names none; null when it has to
WalkTrial read_trial(WalkTable& table, const VehicleType* otherwise);
/// @param table  null for a healthy vehicle
WalkSetup read_setup(const toml::table* table, const VehicleType& vehicle, Mistakes& mistakes);
std::optional<WalkSweep> read_sweep(WalkTable& table);

/// What is measured, whether and how it is held against another trial, and the choices.
void read_measured(WalkTable& table, WalkQuestion& question);
std::vector<WalkChoice> read_choices(WalkTable& table, const WalkQuestion& question);

/// @param reasons_needed  an unlike item has none
WalkQuestion read_question(const toml::table& table, std::string_view name, bool reasons_needed, Mistakes& mistakes);

}  // namespace voltfall
