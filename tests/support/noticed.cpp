#include "support/noticed.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "hearing/crank_watch.h"
#include "rig/crank_run.h"

namespace voltfall {
namespace {

using enum TestPoint;

/// A rig with a listener, and hands on the key.
class Listened {
 public:
  explicit Listened(const RigParameters& parameters, const RestingPlace& rest = {})
      : rig_(parameters, rest), controls_(ready_to_crank(parameters)) {
    controls_.headlamps = true;
  }

  Controls& controls() { return controls_; }
  const Readings& readings() const { return rig_.readings(); }
  const CrankWatch& watch() const { return watch_; }

  void key_for(KeyPosition key, double seconds) {
    controls_.key = key;
    const long steps = std::lround(seconds / Rig::step_s);
    for (long step = 0; step < steps; ++step) {
      rig_.step(controls_);
      watch_.watch(rig_.readings(), rig_.take_events(), controls_, Rig::step_s);
      mean_A_ += (rig_.readings().loop_A - mean_A_) * Rig::step_s / 0.5;
      mean_rpm_ += (rig_.readings().crank_rpm - mean_rpm_) * Rig::step_s / 0.5;
      for (std::size_t i = 0; i < test_point_count; ++i) {
        mean_V_[i] += (rig_.readings().node_V[i] - mean_V_[i]) * Rig::step_s / 0.5;
      }
    }
  }

  double volts(TestPoint red, TestPoint black) const {
    return mean_V_[static_cast<std::size_t>(red)] - mean_V_[static_cast<std::size_t>(black)];
  }
  double amps() const { return mean_A_; }
  double rpm() const { return mean_rpm_; }

 private:
  Rig rig_;
  CrankWatch watch_;
  Controls controls_;
  double mean_A_ = 0.0, mean_rpm_ = 0.0;  // over half a second, as a display shows them
  std::array<double, test_point_count> mean_V_{};
};

void add_heard(const Listened& listened, std::string_view when, Noticed& noticed) {
  const auto& crank = listened.watch().last_crank();
  if (!crank) return;
  for (const Observation& observation : all_observations()) {
    if (observation.holds(*crank)) noticed.heard.insert(std::string(when) + std::string(observation.id));
  }
}

void add_volts(const Listened& listened, std::string_view when, Noticed& noticed) {
  constexpr std::array power{battery_positive_post, positive_clamp,  relay_battery_lug, relay_battery_stud,
                             relay_motor_stud,      relay_motor_lug, starter_lug,       starter_terminal,
                             starter_case,          engine_block,    block_lug,         negative_clamp,
                             negative_post};
  constexpr std::array control{
      relay_battery_stud, fusible_link_out, ignition_feed, ignition_start_output, neutral_switch_output, s_wire_end,
      s_terminal,         relay_case,       body,          engine_block};
  const auto put = [&](TestPoint red, TestPoint black) {
    noticed.figures["V " + std::string(when) + std::string(id_of(red)) + " " + std::string(id_of(black))] =
        listened.volts(red, black);
  };
  for (std::size_t i = 1; i < power.size(); ++i) put(power[i - 1], power[i]);
  for (std::size_t i = 1; i < control.size(); ++i) put(control[i - 1], control[i]);
  put(battery_positive_post, negative_post);
  put(s_terminal, negative_post);
  put(relay_motor_stud, negative_post);
}

// An ohmmeter's millampere from red to black with the negative clamp off.
double ohms(const RigParameters& parameters, TestPoint red, TestPoint black, Gear gear) {
  constexpr double test_A = 1.0e-3;
  Rig rig(parameters);
  Controls controls = ready_to_crank(parameters);
  controls.battery_connected = false;
  controls.gear = gear;
  if (gear == Gear::drive) controls.clutch_pedal_down = false;
  controls.attached.push_back({red, black, 1.0e7, test_A});
  for (int step = 0; step < 3000; ++step) rig.step(controls);
  return std::min((rig.readings().volts_at(red) - rig.readings().volts_at(black)) / test_A, 1.0e4);
}

}  // namespace

Noticed noticed_of(const RigParameters& parameters) {
  Noticed noticed;
  Listened listened(parameters);
  listened.controls().headlamps = false;
  listened.key_for(KeyPosition::off, 2.0);
  noticed.figures["A at rest"] = listened.readings().loop_A;
  add_volts(listened, "at rest ", noticed);
  listened.controls().headlamps = true;
  listened.key_for(KeyPosition::start, 2.5);
  add_volts(listened, "cranking ", noticed);
  noticed.figures["A cranking"] = listened.amps();
  noticed.figures["rpm cranking"] = listened.rpm();
  listened.key_for(KeyPosition::on, 1.5);
  add_volts(listened, "let go ", noticed);
  add_heard(listened, "", noticed);

  Listened in_gear(parameters);
  in_gear.controls().gear = Gear::drive;
  in_gear.controls().clutch_pedal_down = false;
  in_gear.key_for(KeyPosition::start, 1.0);
  add_heard(in_gear, "in gear: ", noticed);

  Listened started(parameters);
  started.controls().ignition_live = true;
  started.key_for(KeyPosition::start, 2.5);
  noticed.figures["A cranking, ignition live"] = started.amps();
  started.key_for(KeyPosition::on, 2.0);
  noticed.figures["rpm let go, ignition live"] = started.rpm();
  add_heard(started, "ignition live: ", noticed);
  noticed.figures["V running"] = started.volts(battery_positive_post, negative_post);

  noticed.figures["ohm relay coil"] = ohms(parameters, s_terminal, relay_case, Gear::park);
  noticed.figures["ohm switch in gear"] = ohms(parameters, ignition_start_output, neutral_switch_output, Gear::drive);
  noticed.figures["ohm coil ground in gear"] = ohms(parameters, relay_case, body, Gear::drive);
  return noticed;
}

std::set<std::string> differences(const Noticed& one, const Noticed& other) {
  std::set<std::string> words;
  std::set_symmetric_difference(one.heard.begin(), one.heard.end(), other.heard.begin(), other.heard.end(),
                                std::inserter(words, words.end()));
  for (const auto& [name, value] : one.figures) {
    const double from = other.figures.at(name);
    // A tenth for figures of cranking, ohms and amperes; two counts and a joint's own spread for small drops.
    const double spread =
        name.starts_with("V ") ? std::max(0.05, 0.03 * std::abs(from)) : std::max(0.2, 0.1 * std::abs(from));
    if (std::abs(value - from) > spread) words.insert(name);
  }
  return words;
}

}  // namespace voltfall
