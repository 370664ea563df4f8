#include "rig/crank_run.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>

namespace voltfall {
namespace {

constexpr double tenth_s = 0.1;
constexpr std::size_t tenths_in_window = 10;
constexpr std::size_t cycles_in_window = 2;
constexpr double agreement = 0.01;
constexpr double surge_s = 0.05;

enum Signal : std::size_t { battery_posts, starter, loop, crank, motor, shaft, relay, first_point };
constexpr std::size_t signal_count = first_point + test_point_count;

using Sample = std::array<double, signal_count>;

Sample sample_of(const Readings& now, const LoadParameters& load) {
  Sample sample{};
  const bool across_starter = load.kind != Load::engine && load.supply_V > 0.0;
  sample[battery_posts] = across_starter
                              ? load.supply_V
                              : now.volts_at(TestPoint::battery_positive_post) - now.volts_at(TestPoint::negative_post);
  sample[starter] = now.volts_at(TestPoint::starter_terminal) - now.volts_at(TestPoint::starter_case);
  sample[loop] = now.loop_A;
  sample[crank] = now.crank_rpm;
  sample[motor] = now.motor_rpm;
  sample[shaft] = now.shaft_Nm;
  sample[relay] = now.relay_closed ? 1.0 : 0.0;
  std::copy(now.node_V.begin(), now.node_V.end(), sample.begin() + first_point);
  return sample;
}

// Sums over a stretch of time; stretches that follow each other can be put together.
struct Stretch {
  double span_s = 0.0;
  int closings = 0;
  Sample sum{}, lowest{}, highest{};

  void add(const Sample& sample, double dt_s) {
    if (span_s == 0.0) lowest = highest = sample;
    span_s += dt_s;
    for (std::size_t i = 0; i < signal_count; ++i) {
      sum[i] += sample[i] * dt_s;
      lowest[i] = std::min(lowest[i], sample[i]);
      highest[i] = std::max(highest[i], sample[i]);
    }
  }
  void add(const Stretch& other) {
    if (other.span_s == 0.0) return;
    if (span_s == 0.0) lowest = other.lowest, highest = other.highest;
    span_s += other.span_s;
    closings += other.closings;
    for (std::size_t i = 0; i < signal_count; ++i) {
      sum[i] += other.sum[i];
      lowest[i] = std::min(lowest[i], other.lowest[i]);
      highest[i] = std::max(highest[i], other.highest[i]);
    }
  }
  double mean(std::size_t signal) const { return span_s > 0.0 ? sum[signal] / span_s : 0.0; }
  Spread spread(std::size_t signal) const { return {mean(signal), lowest[signal], highest[signal]}; }
};

Stretch joined(const std::deque<Stretch>& stretches, std::size_t first, std::size_t count) {
  Stretch whole;
  for (std::size_t i = first; i < first + count; ++i) whole.add(stretches[i]);
  return whole;
}

bool close_to(double one, double other, double floor) {
  return std::abs(one - other) <= agreement * std::max(std::abs(other), floor);
}

bool agree(const Stretch& one, const Stretch& other) {
  return close_to(one.mean(crank), other.mean(crank), 0.5) && close_to(one.mean(motor), other.mean(motor), 10.0) &&
         close_to(one.mean(loop), other.mean(loop), 0.1);
}

// Whole engine cycles when there are any, else tenths of a second; both are kept until the run decides.
class Windows {
 public:
  void add(const Readings& now, const Sample& sample, int closings, double dt_s) {
    const bool cycle_done = now.crank_angle_deg < last_angle_deg_ && now.crank_rpm > 1.0;
    last_angle_deg_ = now.crank_angle_deg;
    if (cycle_done && in_whole_cycle_) finish(cycle_, cycles_, 2 * cycles_in_window);
    if (cycle_done && !in_whole_cycle_) cycle_ = {};  // what came before the first crossing is part of a cycle only
    in_whole_cycle_ = in_whole_cycle_ || cycle_done;
    if (tenth_.span_s >= tenth_s - 0.5 * dt_s) finish(tenth_, tenths_, 2 * tenths_in_window);
    cycle_.add(sample, dt_s);
    tenth_.add(sample, dt_s);
    cycle_.closings += closings;
    tenth_.closings += closings;
  }

  bool cycles_converged() const { return converged(cycles_, cycles_in_window) && last_cycle_is_fresh(); }
  // Only for an engine too slow, or too still, for four cycles within the longest run. Where nothing turns the halves
  // of the last second are compared: over longer, warming windings would show as not settled.
  bool seconds_converged() const {
    constexpr double slowest_rpm = 4.0 * 120.0 / CrankRequest::longest_s;
    constexpr double still_rpm = 1.0;
    const double turning_rpm = std::abs(last_second().mean(crank));
    if (turning_rpm >= slowest_rpm || tenths_.size() < tenths_in_window) return false;
    if (turning_rpm >= still_rpm) return converged(tenths_, tenths_in_window);
    constexpr std::size_t half = tenths_in_window / 2;
    const std::size_t first = tenths_.size() - tenths_in_window;
    return agree(joined(tenths_, first, half), joined(tenths_, first + half, half));
  }

  Stretch window() const {
    return cycles_converged() ? joined(cycles_, cycles_.size() - cycles_in_window, cycles_in_window) : last_second();
  }

  Stretch last_second() const {
    const std::size_t count = std::min(tenths_.size(), tenths_in_window);
    return count > 0 ? joined(tenths_, tenths_.size() - count, count) : tenth_;
  }

 private:
  static void finish(Stretch& running, std::deque<Stretch>& done, std::size_t most) {
    done.push_back(running);
    if (done.size() > most) done.pop_front();
    running = {};
  }
  static bool converged(const std::deque<Stretch>& stretches, std::size_t count) {
    return stretches.size() == 2 * count && agree(joined(stretches, 0, count), joined(stretches, count, count));
  }
  // An engine that has since stopped no longer has cycles worth averaging.
  bool last_cycle_is_fresh() const {
    return !cycles_.empty() && cycle_.span_s <= 2.0 * cycles_.back().span_s + tenth_s;
  }

  Stretch cycle_, tenth_;
  bool in_whole_cycle_ = false;
  std::deque<Stretch> cycles_, tenths_;
  double last_angle_deg_ = std::numeric_limits<double>::infinity();
};

// Highest mean over 50 ms.
class Surge {
 public:
  explicit Surge(double dt_s) : length_(static_cast<std::size_t>(std::lround(surge_s / dt_s))) {}
  void add(double current_A) {
    sum_A_ += current_A;
    recent_A_.push_back(current_A);
    if (recent_A_.size() > length_) {
      sum_A_ -= recent_A_.front();
      recent_A_.pop_front();
      highest_A_ = std::max(highest_A_, sum_A_ / static_cast<double>(length_));
    }
  }
  double highest_A() const { return highest_A_; }

 private:
  std::size_t length_;
  std::deque<double> recent_A_;
  double sum_A_ = 0.0, highest_A_ = 0.0;
};

Settled settled_of(const Windows& windows, const LoadParameters& load, bool seated, bool meshed) {
  const Stretch window = windows.window();
  const Stretch second = windows.last_second();
  Settled settled;
  settled.converged = windows.cycles_converged() || windows.seconds_converged();
  settled.window_s = window.span_s;
  settled.battery_posts_V = window.spread(battery_posts);
  settled.starter_V = window.spread(starter);
  settled.loop_A = window.spread(loop);
  settled.crank_rpm = window.spread(crank);
  settled.motor_rpm = window.spread(motor);
  settled.shaft_Nm = window.spread(shaft);
  for (std::size_t i = 0; i < test_point_count; ++i) settled.points[i] = window.spread(first_point + i);
  settled.closings_per_s = second.span_s > 0.0 ? second.closings / second.span_s : 0.0;
  const bool needs_no_relay = load.kind != Load::engine && load.supply_V > 0.0;
  settled.state = crank_state_of(load.kind, needs_no_relay || second.mean(relay) > 0.0, settled.closings_per_s, seated,
                                 meshed, settled.crank_rpm.mean, settled.motor_rpm.mean);
  return settled;
}

}  // namespace

CrankState crank_state_of(Load load, bool relay_closed, double closings_per_s, bool seated, bool meshed,
                          double crank_rpm, double motor_rpm) {
  constexpr double chatter_per_s = 3.0;
  constexpr double spinning_rpm = 1500.0;  // of the motor, far above what a turning engine lets it do at once
  constexpr double still_rpm = 3.0, slow_rpm = 60.0;  // of the crank
  constexpr double usual_ratio = 16.4;
  if (closings_per_s >= chatter_per_s) return CrankState::chattering;
  if (!relay_closed) return CrankState::no_relay;
  if (load == Load::free) return motor_rpm > spinning_rpm ? CrankState::free_spin : CrankState::not_engaged;
  const bool driving = seated && (meshed || load != Load::engine);
  if (!driving) return motor_rpm > spinning_rpm ? CrankState::free_spin : CrankState::not_engaged;
  const double turned_rpm = load == Load::engine ? crank_rpm : motor_rpm / usual_ratio;
  if (load == Load::engine && motor_rpm > spinning_rpm && motor_rpm > 2.0 * usual_ratio * crank_rpm) {
    return CrankState::free_spin;
  }
  if (turned_rpm < still_rpm) return CrankState::stalled;
  return turned_rpm < slow_rpm ? CrankState::labouring : CrankState::cranking;
}

Controls ready_to_crank(const RigParameters& parameters) {
  Controls controls;
  const bool clutch = parameters.control.clutch_switch > 0.5;
  controls.gear = clutch ? Gear::neutral : Gear::park;
  controls.clutch_pedal_down = clutch;
  return controls;
}

CrankResult run_crank(const RigParameters& parameters, const RestingPlace& rest, const LoadParameters& load,
                      const CrankRequest& request, const std::function<void(const Readings&)>& watch, double dt_s) {
  Rig rig(parameters, rest, load, dt_s);
  Controls controls = ready_to_crank(parameters);
  controls.key = KeyPosition::start;
  controls.headlamps = request.headlamps;
  CrankResult result;
  result.lowest_battery_posts_V = std::numeric_limits<double>::infinity();
  Windows windows;
  Surge surge(dt_s);
  const auto most_steps = std::lround(request.for_s.value_or(CrankRequest::longest_s) / dt_s);
  for (long step = 0; step < most_steps; ++step) {
    rig.step(controls);
    const Readings& now = rig.readings();
    const Sample sample = sample_of(now, load);
    int closings = 0;
    for (const RigEvent& event : rig.take_events()) {
      if (event.kind == RigEventKind::top_centre) continue;
      if (event.kind == RigEventKind::relay_closed) ++closings;
      result.events.push_back(event);
    }
    result.relay_closings += closings;
    windows.add(now, sample, closings, dt_s);
    surge.add(now.loop_A);
    result.peak_loop_A = std::max(result.peak_loop_A, now.loop_A);
    result.lowest_battery_posts_V = std::min(result.lowest_battery_posts_V, sample[battery_posts]);
    result.kirchhoff_residual =
        std::max(result.kirchhoff_residual, rig.kirchhoff_residual_A() / std::max(rig.largest_branch_A(), 1.0));
    if (now.shoe_seated && now.meshed && !result.engaged_at_s) result.engaged_at_s = now.time_s;
    if (watch) watch(now);
    if (!request.for_s && (windows.cycles_converged() || windows.seconds_converged())) break;
  }
  const Readings& end = rig.readings();
  result.ran_s = end.time_s;
  result.shoe_seated = end.shoe_seated;
  result.meshed = end.meshed;
  result.first_surge_A = surge.highest_A();
  result.energy = rig.energy();
  result.settled = settled_of(windows, load, end.shoe_seated, end.meshed);
  return result;
}

}  // namespace voltfall
