#include "desktop/rail/rail_text.h"

#include <fmt/format.h>

#include <array>

namespace voltfall {

std::string unit_text(MeterFunction function, const MeterDisplay& display) {
  if (display.kind != MeterDisplay::Kind::value) return function == MeterFunction::volts_dc ? "V dc" : "\u03A9";
  if (display.unit == "ohm") return "\u03A9";
  if (display.unit == "kohm") return "k\u03A9";
  if (display.unit == "Mohm") return "M\u03A9";
  return display.unit + " dc";
}

std::string held_text(const Session& session, const Wording& words) {
  switch (session.meter().display().kind) {
    case MeterDisplay::Kind::settling:
      return "settling";
    case MeterDisplay::Kind::no_lead:
      return "no leads";
    case MeterDisplay::Kind::overload:
      return "over range";
    case MeterDisplay::Kind::value:
      break;
  }
  if (session.meter().hold() == MeterHold::none) return "";
  std::string held = session.meter().hold() == MeterHold::lowest ? "lowest" : "highest";
  if (const auto from = session.held_from()) held += "\n" + std::string(words.state(*from));
  return held;
}

std::string where_text(const Finding& finding, const Wording& words) {
  if (finding.kind == Finding::Kind::heard_or_seen) return std::string(words.observation(finding.observation));
  if (finding.kind == Finding::Kind::looked) {
    return std::string(words.component(finding.component)) + ": " + std::string(words.look(finding.observation));
  }
  if (finding.clamp) return std::string(words.cable(*finding.clamp));
  return fmt::format("{}\u2013{}", number_of(*finding.red), number_of(*finding.black));
}

std::string figure_text(const Finding& finding) {
  return finding.shown.text_with_unit();
}

std::string amps_text(double loop_A) {
  return loop_A < 9.95 ? fmt::format("{:.1f} A", loop_A) : fmt::format("{:.0f} A", loop_A);
}

std::string made_safe_text(const Session& session) {
  std::string words;
  const auto add = [&](bool holds, std::string_view word) {
    if (!holds) return;
    if (!words.empty()) words += " \u00B7 ";
    words += word;
  };
  const Controls& controls = session.controls();
  add(session.eye_protection_on(), "eyes");
  add(session.brake_on(), "brake");
  add(controls.gear == Gear::park, "park");
  add(controls.gear == Gear::neutral, "neutral");
  add(!controls.ignition_live, "ignition");
  add(!controls.battery_connected, "neg. off");
  return words.empty() ? "nothing yet" : words;
}

std::string limits_text(const Scenario& scenario) {
  struct Short {
    const char* key;
    std::string_view word;
  };
  constexpr std::array shown{Short{"cable", "cable"}, Short{"relay_contact", "relay"}, Short{"ground_side", "ground"}};
  std::string words;
  for (const Short& item : shown) {
    const auto found = scenario.limits.find(item.key);
    if (found == scenario.limits.end()) continue;
    words += fmt::format("{}{} {:.2f}", words.empty() ? "" : ", ", item.word, found->second.highest);
  }
  return words.empty() ? "none declared" : words + " V";
}

std::string limit_text(const LimitKey& key, const Limit& limit) {
  const std::string unit = key.unit.empty() ? "" : key.unit == "ohm" ? " \u03A9" : fmt::format(" {}", key.unit);
  std::string words;
  if (limit.lowest > 0.0 && limit.highest > 0.0) {
    words = fmt::format("{:g} to {:g}{}", limit.lowest, limit.highest, unit);
  } else if (limit.lowest > 0.0) {
    words = fmt::format("at least {:g}{}", limit.lowest, unit);
  } else {
    words = fmt::format("at most {:g}{}", limit.highest, unit);
  }
  if (key.measured_at == MeasuredAt::power_off) words += ", power off";
  if (key.measured_at == MeasuredAt::key_start && key.unit == "V") {
    words += fmt::format(", {:.0f} to {:.0f} A", limit.from_A, limit.to_A);
  }
  return words;
}

}  // namespace voltfall
