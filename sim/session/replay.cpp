#include <fmt/format.h>

#include <cstdint>
#include <exception>
#include <limits>
#include <sstream>
#include <stdexcept>

#include "scenario/read_scenario.h"
#include "sealing/bytes.h"
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

/// The job that a header holds, with its seal where it has one.
ReadScenario scenario_in(const Json& header, const SealOpener& opener) {
  const std::string name = header.at("scenario").get<std::string>();
  if (header.contains("sealed_job")) {
    const std::string text = header.at("sealed_job").get<std::string>();
    return opener(text, name);
  }
  return read_scenario_text(header.at("scenario_text").get<std::string>(), name + ".toml");
}

Scenario opened_scenario(const Json& header, const SealOpener& opener, std::vector<Problem>& problems) {
  if (header.at("step_s").get<double>() != Session::step_s) {
    throw std::invalid_argument("the record was made with another step size");
  }
  ReadScenario read = scenario_in(header, opener);
  problems = std::move(read.problems);
  if (!read.scenario) return {};
  const Scenario& scenario = *read.scenario;
  if (header.at("job").get<std::string>() != (scenario.seal ? scenario.seal->job : hex(digest(scenario.source_text)))) {
    throw std::invalid_argument("foreign: the job in it is not the one this record was made with");
  }
  return std::move(*read.scenario);
}

void compare_reading(const Json& line, int number, Replay& replay) {
  constexpr double let_pass_counts = 2.0, rounding = 1.0e-6;
  ++replay.readings;
  const std::string recorded = line.at("shown").get<std::string>();
  const std::string replayed = shown_words(replay.session->findings().back());
  const std::optional<double> off = replay.session->take_as_displayed(recorded);
  if (off && *off <= let_pass_counts + rounding) return;
  replay.differences.push_back(fmt::format("line {}, finding {}: recorded {}, replayed {}", number,
                                           replay.session->findings().back().number, recorded, replayed));
}

/// The record was left and gone on with.
void note_resumption(const Json& line, int number, Replay& replay) {
  const std::int64_t before = line.at("resumed_after").get<std::int64_t>();
  const std::int64_t ledger = line.at("ledger_has").get<std::int64_t>();
  if (line.at("same_head").get<bool>()) return;
  if (ledger >= before) {
    replay.taken_back.push_back(
        fmt::format("rewound: at line {} the record was gone on with from line {}, after line {} had been written",
                    number, before, ledger));
  } else {
    ++replay.resumed_unseen;
  }
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
  if (line.contains("resumed_after")) return note_resumption(line, number, replay);
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
    if (line.contains("total")) replay.recorded_total = line.at("total").get<double>();
  }
}

}  // namespace

RecordPlayer::RecordPlayer(std::string_view text, std::string name, TableSource tables, const SealOpener& opener)
    : lines_(std::string(text)), name_(std::move(name)), tables_(std::move(tables)), opener_(opener) {
  const CheckedChain chain = check_chain(text);
  replay_.whole_chain = !chain.broken;
  replay_.record_id = chain.place.record;
  if (chain.broken) replay_.problems.push_back({name_, chain.broken->line, 0, chain.broken->what});
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
  Scenario scenario = opened_scenario(json, opener_, replay_.problems);
  if (!replay_.problems.empty()) return;
  replay_.scenario = scenario;
  replay_.session.emplace(std::move(scenario), tables_);
  replay_.session->share(known_jobs_);
}

std::optional<RecordHead> record_head(std::string_view first_line) {
  const CheckedChain chain = check_chain(std::string(first_line) + "\n");
  if (chain.broken) return std::nullopt;
  try {
    const Json header = parsed(std::string(first_line));
    return RecordHead{header.at("attempt").get<int>(), chain.place.record, scenario_in(header, by_program())};
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

namespace {

Replay played_until(int line, RecordPlayer player, std::string_view name) {
  while (player.line() < line && player.play_line()) {
  }
  Replay replay = player.take();
  if (player.line() == 0 && replay.problems.empty()) {
    replay.problems.push_back({std::string(name), 0, 0, "the record is empty"});
  }
  return replay;
}

constexpr int to_the_end = std::numeric_limits<int>::max();

}  // namespace

Replay replay_until(std::string_view text, std::string_view name, int line, TableSource tables,
                    const SealOpener& opener) {
  return played_until(line, RecordPlayer(text, std::string(name), std::move(tables), opener), name);
}

Replay replay_text(std::string_view text, std::string_view name, TableSource tables, const SealOpener& opener) {
  return replay_until(text, name, to_the_end, std::move(tables), opener);
}

Replay replay(const std::filesystem::path& record, TableSource tables, const SealOpener& opener,
              std::shared_ptr<KnownJobs> known_jobs) {
  ReadText read = read_small_file(record, largest_record_bytes, "a record (.vfrec)");
  if (!read.problem) {
    RecordPlayer player(read.text, record.string(), std::move(tables), opener);
    player.share(std::move(known_jobs));
    return played_until(to_the_end, std::move(player), record.string());
  }
  Replay unread;
  unread.problems.push_back(std::move(*read.problem));
  return unread;
}

}  // namespace voltfall
