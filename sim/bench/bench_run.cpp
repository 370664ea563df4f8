#include "bench/bench_run.h"

#include <algorithm>
#include <array>
#include <utility>

namespace voltfall {
namespace {

constexpr double answer_in_s = 0.6;  // the slowest sound engagement, and half a second to tell what it turns like
constexpr double means_over_s = 0.5;
constexpr double next_to_nothing_A = 25.0;                  // lamps, ignition and relay coil take as much
constexpr double moved_share = 0.05, reached_slack = 0.03;  // of the shoe's travel
constexpr double chatter_per_s = 3.0;                       // as the ear calls it, hearing/crank_watch.cpp

constexpr std::array<std::string_view, 16> ids{"not_cranked",       "under_way",  "let_go_too_soon", "relay_stays_open",
                                               "chatter",           "no_current", "shoe_stays_home", "pull_fades",
                                               "teeth_not_reached", "teeth_abut", "shoe_not_home",   "shoe_lets_go",
                                               "clutch_slips",      "stalls",     "labours",         "nothing"};

}  // namespace

std::string_view id_of(FirstFailing failing) {
  return ids[static_cast<std::size_t>(failing)];
}

RunWatch::RunWatch(double from_s, const RigParameters& parameters)
    : travel_m_(parameters.shoe.travel_m), teeth_meet_at_(parameters.drive.teeth_meet_at) {
  run_.from_s = from_s;
}

void RunWatch::follow(const Readings& now, std::span<const RigEvent> events, const Controls& controls, double dt_s) {
  for (const RigEvent& event : events) note(event, now.time_s - run_.from_s);
  watch_.watch(now, events, controls, dt_s);
  if (watch_.last_crank()) run_.seen = *watch_.last_crank();
  if (controls.key != KeyPosition::start) return;
  run_.farthest_m = std::max(run_.farthest_m, now.shoe_travel_m);
  run_.highest_S_V =
      std::max(run_.highest_S_V, now.volts_at(TestPoint::s_terminal) - now.volts_at(TestPoint::relay_case));
  add_up(now, dt_s);
  run_.failing = judge();
}

void RunWatch::end(double time_s) {
  run_.to_s = time_s;
  if (run_.failing == FirstFailing::under_way) run_.failing = FirstFailing::let_go_too_soon;
}

void RunWatch::note(const RigEvent& event, double after_s) {
  const auto first = [after_s](std::optional<double>& at) {
    if (!at) at = after_s;
  };
  if (event.kind == RigEventKind::relay_closed) first(run_.relay_closed_s);
  if (event.kind == RigEventKind::shoe_moved) first(run_.shoe_moved_s);
  if (event.kind == RigEventKind::teeth_met) first(run_.teeth_met_s);
  if (event.kind == RigEventKind::shoe_seated) first(run_.seated_s);
  run_.abutted = run_.abutted || event.kind == RigEventKind::teeth_abutted;
}

void RunWatch::add_up(const Readings& now, double dt_s) {
  filling_.rpm += now.crank_rpm * dt_s;
  filling_.A += now.loop_A * dt_s;
  filling_.V += (now.volts_at(TestPoint::starter_terminal) - now.volts_at(TestPoint::starter_case)) * dt_s;
  filling_.s += dt_s;
  if (filling_.s < 0.5 * means_over_s - 0.5 * dt_s) return;
  take_means();
  before_ = std::exchange(filling_, {});
}

void RunWatch::take_means() {
  const double whole_s = filling_.s + before_.s;
  run_.crank_rpm = (filling_.rpm + before_.rpm) / whole_s;
  run_.loop_A = (filling_.A + before_.A) / whole_s;
  run_.starter_V = (filling_.V + before_.V) / whole_s;
}

FirstFailing RunWatch::judge() const {
  const CrankSeen& seen = run_.seen;
  if (seen.held_s < answer_in_s) return FirstFailing::under_way;
  if (seen.closings_per_s >= chatter_per_s) return FirstFailing::chatter;
  if (!run_.relay_closed_s) return FirstFailing::relay_stays_open;
  if (seen.peak_loop_A < next_to_nothing_A) return FirstFailing::no_current;
  if (!run_.seated_s) return judge_shoe();
  if (seen.shoe_drops > 0 && seen.state == CrankState::not_engaged) return FirstFailing::shoe_lets_go;
  if (seen.state == CrankState::free_spin) return FirstFailing::clutch_slips;
  if (seen.state == CrankState::stalled || seen.state == CrankState::not_engaged) return FirstFailing::stalls;
  if (seen.state == CrankState::labouring) return FirstFailing::labours;
  return FirstFailing::nothing;
}

FirstFailing RunWatch::judge_shoe() const {
  const double share = run_.farthest_m / travel_m_;
  if (share < moved_share) return FirstFailing::shoe_stays_home;
  constexpr double faded = 0.5;  // of the highest current
  if (run_.seen.state == CrankState::free_spin && run_.loop_A < faded * run_.seen.peak_loop_A) {
    return FirstFailing::pull_fades;
  }
  if (run_.abutted && !run_.teeth_met_s) return FirstFailing::teeth_abut;
  if (share < teeth_meet_at_ - reached_slack) return FirstFailing::teeth_not_reached;
  return run_.abutted && share < teeth_meet_at_ + reached_slack ? FirstFailing::teeth_abut
                                                                : FirstFailing::shoe_not_home;
}

}  // namespace voltfall
