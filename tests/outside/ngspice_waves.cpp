#include "outside/ngspice_waves.h"

#include <algorithm>
#include <cmath>

#include "rig/rig.h"

namespace voltfall {
namespace {

double volts_between(const Readings& readings, TestPoint red, TestPoint black) {
  return readings.volts_at(red) - readings.volts_at(black);
}

std::array<double, signal_count> sample_of(const Readings& readings, const RigState& state) {
  using enum TestPoint;
  std::array<double, signal_count> sample{};
  const auto set = [&](Signal signal, double value) { sample[static_cast<std::size_t>(signal)] = value; };
  set(Signal::loop_A, readings.loop_A);
  set(Signal::battery_posts_V, volts_between(readings, battery_positive_post, negative_post));
  set(Signal::starter_V, volts_between(readings, starter_terminal, starter_case));
  set(Signal::s_terminal_V, volts_between(readings, s_terminal, relay_case));
  set(Signal::body_V, volts_between(readings, body, engine_block));
  set(Signal::shoe_mm, 1.0e3 * readings.shoe_travel_m);
  set(Signal::motor_rpm, readings.motor_rpm);
  set(Signal::relay_coil_A, state.currents.relay_coil_A);
  set(Signal::plunger_mm, 1.0e3 * state.relay.plunger.travel_m);
  set(Signal::drive_coil_A, state.currents.drive_A);
  return sample;
}

void note(Waves& waves, const RigEvent& event) {
  const bool shut = event.kind == RigEventKind::relay_closed || event.kind == RigEventKind::relay_bounced;
  if (shut) waves.relay.push_back({event.time_s, true});
  if (event.kind == RigEventKind::relay_opened) waves.relay.push_back({event.time_s, false});
  if (event.kind == RigEventKind::grounding_contacts_closed) waves.grounding.push_back({event.time_s, true});
  if (event.kind == RigEventKind::grounding_contacts_opened) waves.grounding.push_back({event.time_s, false});
}

}  // namespace

std::string_view id_of(Signal signal) {
  constexpr std::array<std::string_view, signal_count> ids{"loop_A",     "battery_posts_V", "starter_V", "s_terminal_V",
                                                           "body_V",     "shoe_mm",         "motor_rpm", "relay_coil_A",
                                                           "plunger_mm", "drive_coil_A"};
  return ids[static_cast<std::size_t>(signal)];
}

double Waves::at(Signal signal, double when_s) const {
  const std::vector<double>& values = of(signal);
  const auto next = static_cast<std::size_t>(std::lower_bound(time_s.begin(), time_s.end(), when_s) - time_s.begin());
  if (next == 0) return values.front();
  if (next == time_s.size()) return values.back();
  const double share = (when_s - time_s[next - 1]) / (time_s[next] - time_s[next - 1]);
  return values[next - 1] + share * (values[next] - values[next - 1]);
}

double Waves::mean(Signal signal, double from_s, double to_s) const {
  const std::vector<double>& values = of(signal);
  double sum = 0.0, span_s = 0.0;
  for (std::size_t i = 1; i < time_s.size(); ++i) {
    if (time_s[i - 1] < from_s || time_s[i] > to_s) continue;
    const double step_s = time_s[i] - time_s[i - 1];
    sum += 0.5 * (values[i - 1] + values[i]) * step_s;
    span_s += step_s;
  }
  return sum / span_s;
}

Waves model_waves(const DeckCase& one) {
  const DeckRun& run = one.run;
  Rig rig(one.parameters, RestingPlace{}, run.load);
  Controls controls;
  controls.key = KeyPosition::start;
  controls.headlamps = run.headlamps;
  Waves waves;
  for (long step = std::lround(run.for_s / Rig::step_s); step > 0; --step) {
    rig.step(controls);
    waves.time_s.push_back(rig.readings().time_s);
    const auto sample = sample_of(rig.readings(), rig.state());
    for (std::size_t i = 0; i < signal_count; ++i) waves.signals[i].push_back(sample[i]);
    for (const RigEvent& event : rig.take_events()) note(waves, event);
  }
  return waves;
}

}  // namespace voltfall
