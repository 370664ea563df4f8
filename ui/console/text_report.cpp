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
  if (finding.held_s > 0.0) text += fmt::format(", load on for {:.0f} s", finding.held_s);
  if (finding.hold == MeterHold::lowest) text += ", lowest held";
  if (finding.hold == MeterHold::highest) text += ", highest held";
  if (finding.headlamps) text += ", lamps on";
  if (finding.around.remote_pressed) text += ", remote switch";
  if (finding.after_repair) text += ", after repair";
  return text;
}

std::string figures_of(const Finding& finding) {
  const bool has_second = finding.also_shown.kind != MeterDisplay::Kind::no_lead;
  return finding.shown.text_with_unit() + (has_second ? " / " + finding.also_shown.text_with_unit() : "");
}

std::string places_of(const Finding& finding) {
  if (finding.clamp) return fmt::format(" round the {}", english().cable(*finding.clamp));
  if (finding.red && finding.black) {
    return fmt::format(", red on {}, black on {}", place_of(finding.red), place_of(finding.black));
  }
  return finding.red ? fmt::format(" at {}", place_of(finding.red)) : "";
}

}  // namespace

void print_finding(std::ostream& out, const Finding& finding) {
  const Wording& words = english();
  fmt::print(out, "Finding {}: ", finding.number);
  switch (finding.kind) {
    case Finding::Kind::heard_or_seen:
      return fmt::print(out, "{}\n", words.observation(finding.observation));
    case Finding::Kind::looked:
      return fmt::print(out, "{}: {}\n", words.component(finding.component), words.look(finding.observation));
    case Finding::Kind::felt:
      return fmt::print(out, "{}: {}\n", words.component(finding.component), words.observation(finding.observation));
    case Finding::Kind::gravity:
      return fmt::print(out, "gravity of cell {}: {}\n", finding.cell, figures_of(finding));
    case Finding::Kind::cold_amps:
      return fmt::print(out, "conductance tester: {} of cold cranking\n", figures_of(finding));
    case Finding::Kind::bench:
      return fmt::print(out, "{}: {}\n", words.bench(finding.observation), figures_of(finding));
    case Finding::Kind::lamp:
      return fmt::print(out, "{}{}{}\n", words.observation(finding.observation), places_of(finding),
                        circumstances(finding));
    default:
      return fmt::print(out, "{}{}{}\n", figures_of(finding), places_of(finding), circumstances(finding));
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

void print_kit(std::ostream& out, const Session& session) {
  for (const Kit kit : all_kit()) {
    if (!session.has_kit(kit)) continue;
    const MeterDisplay shown = session.shown_by(kit);
    const bool shows = shown.kind != MeterDisplay::Kind::no_lead;
    fmt::print(out, "{}: {}{}{}\n", id_of(kit), english().kit(kit), shows ? ", " : "",
               shows ? shown.text_with_unit() : "");
  }
  for (const Hung& hung : session.hung()) {
    fmt::print(out, "Hung: {} from {} to {}\n", english().device(hung.device), place_of(hung.first),
               place_of(hung.last));
    if (hung.device == Device::test_lamp)
      fmt::print(out, "Its light: {:.0f} of 100\n", 100.0 * session.test_lamp_light());
  }
  if (session.meter().buzzes()) fmt::print(out, "The meter buzzes.\n");
  if (session.meter_fuse_blown()) fmt::print(out, "A fuse of the meter has blown.\n");
  if (session.jumper_fuse_blown()) fmt::print(out, "The jumper's fuse has blown.\n");
}

void print_trace(std::ostream& out, const Session& session) {
  const auto& capture = session.recorder().capture();
  if (!capture) {
    fmt::print(out, "The recorder holds no capture.\n");
    return;
  }
  constexpr std::size_t rows = 20;
  for (const int channel : {1, 2}) {
    const auto& samples = capture->samples.at(static_cast<std::size_t>(channel - 1));
    if (samples.empty()) continue;
    const char* unit = capture->inputs.at(static_cast<std::size_t>(channel - 1)).round ? "A" : "V";
    fmt::print(out, "Channel {}: peak {:.2f} {}, lowest {:.2f} {}\n", channel, capture->peak(channel), unit,
               capture->lowest(channel), unit);
    for (std::size_t row = 0; row < rows; ++row) {
      const std::size_t at = row * samples.size() / rows;
      const double from_trigger_s =
          (static_cast<double>(at) - static_cast<double>(capture->trigger_sample)) * capture->sample_s;
      fmt::print(out, "  {:+.3f} s: {:.2f} {}\n", from_trigger_s, samples[at], unit);
    }
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
  if (controls.clutch_pedal_down) fmt::print(out, "Clutch pedal: down\n");
  if (!controls.s_wire_on) fmt::print(out, "S wire: off\n");
  if (controls.belt_off) fmt::print(out, "Belt: off\n");
  if (controls.plugs_out) fmt::print(out, "Spark plugs: out\n");
  if (controls.starter_off) fmt::print(out, "Starter: on the bench\n");
  if (session.vehicle_moved()) fmt::print(out, "The vehicle has moved.\n");
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
