#include "job/findings.h"

#include <fmt/format.h>

#include <algorithm>

#include "instruments/clamp_meter.h"

namespace voltfall {

std::string_view id_of(ElectricalState state) {
  switch (state) {
    case ElectricalState::at_rest:
      return "at_rest";
    case ElectricalState::key_on:
      return "key_on";
    case ElectricalState::cranking:
      return "cranking";
  }
  return {};
}

bool Finding::is_between(TestPoint one, TestPoint other) const {
  return (red == one && black == other) || (red == other && black == one);
}

std::string plain_words(std::string_view id) {
  std::string words(id);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

std::string shown_words(const Finding& finding) {
  if (!finding.observation.empty() && finding.kind != Finding::Kind::bench) return finding.observation;
  const bool has_second = finding.also_shown.kind != MeterDisplay::Kind::no_lead;
  const std::string second = has_second ? " / " + finding.also_shown.text_with_unit() : "";
  return finding.shown.text_with_unit() + second;
}

std::string place_words(const Finding& finding) {
  if (finding.clamp) return fmt::format("round the {} cable", plain_words(id_of(*finding.clamp)));
  if (finding.red && finding.black) {
    return fmt::format("from {} to {}", plain_words(id_of(*finding.red)), plain_words(id_of(*finding.black)));
  }
  return finding.red ? "at " + plain_words(id_of(*finding.red)) : std::string();
}

std::string in_words(const Finding& finding) {
  const std::string shown = plain_words(shown_words(finding));
  switch (finding.kind) {
    case Finding::Kind::heard_or_seen:
      return "noted: " + shown;
    case Finding::Kind::looked:
      return fmt::format("looked at the {}: {}", plain_words(finding.component), shown);
    case Finding::Kind::felt:
      return fmt::format("felt at the {}: {}", plain_words(finding.component), shown);
    case Finding::Kind::gravity:
      return fmt::format("gravity of cell {}: {}", finding.cell, shown);
    case Finding::Kind::bench:
      return fmt::format("bench, {}: {}", plain_words(finding.observation), shown);
    default:
      break;
  }
  std::string text = shown;
  if (const std::string place = place_words(finding); !place.empty()) text += " " + place;
  text += fmt::format(", {}, {} A", plain_words(id_of(finding.state)), amps_display(finding.loop_A).text());
  if (finding.settled.kind == MeterDisplay::Kind::value) text += ", settled at " + finding.settled.text_with_unit();
  if (finding.held_s > 0.0) text += fmt::format(", load on for {:.0f} s", finding.held_s);
  if (finding.hold == MeterHold::lowest) text += ", lowest held";
  if (finding.hold == MeterHold::highest) text += ", highest held";
  if (finding.headlamps) text += ", lamps on";
  if (finding.around.remote_pressed) text += ", remote switch";
  if (finding.after_repair) text += ", after repair";
  return text;
}

double volts_from(const Finding& finding, TestPoint first) {
  return finding.red == first ? finding.shown.base_value() : -finding.shown.base_value();
}

}  // namespace voltfall
