#include "sealing/line_chain.h"

#include <fmt/format.h>

#include "sealing/bytes.h"
#include "sealing/json_fields.h"
#include "sealing/program_key.h"

namespace voltfall {
namespace {

constexpr std::size_t record_id_bytes = 16;
// What closes every line: `,"mark":"` 32 digits `"}`.
constexpr std::string_view mark_begins = ",\"mark\":\"", mark_ends = "\"}";
constexpr std::size_t mark_digits = 32;
constexpr std::size_t tail_length = mark_begins.size() + mark_digits + mark_ends.size();

/// It becomes the name of a file in the ledger: nothing else may.
bool is_record_id(std::string_view id) {
  return id.size() == 2 * record_id_bytes && id.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

/// The mark under a line that would else end with its closing brace.
std::string mark_under(std::string_view line, const ChainPlace& before) {
  return hex(program_mark(fmt::format("{}\n{}\n{}", before.record, before.head, line)));
}

/// The line without its mark, and the mark; empty when it has none.
struct Marked {
  std::string line, mark;
};
std::optional<Marked> split(std::string_view line) {
  if (line.size() < tail_length || !line.ends_with(mark_ends)) return std::nullopt;
  const std::string_view tail = line.substr(line.size() - tail_length);
  if (!tail.starts_with(mark_begins)) return std::nullopt;
  return Marked{std::string(line.substr(0, line.size() - tail_length)) + "}",
                std::string(tail.substr(mark_begins.size(), mark_digits))};
}

/// Empty when the line follows; else what was done.
std::string what_is_wrong(std::string_view text, ChainPlace& place) {
  const std::optional<Marked> line = split(text);
  const nlohmann::json json = nlohmann::json::parse(text, nullptr, false);
  if (!line || !json.is_object()) return "the line is damaged: its end is missing or it is no line of a record";
  const std::string record = text_in(json, "record_id");
  if (!is_record_id(record)) return "the line is damaged: it names no record";
  if (place.lines == 0) place.record = record;
  const std::int64_t number = whole_in(json, "n", -1);
  if (record != place.record)
    return fmt::format("spliced: the line comes from another record ({})", record.substr(0, 8));
  if (number > place.lines + 1) {
    return fmt::format("cut: line {} of the record follows line {}; what was between is missing", number, place.lines);
  }
  if (number != place.lines + 1) {
    return fmt::format("spliced: line {} of the record stands where line {} belongs", number, place.lines + 1);
  }
  if (mark_under(line->line, place) != line->mark) {
    return "edited: the line, or what stands before it, is not as the program wrote it";
  }
  place = {place.record, place.lines + 1, line->mark};
  return {};
}

}  // namespace

LineChain LineChain::begun() {
  return LineChain(ChainPlace{hex(random_bytes(record_id_bytes)), 0, {}});
}

std::string LineChain::next_line(nlohmann::ordered_json line) {
  line["n"] = place_.lines + 1;
  line["record_id"] = place_.record;
  std::string text = line.dump();
  std::string mark = mark_under(text, place_);
  text.pop_back();  // the closing brace, which comes after the mark
  text += fmt::format("{}{}{}", mark_begins, mark, mark_ends);
  place_ = {place_.record, place_.lines + 1, std::move(mark)};
  return text;
}

CheckedChain check_chain(std::string_view text) {
  CheckedChain checked;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    const std::string_view line = text.substr(0, end);
    std::string wrong =
        end == std::string_view::npos ? "cut: the line was not written to its end" : what_is_wrong(line, checked.place);
    if (!wrong.empty()) {
      checked.broken = ChainBreak{checked.place.lines + 1, std::move(wrong)};
      return checked;
    }
    text.remove_prefix(end + 1);
  }
  return checked;
}

}  // namespace voltfall
