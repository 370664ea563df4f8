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

std::string in_words(const Finding& finding) {
  if (finding.kind == Finding::Kind::heard_or_seen) return "noted: " + plain_words(finding.observation);
  if (finding.kind == Finding::Kind::looked) {
    return fmt::format("looked at the {}: {}", plain_words(finding.component), plain_words(finding.observation));
  }
  const std::string where = finding.clamp ? fmt::format("round the {} cable", plain_words(id_of(*finding.clamp)))
                                          : fmt::format("from {} to {}", plain_words(id_of(*finding.red)),
                                                        plain_words(id_of(*finding.black)));
  std::string text = fmt::format("{} {}, {}, {} A", finding.shown.text_with_unit(), where,
                                 plain_words(id_of(finding.state)), amps_display(finding.loop_A).text());
  if (finding.hold == MeterHold::lowest) text += ", lowest held";
  if (finding.hold == MeterHold::highest) text += ", highest held";
  if (finding.headlamps) text += ", lamps on";
  if (finding.after_repair) text += ", after repair";
  return text;
}

double volts_from(const Finding& finding, TestPoint first) {
  return finding.red == first ? finding.shown.base_value() : -finding.shown.base_value();
}

}  // namespace voltfall
