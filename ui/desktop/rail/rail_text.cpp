#include "desktop/rail/rail_text.h"

#include <fmt/format.h>

#include <array>

#include "desktop/vehicle_kind.h"

namespace voltfall {

std::string unit_text(MeterFunction function, const MeterDisplay& display) {
  const bool ohms = function == MeterFunction::ohms || function == MeterFunction::continuity;
  if (display.kind != MeterDisplay::Kind::value) {
    return ohms ? "\u03A9" : function == MeterFunction::amps_dc ? "A dc" : "V dc";
  }
  return ohms ? std::string(unit_word(display.unit)) : display.unit + " dc";
}

std::string held_text(const Session& session, const Wording& words) {
  switch (session.meter().display().kind) {
    case MeterDisplay::Kind::settling:
      return "settling";
    case MeterDisplay::Kind::no_lead:
      return "no leads";
    case MeterDisplay::Kind::overload:
      return "over range";
    case MeterDisplay::Kind::fuse_blown:
      return "fuse blown";
    case MeterDisplay::Kind::value:
      break;
  }
  if (session.meter().buzzes()) return "buzzes";
  if (session.meter().hold() == MeterHold::none) return "";
  std::string held = session.meter().hold() == MeterHold::lowest ? "lowest" : "highest";
  if (const auto from = session.held_from()) held += "\n" + std::string(words.state(*from));
  return held;
}

std::string_view unit_word(std::string_view unit) {
  if (unit == "ohm") return "\u03A9";
  if (unit == "kohm") return "k\u03A9";
  if (unit == "Mohm") return "M\u03A9";
  if (unit == "degC") return "\u00B0C";
  return unit == "Nm" ? "N\u00B7m" : unit;
}

bool has_figure(const Finding& finding) {
  using enum Finding::Kind;
  return finding.kind != heard_or_seen && finding.kind != looked && finding.kind != felt && finding.kind != lamp;
}

namespace {

std::string pair_text(const Finding& finding) {
  if (finding.clamp) return "";
  return fmt::format("{}\u2013{}", number_of(*finding.red), number_of(*finding.black));
}

std::string place_text(const Finding& finding, const Wording& words) {
  return finding.clamp ? std::string(words.cable(*finding.clamp)) : pair_text(finding);
}

}  // namespace

std::string where_text(const Finding& finding, const Wording& words) {
  switch (finding.kind) {
    case Finding::Kind::heard_or_seen:
      return std::string(words.observation(finding.observation));
    case Finding::Kind::looked:
      return fmt::format("{}: {}", words.component(finding.component), words.look(finding.observation));
    case Finding::Kind::felt:
      return fmt::format("{}: {}", words.component(finding.component), words.observation(finding.observation));
    case Finding::Kind::lamp:
      return fmt::format("{}: {}", pair_text(finding), words.observation(finding.observation));
    case Finding::Kind::gravity:
      return fmt::format("gravity, cell {}", finding.cell);
    case Finding::Kind::cold_amps:
      return "cold cranking, inferred";
    case Finding::Kind::load_volts:
      return fmt::format("posts, {} {} for {:.0f} s", finding.also_shown.text(), finding.also_shown.unit,
                         finding.held_s);
    case Finding::Kind::temperature:
      return fmt::format("infrared at {}", number_of(*finding.red));
    case Finding::Kind::speed:
      return "turns of the crank";
    case Finding::Kind::bench:
      return std::string(words.bench(finding.observation));
    case Finding::Kind::trace:
      return fmt::format("peak on {}", place_text(finding, words));
    case Finding::Kind::volts:
    case Finding::Kind::ohms:
    case Finding::Kind::amps:
      break;
  }
  return place_text(finding, words);
}

std::string figure_text(const Finding& finding) {
  const bool has_unit =
      finding.shown.kind == MeterDisplay::Kind::value || finding.shown.kind == MeterDisplay::Kind::overload;
  const std::string_view unit = has_unit ? unit_word(finding.shown.unit) : "";
  return unit.empty() ? finding.shown.text() : fmt::format("{} {}", finding.shown.text(), unit);
}

std::optional<SheetState> sheet_state(const Session& session, const Wording& words) {
  const auto say = [&](std::string_view id) { return words.text("sheet_state." + std::string(id)); };
  if (session.vehicle_moved()) return SheetState{say("vehicle_moved"), true, "", std::nullopt};
  if (session.meter_fuse_blown()) {
    return SheetState{say("meter_fuse_blown"), false, "New fuse, 1 min", ReplaceFuse{Kit::multimeter}};
  }
  if (session.jumper_fuse_blown()) {
    return SheetState{say("jumper_fuse_blown"), false, "New fuse, 1 min", ReplaceFuse{Kit::fused_jumper}};
  }
  if (session.is_practice()) return SheetState{say("dangerous_act"), true, "", std::nullopt};
  if (session.starter_off()) {
    return SheetState{say("starter_off"), false, "Put it on again", TakeStarterOff{false}};
  }
  return std::nullopt;
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
  const bool manual = is_manual(session);
  add(controls.gear == Gear::park && !manual, "park");
  add(controls.gear == Gear::neutral || (manual && controls.gear != Gear::drive), "neutral");
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
