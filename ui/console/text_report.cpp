#include "console/text_report.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <array>

#include "wording/wording.h"

namespace voltfall {
namespace {

std::string place_of(std::optional<TestPoint> point) {
  return point ? fmt::format("{} ({})", number_of(*point), english().point(*point)) : "in the air";
}

std::string circumstances(const Finding& finding) {
  std::string text =
      fmt::format(", {}, loop current {} A", english().state(finding.state), amps_display(finding.loop_A).text());
  if (finding.hold == MeterHold::lowest) text += ", lowest held";
  if (finding.hold == MeterHold::highest) text += ", highest held";
  if (finding.headlamps) text += ", lamps on";
  if (finding.after_repair) text += ", after repair";
  return text;
}

}  // namespace

void print_finding(std::ostream& out, const Finding& finding) {
  const Wording& words = english();
  fmt::print(out, "Finding {}: ", finding.number);
  if (finding.kind == Finding::Kind::heard_or_seen) {
    fmt::print(out, "{}\n", words.observation(finding.observation));
  } else if (finding.kind == Finding::Kind::looked) {
    fmt::print(out, "{}: {}\n", words.component(finding.component), words.look(finding.observation));
  } else if (finding.clamp) {
    fmt::print(out, "{} round the {}{}\n", finding.shown.text_with_unit(), words.cable(*finding.clamp),
               circumstances(finding));
  } else {
    fmt::print(out, "{}, red on {}, black on {}{}\n", finding.shown.text_with_unit(), place_of(finding.red),
               place_of(finding.black), circumstances(finding));
  }
}

void print_crank(std::ostream& out, const Session& session) {
  const auto& crank = session.last_crank();
  if (!crank) return;
  fmt::print(out, "Heard: {}\n", english().crank_state(crank->state));
  if (crank->state == CrankState::chattering) fmt::print(out, "Clicks a second: {:.0f}\n", crank->closings_per_s);
  if (crank->headlamps) fmt::print(out, "Lamps: {}\n", english().lamp_look(lamp_look_at(crank->lamp_V)));
}

void print_displays(std::ostream& out, const Session& session) {
  const Multimeter& meter = session.meter();
  fmt::print(out, "Meter: {}\n", meter.display().text_with_unit());
  fmt::print(out, "Red: {}\nBlack: {}\n", place_of(meter.red()), place_of(meter.black()));
  if (const auto from = session.held_from()) {
    fmt::print(out, "Held: {}, from {}\n", meter.hold() == MeterHold::lowest ? "lowest" : "highest",
               english().state(*from));
  }
  if (const auto cable = session.clamp().round()) {
    fmt::print(out, "Clamp: {} round the {}\n", session.clamp().display().text_with_unit(), english().cable(*cable));
  }
}

void print_vehicle(std::ostream& out, const Session& session) {
  const Controls& controls = session.controls();
  const auto yes = [](bool on) { return on ? "on" : "off"; };
  constexpr std::array keys{"off", "on", "start"};
  constexpr std::array gears{"park", "neutral", "drive"};
  fmt::print(out, "Key: {}\n", keys.at(static_cast<std::size_t>(controls.key)));
  fmt::print(out, "Gear: {}\n", gears.at(static_cast<std::size_t>(controls.gear)));
  fmt::print(out, "Brake: {}\n", yes(session.brake_on()));
  fmt::print(out, "Eye protection: {}\n", yes(session.eye_protection_on()));
  fmt::print(out, "Ignition: {}\n", controls.ignition_live ? "live" : "disabled");
  fmt::print(out, "Negative clamp: {}\n", yes(controls.battery_connected));
  fmt::print(out, "Headlamps: {}\n", yes(controls.headlamps));
  fmt::print(out, "Job minutes: {:.1f}\n", session.job_minutes());
  fmt::print(out, "Money spent: {:.2f} {}\n", session.money_spent(), session.scenario().currency);
  if (session.is_practice()) fmt::print(out, "The scored record is closed as failed; this is practice.\n");
}

void print_work_order(std::ostream& out, const Scenario& scenario) {
  fmt::print(out, "Work order {}: {}\n", scenario.sheet, scenario.title);
  fmt::print(out, "Vehicle: {}\n", scenario.vehicle_name);
  fmt::print(out, "Place: {}\n", scenario.setting);
  fmt::print(out, "The driver says: {}\n", scenario.complaint);
  for (const std::string_view caution : english().cautions()) fmt::print(out, "Caution: {}\n", caution);
}

void print_timeline(std::ostream& out, const Session& session) {
  for (const LogEntry& entry : session.log().entries()) {
    fmt::print(out, "At {:.1f} min: {}{}{}, {:.1f} min", entry.at_minute, entry.what, entry.detail.empty() ? "" : ": ",
               entry.detail, entry.minutes);
    if (entry.money > 0.0) fmt::print(out, ", {:.2f} {}", entry.money, session.scenario().currency);
    fmt::print(out, "{}\n", entry.counted ? "" : ", outside economy");
  }
}

void print_score(std::ostream& out, const Session& session) {
  const auto score = session.score();
  if (!score) return;
  const Wording& words = english();
  fmt::print(out, "Verdict: {}\n", score->passed ? "passed" : "not passed");
  fmt::print(out, "Points: {:.1f} of 100\n", score->total);
  for (const Gate& gate : score->gates) {
    fmt::print(out, "Gate, {}: {}. {}\n", words.gate(gate.id), gate.held ? "held" : "NOT held", gate.reason);
  }
  for (const ScoreLine& line : score->lines) {
    fmt::print(out, "{}: {:.1f} of {:.0f}. {}\n", words.score_part(line.part), line.points, line.out_of, line.reason);
  }
}

}  // namespace voltfall
