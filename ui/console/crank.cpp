#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "console/commands.h"
#include "console/files.h"
#include "console/key_file.h"
#include "rig/crank_run.h"
#include "rig/resting_place.h"
#include "rig/settable.h"

namespace voltfall {
namespace {

using Json = nlohmann::ordered_json;

constexpr int failed = 2;  // the input can't be read

int refuse(const std::string& why) {
  fmt::print(stderr, "{}\n", why);
  return failed;
}

struct CrankInput {
  RigParameters parameters;
  RestingPlace rest;
  LoadParameters load;
};

std::optional<double> number_in(std::string_view text) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

// The setting put in, or what is wrong with it.
std::string set_parameter(RigParameters& parameters, const std::string& setting) {
  const std::size_t equals = setting.find('=');
  const std::string path = setting.substr(0, equals);
  const Settable* settable = settable_at(path);
  if (settable == nullptr) {
    return fmt::format("--set {}: no parameter is called `{}`; nearest is `{}`; --list prints all", setting, path,
                       nearest_settable(path));
  }
  const auto value = equals == std::string::npos ? std::nullopt : number_in(setting.substr(equals + 1));
  if (!value) return fmt::format("--set {}: give a number, as in `{}={}`", setting, path, settable->lowest);
  if (*value < settable->lowest || *value > settable->highest) {
    return fmt::format("--set {}: is outside its range; {} to {} {} is allowed", setting, settable->lowest,
                       settable->highest, settable->unit);
  }
  settable->in(parameters) = *value;
  return {};
}

std::string set_load(LoadParameters& load, const std::string& text) {
  if (text == "engine") return {};
  if (text == "free" || text == "locked") {
    load.kind = text == "free" ? Load::free : Load::locked;
    return {};
  }
  constexpr std::string_view torque = "torque=";
  if (text.rfind(torque, 0) == 0) {
    const auto value = number_in(text.substr(torque.size()));
    if (value && *value >= 0.0 && *value <= 100.0) {
      load.kind = Load::torque;
      load.torque_Nm = *value;
      return {};
    }
    return fmt::format("--load {}: 0 to 100 N·m at the pinion is allowed", text);
  }
  return fmt::format("--load {}: allowed are engine, free, locked and torque=N·m", text);
}

std::string check_range(const char* option, const std::optional<double>& value, double lowest, double highest,
                        const char* unit) {
  if (!value || (*value >= lowest && *value <= highest)) return {};
  return fmt::format("{} {}: {} to {} {} is allowed", option, *value, lowest, highest, unit);
}

// Everything wrong with the options, or nothing.
std::vector<std::string> read_input(const CrankOptions& options, CrankInput& input) {
  std::vector<std::string> wrong;
  if (options.scenario) {
    const ReadScenario read = read_job_to_show(*options.scenario, options.key);
    for (const Problem& problem : read.problems) wrong.push_back(problem.text());
    if (!read.scenario) return wrong;
    input.parameters = read.scenario->faulty();
    input.rest = read.scenario->rest;
  }
  for (const std::string& setting : options.settings) wrong.push_back(set_parameter(input.parameters, setting));
  wrong.push_back(set_load(input.load, options.load));
  wrong.push_back(check_range("--supply", options.supply_V, 0.5, 30.0, "V"));
  wrong.push_back(check_range("--for", options.for_s, 0.1, 120.0, "s"));
  wrong.push_back(check_range("--crank-angle", options.crank_angle_deg, 0.0, 720.0, "degrees"));
  wrong.push_back(check_range("--tooth-phase", options.tooth_phase, 0.0, 1.0, "of a pitch"));
  input.load.supply_V = options.supply_V.value_or(0.0);
  if (options.rest_seed) input.rest = resting_place(input.parameters, *options.rest_seed);
  input.rest.crank_angle_deg = options.crank_angle_deg.value_or(input.rest.crank_angle_deg);
  input.rest.tooth_phase = options.tooth_phase.value_or(input.rest.tooth_phase);
  wrong.push_back(contradiction_in(input.parameters));
  std::erase(wrong, std::string());
  return wrong;
}

Json spread_json(const Spread& spread) {
  return {{"mean", spread.mean}, {"min", spread.lowest}, {"max", spread.highest}};
}

Json settled_json(const Settled& settled, const LoadParameters& load) {
  Json json;
  json["state"] = id_of(settled.state);
  json["converged"] = settled.converged;
  json["window_s"] = settled.window_s;
  json["battery_posts_V"] = settled.battery_posts_V.mean;
  json["starter_V"] = settled.starter_V.mean;
  json["loop_A"] = settled.loop_A.mean;
  const bool still = std::abs(settled.crank_rpm.mean) < 1.0;
  json["crank_rpm"] = load.kind == Load::engine ? Json(still ? 0.0 : settled.crank_rpm.mean) : Json(nullptr);
  json["motor_rpm"] = settled.motor_rpm.mean;
  json["shaft_Nm"] = settled.shaft_Nm.mean;
  json["relay_closings_per_s"] = settled.closings_per_s;
  return json;
}

Json energy_json(const EnergyLedger& energy) {
  return {{"battery_out_J", energy.battery_out_J},
          {"instruments_in_J", energy.instruments_in_J},
          {"resistive_heat_J", energy.resistive_heat_J},
          {"brush_heat_J", energy.brush_heat_J},
          {"arc_heat_J", energy.arc_heat_J},
          {"eddy_heat_J", energy.eddy_heat_J},
          {"clutch_heat_J", energy.clutch_heat_J},
          {"tooth_heat_J", energy.tooth_heat_J},
          {"shoe_and_plunger_heat_J", energy.shoe_and_plunger_heat_J},
          {"starter_friction_J", energy.starter_friction_J},
          {"engine_friction_J", energy.engine_friction_J},
          {"gas_work_J", energy.gas_work_J},
          {"load_work_J", energy.load_work_J},
          {"stored_magnetic_J", energy.stored_magnetic_J},
          {"stored_kinetic_J", energy.stored_kinetic_J},
          {"stored_spring_J", energy.stored_spring_J}};
}

Json result_json(const CrankResult& result, const CrankInput& input) {
  Json json;
  json["crank_angle_deg"] = input.rest.crank_angle_deg;
  json["tooth_phase"] = input.rest.tooth_phase;
  json["ran_s"] = result.ran_s;
  json["settled"] = settled_json(result.settled, input.load);
  json["peak"] = {{"loop_A", result.peak_loop_A}, {"first_surge_50ms_A", result.first_surge_A}};
  json["minimum"] = {{"battery_posts_V", result.lowest_battery_posts_V}};
  json["engaged"] = result.engaged();
  json["shoe_seated"] = result.shoe_seated;
  json["meshed"] = result.meshed;
  json["engaged_at_s"] = result.engaged_at_s ? Json(*result.engaged_at_s) : Json(nullptr);
  json["relay_closings"] = result.relay_closings;
  json["events"] = Json::array();
  for (const RigEvent& event : result.events) {
    json["events"].push_back({{"time_s", event.time_s}, {"name", id_of(event.kind)}});
  }
  for (const TestPoint point : all_test_points()) {
    json["points"][std::string(id_of(point))] = spread_json(result.settled.points[static_cast<std::size_t>(point)]);
  }
  json["kirchhoff_residual"] = result.kirchhoff_residual;
  const double error_J = result.energy.closure_error_J();
  json["energy_closure"] = error_J / std::max(std::abs(result.energy.battery_out_J), 1.0e-9);
  json["energy_closure_J"] = error_J;
  json["energy"] = energy_json(result.energy);
  return json;
}

// The signals, a line every millisecond.
class Trace {
 public:
  explicit Trace(bool wanted) : wanted_(wanted) {
    text_ = "time_s,loop_A,crank_rpm,motor_rpm,shaft_Nm,shoe_travel_m,pinion_travel_m,relay_closed,meshed";
    for (const TestPoint point : all_test_points()) text_ += fmt::format(",{}_V", id_of(point));
    text_ += '\n';
  }
  void add(const Readings& now) {
    if (!wanted_ || now.time_s + 0.5 * Rig::step_s < next_s_) return;
    next_s_ += 1.0e-3;
    text_ +=
        fmt::format("{:.4f},{:.3f},{:.3f},{:.2f},{:.4f},{:.7f},{:.7f},{:d},{:d}", now.time_s, now.loop_A, now.crank_rpm,
                    now.motor_rpm, now.shaft_Nm, now.shoe_travel_m, now.pinion_travel_m, now.relay_closed, now.meshed);
    for (const double volts : now.node_V) text_ += fmt::format(",{:.6f}", volts);
    text_ += '\n';
  }
  const std::string& text() const { return text_; }

 private:
  bool wanted_;
  double next_s_ = 0.0;
  std::string text_;
};

// No minus sign before a figure that is shown as nothing.
double shown(double value, double smallest) {
  return std::abs(value) < smallest ? 0.0 : value;
}

void print_summary(const CrankResult& result, const CrankInput& input) {
  const Settled& settled = result.settled;
  fmt::print("{} after {:.2f} s{}\n", id_of(settled.state), result.ran_s, settled.converged ? "" : " (not settled)");
  fmt::print("battery posts  {:6.2f} V   lowest {:.2f} V\n", settled.battery_posts_V.mean,
             result.lowest_battery_posts_V);
  fmt::print("starter        {:6.2f} V\n", settled.starter_V.mean);
  fmt::print("loop           {:6.1f} A   peak {:.0f} A, first 50 ms at most {:.0f} A\n", settled.loop_A.mean,
             result.peak_loop_A, result.first_surge_A);
  if (input.load.kind == Load::engine) fmt::print("crank          {:6.1f} rpm\n", shown(settled.crank_rpm.mean, 0.05));
  fmt::print("motor          {:6.0f} rpm\n", shown(settled.motor_rpm.mean, 0.5));
  fmt::print("shaft          {:6.2f} N·m\n", shown(settled.shaft_Nm.mean, 0.005));
  fmt::print("engaged        {}\n", result.engaged_at_s ? fmt::format("at {:.4f} s", *result.engaged_at_s) : "never");
  fmt::print("relay closed   {} times\n", result.relay_closings);
}

int print_list() {
  const RigParameters defaults;
  fmt::print("{:<42} {:<14} {:>10} {:>10} {:>12}  {}\n", "path", "unit", "lowest", "highest", "default", "meaning");
  for (const Settable& settable : all_settables()) {
    fmt::print("{:<42} {:<14} {:>10g} {:>10g} {:>12g}  {}\n", settable.path,
               settable.unit.empty() ? "-" : settable.unit, settable.lowest, settable.highest,
               settable.value_in(defaults), settable.meaning);
  }
  return 0;
}

}  // namespace

int crank_command(const CrankOptions& options) {
  if (options.list) return print_list();
  CrankInput input;
  const std::vector<std::string> wrong = read_input(options, input);
  for (const std::string& what : wrong) fmt::print(stderr, "{}\n", what);
  if (!wrong.empty()) return failed;

  Trace trace(options.csv.has_value());
  const CrankRequest request{.for_s = options.for_s, .headlamps = options.headlamps};
  CrankResult result;
  try {
    result = run_crank(input.parameters, input.rest, input.load, request, [&](const Readings& now) { trace.add(now); });
  } catch (const std::runtime_error& error) {
    return refuse(fmt::format("these values together can't be simulated: {}", error.what()));
  }
  const std::string json = result_json(result, input).dump(2) + "\n";
  if (options.csv && !write_whole_file(*options.csv, trace.text())) return failed;
  if (!options.json) print_summary(result, input);
  if (options.json == "-") fmt::print("{}", json);
  if (options.json && options.json != "-" && !write_whole_file(*options.json, json)) return failed;
  return 0;
}

}  // namespace voltfall
