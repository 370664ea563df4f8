#include "session/record.h"

#include <fmt/format.h>

#include <cstdint>
#include <fstream>
#include <memory>

#include "sealing/bytes.h"
#include "session/action_json.h"

namespace voltfall {
namespace {

using OrderedJson = nlohmann::ordered_json;

Problem problem(const std::filesystem::path& path, std::string what) {
  return {path.string(), 0, 0, std::move(what)};
}

OrderedJson header_of(const Session& session, int attempt) {
  const Scenario& scenario = session.scenario();
  OrderedJson header;
  header["v"] = record_format;
  header["record"] = "voltfall job";
  header["scenario"] = scenario.id;
  header["attempt"] = attempt;
  header["step_s"] = Session::step_s;
  if (scenario.seal) {
    header["job"] = scenario.seal->job;
    header["sealed_job"] = scenario.seal->file_text;
  } else {
    header["job"] = hex(digest(scenario.source_text));
    header["scenario_text"] = scenario.source_text;
  }
  return header;
}

OrderedJson line_of(const Session& session, std::uint64_t step, const Action& action, const Outcome& outcome) {
  OrderedJson line;
  line["v"] = record_format;
  line["step"] = step;
  line.update(json_of(action));
  if (!outcome.done) line["refused"] = outcome.id;
  if (outcome.done && makes_finding(action)) line["shown"] = shown_words(session.findings().back());
  if (outcome.done && std::holds_alternative<CloseJob>(action) && session.score()) {
    line["total"] = session.score()->total;
    line["passed"] = session.score()->passed;
  }
  return line;
}

/// The file and the chain in it, one line at a time.
class Writer {
 public:
  Writer(std::ofstream file, LineChain chain, LineWritten written)
      : file_(std::move(file)), chain_(std::move(chain)), written_(std::move(written)) {}

  void write(OrderedJson line) {
    file_ << chain_.next_line(std::move(line)) << '\n' << std::flush;
    if (written_) written_(chain_.place());
  }
  bool well() const { return static_cast<bool>(file_); }

 private:
  std::ofstream file_;
  LineChain chain_;
  LineWritten written_;
};

void write_actions_to(std::shared_ptr<Writer> writer, Session& session) {
  session.listen(
      [writer = std::move(writer)](const Session& now, std::uint64_t step, const Action& action,
                                   const Outcome& outcome) { writer->write(line_of(now, step, action, outcome)); });
}

}  // namespace

std::optional<Problem> begin_record(const std::filesystem::path& path, int attempt, Session& session,
                                    LineWritten written) {
  std::error_code error;
  if (std::filesystem::exists(path, error)) {
    return problem(path, "there is a record here already; a record is never written over");
  }
  if (session.step_count() > 0) return problem(path, "the job was begun before its record: it could not be replayed");
  if (path.has_parent_path()) std::filesystem::create_directories(path.parent_path(), error);
  auto writer = std::make_shared<Writer>(std::ofstream(path, std::ios::binary), LineChain::begun(), std::move(written));
  writer->write(header_of(session, attempt));
  if (!writer->well()) return problem(path, "the record can't be written; choose a folder that may be written to");
  write_actions_to(std::move(writer), session);
  return std::nullopt;
}

std::optional<Problem> resume_record(const std::filesystem::path& path, Session& session,
                                     const std::optional<ChainPlace>& ledger, LineWritten written) {
  const ReadText read = read_small_file(path, largest_record_bytes, "a record (.vfrec)");
  if (read.problem) return read.problem;
  CheckedChain chain = check_chain(read.text);
  if (chain.broken) return Problem{path.string(), chain.broken->line, 0, chain.broken->what};
  std::ofstream file(path, std::ios::binary | std::ios::app);
  if (!file) return problem(path, "the record can't be gone on with; it may not be written to");
  OrderedJson line;
  line["v"] = record_format;
  line["resumed_after"] = chain.place.lines;
  line["ledger_has"] = ledger ? ledger->lines : 0;
  line["same_head"] = ledger && ledger->lines == chain.place.lines && ledger->head == chain.place.head;
  auto writer = std::make_shared<Writer>(std::move(file), LineChain(std::move(chain.place)), std::move(written));
  writer->write(std::move(line));
  write_actions_to(std::move(writer), session);
  return std::nullopt;
}

}  // namespace voltfall
