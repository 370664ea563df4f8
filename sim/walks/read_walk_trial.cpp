#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "walks/walk_table.h"

namespace voltfall {
namespace {

using Names = std::vector<std::string_view>;

constexpr Range trial_s{0.5, 15.0, "s"};

Names vehicle_ids() {
  Names ids;
  for (const VehicleType& type : all_vehicle_types()) ids.push_back(type.id);
  return ids;
}

Names settable_paths() {
  Names paths;
  for (const Settable& settable : all_settables()) paths.push_back(settable.path);
  return paths;
}

Names knob_paths() {
  Names paths;
  for (const BenchKnob& knob : all_bench_knobs()) paths.push_back(knob.path);
  return paths;
}

Names fault_ids() {
  Names ids;
  for (const Fault& fault : all_faults()) ids.push_back(fault.id);
  return ids;
}

/// Reports everything in one setup and gathers what is sound.
class SetupReader {
 public:
  SetupReader(const VehicleType& vehicle, Mistakes& mistakes) : vehicle_(vehicle), mistakes_(mistakes) {}

  /// `"a.b" = 1`, `a.b = 1` and a table within a table alike; the parser bounds the depth.
  void read_values(const toml::table& table, const std::string& above) {
    for (const auto& [key, node] : table) {
      const std::string path = above.empty() ? std::string(key.str()) : fmt::format("{}.{}", above, key.str());
      if (path == "faults") {
        read_faults(node);
      } else if (const toml::table* inner = node.as_table()) {
        read_values(*inner, path);
      } else {
        read_value(key, node, path);
      }
    }
  }

  WalkSetup take() {
    refuse_overlaps();
    return std::move(setup_);
  }

 private:
  void read_value(const toml::key& key, const toml::node& node, const std::string& path) {
    const Settable* settable = settable_at(path);
    if (settable == nullptr) {
      mistakes_.add(key.source().begin, not_a_name(path, "a value of the vehicle", settable_paths()));
      return;
    }
    const Range range{settable->lowest, settable->highest, settable->unit};
    if (const auto value = number_in(node, path, range, mistakes_)) setup_.settings.push_back({settable, *value});
  }

  void read_faults(const toml::node& node) {
    if (const toml::array* list = node.as_array()) {
      for (const toml::node& entry : *list) read_fault(entry);
      if (!list->empty()) faults_at_ = &node;
      return;
    }
    mistakes_.add(node, fmt::format("faults is {}; allowed: a list [{{ id = ..., severity = ... }}]", kind_of(node)));
  }

  void read_fault(const toml::node& entry) {
    const toml::table* table = entry.as_table();
    if (table == nullptr) {
      mistakes_.add(entry, fmt::format("faults holds {}; allowed: {{ id = ..., severity = ... }}", kind_of(entry)));
      return;
    }
    WalkTable fields(*table, "fault", mistakes_);
    const Names ids = fault_ids();
    const bool named = fields.require("id");
    const auto index = named ? fields.choice("id", ids) : std::nullopt;
    const toml::node* severity = fields.at("severity");
    fields.finish();
    if (!index) return;
    const Fault& fault = all_faults()[*index];
    if (!fault.can_be_on(vehicle_.healthy)) {
      mistakes_.add(entry,
                    fmt::format("{} can't be on {}; allowed: a vehicle with the other gearbox", fault.id, vehicle_.id));
      return;
    }
    if (const auto degree = severity_of(fault, severity)) setup_.faults.push_back({&fault, *degree});
  }

  std::optional<double> severity_of(const Fault& fault, const toml::node* given) {
    if (given == nullptr) return fault.usual;
    const Range range{fault.lowest, fault.highest, fault.unit};
    if (fault.has_degrees()) return number_in(*given, fmt::format("severity of {}", fault.id), range, mistakes_);
    mistakes_.add(*given, fmt::format("severity stands by {}, which has no degrees; allowed: none", fault.id));
    return std::nullopt;
  }

  void refuse_overlaps() {
    for (std::size_t i = 0; i < setup_.faults.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        const Fault &one = *setup_.faults[j].fault, &other = *setup_.faults[i].fault;
        const std::string_view path = shared_path(one, other);
        if (path.empty()) continue;
        mistakes_.add(*faults_at_,
                      fmt::format("{} and {} both set {}; allowed: one fault for each value", one.id, other.id, path));
      }
    }
  }

  const VehicleType& vehicle_;
  Mistakes& mistakes_;
  WalkSetup setup_;
  const toml::node* faults_at_ = nullptr;
};

/// On some vehicles a fault can push a value beyond what the model is good for.
void refuse_extremes(const toml::table& table, const WalkSetup& setup, const VehicleType& vehicle, Mistakes& mistakes) {
  const RigParameters changed = set_up(vehicle, setup);
  for (const WalkFault& fault : setup.faults) {
    for (const ParameterEdit& edit : fault.fault->edits) {
      const Settable& settable = *settable_at(edit.path);
      const double value = settable.value_in(changed);
      if (value >= settable.lowest && value <= settable.highest) continue;
      mistakes.add(table, fmt::format("with {} this vehicle's {} {}", fault.fault->id, edit.path,
                                      out_of_range(value, settable.lowest, settable.highest, settable.unit)));
    }
  }
  if (std::string wrong = contradiction_in(changed); !wrong.empty()) mistakes.add(table, std::move(wrong));
}

}  // namespace

WalkSetup read_setup(const toml::table* table, const VehicleType& vehicle, Mistakes& mistakes) {
  if (table == nullptr) return {};
  SetupReader reader(vehicle, mistakes);
  reader.read_values(*table, "");
  WalkSetup setup = reader.take();
  refuse_extremes(*table, setup, vehicle, mistakes);
  return setup;
}

WalkTrial read_trial(WalkTable& table, const VehicleType* otherwise) {
  constexpr std::array<std::string_view, 2> keys{"start", "off"};
  WalkTrial trial;
  const Names vehicles = vehicle_ids();
  const bool named = otherwise == nullptr ? table.require("vehicle") : true;
  const auto index = named ? table.choice("vehicle", vehicles) : std::nullopt;
  const VehicleType* fallback = otherwise != nullptr ? otherwise : &all_vehicle_types().front();
  trial.vehicle = index ? &all_vehicle_types()[*index] : fallback;
  trial.headlamps = table.flag("headlamps").value_or(false);
  trial.key_at_start = table.choice("key", keys).value_or(0) == 0;
  trial.key_s = table.number("key_s", trial_s).value_or(trial.key_s);
  trial.setup = read_setup(table.table("setup", false), *trial.vehicle, table.mistakes());
  return trial;
}

std::optional<WalkSweep> read_sweep(WalkTable& table) {
  const toml::table* node = table.table("sweep", false);
  if (node == nullptr) return std::nullopt;
  WalkTable fields(*node, table.path_of("sweep"), table.mistakes());
  const Names paths = knob_paths();
  WalkSweep sweep;
  sweep.knob = &all_bench_knobs()[fields.needed_choice("knob", paths)];
  const double per_unit = sweep.knob->per_unit;
  const Range range{sweep.knob->from * per_unit, sweep.knob->to * per_unit, sweep.knob->settable().unit};
  sweep.from = fields.needed_number("from", range);
  sweep.to = fields.needed_number("to", range);
  fields.finish();
  if (sweep.from == sweep.to && node->contains("from") && node->contains("to")) {
    table.mistakes().add(*node, "the sweep's two ends are the same; allowed: a `to` other than `from`");
  }
  return sweep;
}

}  // namespace voltfall
