#include "session/record.h"

#include <fmt/format.h>

#include <cstdint>
#include <fstream>
#include <memory>

#include "session/action_json.h"

namespace voltfall {
namespace {

using OrderedJson = nlohmann::ordered_json;

Problem problem(const std::filesystem::path& path, std::string what) {
  return {path.string(), 0, 0, std::move(what)};
}

OrderedJson header_of(const Session& session, int attempt) {
  OrderedJson header;
  header["v"] = record_format;
  header["record"] = "voltfall job";
  header["scenario"] = session.scenario().id;
  header["attempt"] = attempt;
  header["step_s"] = Session::step_s;
  header["scenario_hash"] = text_hash(session.scenario().source_text);
  header["scenario_text"] = session.scenario().source_text;
  return header;
}

OrderedJson line_of(const Session& session, std::uint64_t step, const Action& action, const Outcome& outcome) {
  OrderedJson line;
  line["v"] = record_format;
  line["step"] = step;
  line.update(json_of(action));
  if (!outcome.done) line["refused"] = outcome.id;
  if (outcome.done && makes_finding(action)) line["shown"] = shown_words(session.findings().back());
  if (outcome.done && std::holds_alternative<CloseJob>(action)) {
    line["total"] = session.score()->total;
    line["passed"] = session.score()->passed;
  }
  return line;
}

void write_actions_to(std::shared_ptr<std::ofstream> file, Session& session) {
  session.listen(
      [file = std::move(file)](const Session& now, std::uint64_t step, const Action& action, const Outcome& outcome) {
        *file << line_of(now, step, action, outcome).dump() << '\n' << std::flush;
      });
}

}  // namespace

std::optional<Problem> begin_record(const std::filesystem::path& path, int attempt, Session& session) {
  std::error_code error;
  if (std::filesystem::exists(path, error)) {
    return problem(path, "there is a record here already; a record is never written over");
  }
  if (path.has_parent_path()) std::filesystem::create_directories(path.parent_path(), error);
  auto file = std::make_shared<std::ofstream>(path, std::ios::binary);
  *file << header_of(session, attempt).dump() << '\n' << std::flush;
  if (!*file) return problem(path, "the record can't be written; choose a folder that may be written to");
  write_actions_to(std::move(file), session);
  return std::nullopt;
}

std::optional<Problem> resume_record(const std::filesystem::path& path, Session& session) {
  auto file = std::make_shared<std::ofstream>(path, std::ios::binary | std::ios::app);
  if (!*file) return problem(path, "the record can't be gone on with; it may not be written to");
  write_actions_to(std::move(file), session);
  return std::nullopt;
}

std::string text_hash(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  for (const char byte : text) {
    hash ^= static_cast<unsigned char>(byte);
    hash *= 0x100000001b3ULL;
  }
  return fmt::format("{:016x}", hash);
}

}  // namespace voltfall
