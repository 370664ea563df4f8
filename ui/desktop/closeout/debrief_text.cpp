#include "desktop/closeout/debrief_text.h"

#include <fmt/format.h>

namespace voltfall {

namespace {

std::string safety_text(std::string_view step) {
  if (step == "brake") return "parking brake on";
  if (step == "ignition") return "ignition and fuel disabled";
  if (step == "eyes") return "eye protection on";
  if (step == "negative_off") return "negative clamp off";
  if (step == "negative_on") return "negative clamp on";
  return std::string(step);
}

}  // namespace

std::string verdict_text(const Score& score) {
  return fmt::format("{}: {:.1f} of 100", score.passed ? "Passed" : "Not passed", score.total);
}

std::string log_text(const LogEntry& entry, const Wording& words) {
  if (entry.what == "crank") return "crank";
  if (entry.what == "reading") return entry.detail;
  if (entry.what == "look") return "look closely: " + std::string(words.component(entry.detail));
  if (entry.what == "observation") return "noted: " + std::string(words.observation(entry.detail));
  if (entry.what == "safety") return safety_text(entry.detail);
  if (entry.what == "name") return "named: " + std::string(words.fault(entry.detail));
  if (entry.what == "repair") return "repair: " + std::string(words.repair(entry.detail));
  if (entry.what == "wait") return "let it cool";
  if (entry.what == "close") return "handed back";
  return entry.what + " " + entry.detail;
}

}  // namespace voltfall
