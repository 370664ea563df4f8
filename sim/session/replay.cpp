#include <fmt/format.h>

#include <cstdint>
#include <exception>
#include <fstream>
#include <limits>
#include <sstream>
#include <stdexcept>

#include "scenario/read_scenario.h"
#include "session/action_json.h"
#include "session/record.h"

namespace voltfall {
namespace {

using Json = nlohmann::json;

// A record's actions lie at most an hour of rig time apart: time stands still when nothing happens.
constexpr std::uint64_t longest_gap_steps = 36'000'000;

struct RecordLine {
  int number;
  Json json;
};

Json parsed(const std::string& text) {
  Json json = Json::parse(text);
  if (json.at("v").get<int>() != record_format) {
    throw std::invalid_argument(
        fmt::format("format {} is not known; this program reads format {}", json.at("v").get<int>(), record_format));
  }
  return json;
}

Scenario scenario_in(const Json& header, std::vector<Problem>& problems) {
  const std::string text = header.at("scenario_text").get<std::string>();
  if (text_hash(text) != header.at("scenario_hash").get<std::string>()) {
    throw std::invalid_argument("the scenario's text is not the one this record was made with (its hash differs)");
  }
  if (header.at("step_s").get<double>() != Session::step_s) {
    throw std::invalid_argument("the record was made with another step size");
  }
  ReadScenario read = read_scenario_text(text, header.at("scenario").get<std::string>() + ".toml");
  problems = std::move(read.problems);
  return read.scenario ? std::move(*read.scenario) : Scenario{};
}

void compare_reading(const Json& line, int number, Replay& replay) {
  ++replay.readings;
  const std::string recorded = line.at("shown").get<std::string>();
  const Finding& finding = replay.session->findings().back();
  const std::string replayed = shown_words(finding);
  if (recorded == replayed) return;
  replay.differences.push_back(
      fmt::format("line {}, finding {}: recorded {}, replayed {}", number, finding.number, recorded, replayed));
}

void run_to(Session& session, const Json& line) {
  const std::uint64_t step = line.at("step").get<std::uint64_t>();
  if (step < session.step_count() || step - session.step_count() > longest_gap_steps) {
    throw std::invalid_argument(fmt::format("step {} can't follow step {}", step, session.step_count()));
  }
  session.run_steps(static_cast<int>(step - session.step_count()));
  if (session.step_count() != step) {
    throw std::invalid_argument(
        fmt::format("the replay comes to rest at step {}, the record acts at step {}", session.step_count(), step));
  }
}

void play_action(const Json& line, int number, Replay& replay) {
  Session& session = *replay.session;
  run_to(session, line);
  const Action action = action_in(line);
  const Outcome outcome = session.act(action);
  const std::string refused = line.value("refused", std::string());
  if (outcome.done != refused.empty() || (!outcome.done && outcome.id != refused)) {
    throw std::invalid_argument(fmt::format("the replay answers `{}`, the record `{}`",
                                            outcome.done ? "done" : outcome.id, refused.empty() ? "done" : refused));
  }
  if (outcome.done && makes_finding(action)) compare_reading(line, number, replay);
  if (outcome.done && std::holds_alternative<CloseJob>(action)) {
    replay.finished = true;
    replay.recorded_total = line.at("total").get<double>();
  }
}

}  // namespace

RecordPlayer::RecordPlayer(std::string_view text, std::string name, TableSource tables)
    : lines_(std::string(text)), name_(std::move(name)), tables_(std::move(tables)) {
  read_next();
}

void RecordPlayer::read_next() {
  std::string line;
  next_ = std::getline(lines_, line) ? std::optional(std::move(line)) : std::nullopt;
}

bool RecordPlayer::play_line() {
  if (!replay_.problems.empty() || !next_) return false;
  ++line_;
  try {
    play(*next_);
  } catch (const std::exception& error) {
    complain(line_, error);
  }
  if (!replay_.problems.empty()) replay_.session.reset();
  read_next();
  return replay_.problems.empty();
}

bool RecordPlayer::closes_next() const {
  if (!next_) return false;
  const Json line = Json::parse(*next_, nullptr, false);
  return line.is_object() && line.contains("total");
}

void RecordPlayer::run_to_next_action() {
  if (!replay_.session || !next_) return;
  try {
    run_to(*replay_.session, parsed(*next_));
  } catch (const std::exception& error) {
    complain(line_ + 1, error);
    replay_.session.reset();
  }
}

void RecordPlayer::complain(int line, const std::exception& error) {
  replay_.problems.push_back({name_, line, 0, fmt::format("damaged line: {}", error.what())});
}

void RecordPlayer::play(const std::string& line) {
  const Json json = parsed(line);
  if (line_ > 1) return play_action(json, line_, replay_);
  replay_.attempt = json.at("attempt").get<int>();
  Scenario scenario = scenario_in(json, replay_.problems);
  if (replay_.problems.empty()) replay_.session.emplace(std::move(scenario), tables_);
}

Replay replay_until(std::string_view text, std::string_view name, int line, TableSource tables) {
  RecordPlayer player(text, std::string(name), std::move(tables));
  while (player.line() < line && player.play_line()) {
  }
  Replay replay = player.take();
  if (player.line() == 0) replay.problems.push_back({std::string(name), 0, 0, "the record is empty"});
  return replay;
}

Replay replay_text(std::string_view text, std::string_view name, TableSource tables) {
  return replay_until(text, name, std::numeric_limits<int>::max(), std::move(tables));
}

Replay replay(const std::filesystem::path& record, TableSource tables) {
  std::ifstream file(record, std::ios::binary);
  if (!file || std::filesystem::is_directory(record)) {
    Replay unread;
    unread.problems.push_back({record.string(), 0, 0, "the record can't be opened"});
    return unread;
  }
  std::ostringstream text;
  text << file.rdbuf();
  return replay_text(text.str(), record.string(), std::move(tables));
}

}  // namespace voltfall
