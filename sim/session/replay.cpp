#include <fmt/format.h>

#include <cstdint>
#include <exception>
#include <fstream>
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

void play(const Json& line, int number, Replay& replay) {
  Session& session = *replay.session;
  const std::uint64_t step = line.at("step").get<std::uint64_t>();
  if (step < session.step_count() || step - session.step_count() > longest_gap_steps) {
    throw std::invalid_argument(fmt::format("step {} can't follow step {}", step, session.step_count()));
  }
  session.run_steps(static_cast<int>(step - session.step_count()));
  if (session.step_count() != step) {
    throw std::invalid_argument(
        fmt::format("the replay comes to rest at step {}, the record acts at step {}", session.step_count(), step));
  }
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

void play_line(const std::string& text, int number, const TableSource& tables, Replay& replay) {
  const Json line = parsed(text);
  if (number > 1) {
    play(line, number, replay);
    return;
  }
  replay.attempt = line.at("attempt").get<int>();
  Scenario scenario = scenario_in(line, replay.problems);
  if (replay.problems.empty()) replay.session.emplace(std::move(scenario), tables);
}

}  // namespace

Replay replay_text(std::string_view text, std::string_view name, TableSource tables) {
  Replay replay;
  std::istringstream lines{std::string(text)};
  std::string line;
  int number = 0;
  while (replay.problems.empty() && std::getline(lines, line)) {
    ++number;
    try {
      play_line(line, number, tables, replay);
    } catch (const std::exception& error) {
      replay.problems.push_back({std::string(name), number, 0, fmt::format("damaged line: {}", error.what())});
    }
  }
  if (number == 0) replay.problems.push_back({std::string(name), 0, 0, "the record is empty"});
  if (!replay.problems.empty()) replay.session.reset();
  return replay;
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
