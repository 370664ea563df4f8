#include "debrief/debrief_parts.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

/// The words after the first space of a detail such as `tap positive_clamp`.
std::string_view object_of(std::string_view detail) {
  const std::size_t space = detail.find(' ');
  return space == std::string_view::npos ? std::string_view() : detail.substr(space + 1);
}

std::string hung_text(const LogEntry& entry, const Wording& words) {
  const std::string_view channel = object_of(entry.detail);
  if (!channel.empty()) return filled(words, "log.recorder_channel", fmt::arg("what", channel));
  return filled(words, "log.hang", fmt::arg("what", words.text("device." + entry.detail)));
}

/// A word of the log's own, else that of the hand's key on the sheet.
std::string detail_text(std::string_view detail, const Wording& words) {
  const std::string own = fmt::format("log.{}", detail);
  return std::string(words.has(own) ? words.text(own) : words.hand(detail));
}

}  // namespace

std::string log_text(const LogEntry& entry, const Wording& words) {
  if (entry.what == "crank") return std::string(words.text(entry.detail.empty() ? "log.crank" : "log." + entry.detail));
  if (entry.what == "name") return filled(words, "log.name", fmt::arg("what", words.fault(entry.detail)));
  if (entry.what == "repair") return filled(words, "log.repair", fmt::arg("what", words.repair(entry.detail)));
  if (entry.what == "hang") return hung_text(entry, words);
  if (entry.what == "hands" && entry.detail.starts_with("tap ")) {
    return filled(words, "log.tap", fmt::arg("what", words.component(object_of(entry.detail))));
  }
  if (entry.what == "safety" || entry.what == "hands") return detail_text(entry.detail, words);
  return detail_text(entry.detail.empty() ? entry.what : entry.detail, words);
}

}  // namespace voltfall
