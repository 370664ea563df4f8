#include "sound/sound_cues.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace voltfall {
namespace {

constexpr double rpm_per_rad_per_s = 30.0 / std::numbers::pi;
// Pressures over the air's. A healthy warm cylinder comes to some ten bar at cranking speed; one that burns to more
// than twice that, which the ear does not take for twice as loud.
constexpr double full_crest_bar = 10.0, loudest_crest = 1.3;
constexpr double running_from_rpm = 300.0, running_rpm = 420.0;  // of the crank; no starter turns one so fast

// 0 up to `from`, 1 beyond `to`, smooth between.
double risen(double value, double from, double to) {
  const double share = std::clamp((value - from) / (to - from), 0.0, 1.0);
  return share * share * (3.0 - 2.0 * share);
}

void draw_near(double& value, double target, double within_s, double dt_s) {
  value += (target - value) * dt_s / (within_s + dt_s);
}

double crest_share(const SoundState& state) {
  return std::min(state.crest_bar / full_crest_bar, loudest_crest);
}

double crank_rpm(const SoundState& state) {
  return std::abs(state.crank_rad_per_s) * rpm_per_rad_per_s;
}

// A running engine's own mount and silencer take the edge off what a cranked one lets through to the starter.
double beat_force(const SoundState& state) {
  constexpr double silenced = 0.6;
  const double rpm = crank_rpm(state);
  return crest_share(state) * risen(rpm, 2.0, 30.0) * (1.0 - silenced * risen(rpm, running_from_rpm, running_rpm));
}

// Of a shoe that flew at `m_per_s` when it met something.
double clunk_force(double m_per_s) {
  constexpr double usual_m_per_s = 1.5;
  return std::clamp(std::abs(m_per_s) / usual_m_per_s, 0.4, 1.2);
}

}  // namespace

void SoundCues::follow(const SoundState& before, const SoundState& now, std::span<const RigEvent> events) {
  const double dt_s = now.time_s - before.time_s;
  strike_count_ = 0;
  for (const RigEvent& event : events) hear(event, before, now);
  hear_stops(before, now);
  count_closings(now.time_s);
  judge(now, dt_s);
  judge_engine(now, dt_s);
}

void SoundCues::strike(double time_s, SoundKind kind, double force) {
  if (strike_count_ < strikes_.size()) strikes_[strike_count_++] = {time_s, kind, force};
}

void SoundCues::hear(const RigEvent& event, const SoundState& before, const SoundState& now) {
  constexpr double bounce_force = 0.25, nip_force = 0.2, gap_force = 1.0;
  switch (event.kind) {
    case RigEventKind::relay_closed:
      closings_s_[closing_count_++ % closings_s_.size()] = event.time_s;
      strike(event.time_s, SoundKind::relay_snap, 1.0);
      break;
    case RigEventKind::relay_bounced:
      strike(event.time_s, SoundKind::relay_snap, bounce_force);
      break;
    case RigEventKind::shoe_seated:
      strike(event.time_s, SoundKind::shoe_clunk, clunk_force(std::max(before.shoe_m_per_s, now.shoe_m_per_s)));
      break;
    case RigEventKind::teeth_abutted:
      strike(event.time_s, SoundKind::shoe_clunk, nip_force);
      break;
    case RigEventKind::teeth_struck:
      strike(event.time_s, SoundKind::grind, gap_force);
      break;
    case RigEventKind::top_centre:
      strike(event.time_s, SoundKind::compression_beat, beat_force(now));
      break;
    default:
      break;  // nothing to be heard, or heard by what it leads to
  }
}

// Plunger and shoe come back on their stops some time after contacts and teeth have parted, or turn around on the way.
void SoundCues::hear_stops(const SoundState& before, const SoundState& now) {
  constexpr double away = 0.125, back = 0.0125;  // of the travel: what the rig, too, calls a shoe that moved
  constexpr double release_force = 0.8;
  plunger_out_ = plunger_out_ || now.plunger_travel > away;
  if (plunger_out_ && now.plunger_travel < back) {
    plunger_out_ = false;
    strike(now.time_s, SoundKind::relay_release, release_force);
  }
  shoe_out_ = shoe_out_ || now.shoe_travel > away;
  if (shoe_out_ && now.shoe_travel < back) {
    shoe_out_ = false;
    strike(now.time_s, SoundKind::shoe_drop, clunk_force(std::min(before.shoe_m_per_s, now.shoe_m_per_s)));
  }
}

// A chatter is three snaps within a second, and the next not long overdue.
void SoundCues::count_closings(double now_s) {
  constexpr double window_s = 1.0, overdue = 2.0;
  closings_per_s_ = 0.0;
  const std::size_t kept = std::min(closing_count_, closings_s_.size());
  std::size_t within = 0;
  const auto closing_s = [this](std::size_t ago) {
    return closings_s_[(closing_count_ - 1 - ago) % closings_s_.size()];
  };
  while (within < kept && closing_s(within) > now_s - window_s) ++within;
  if (within < 3) return;
  const double interval_s = (closing_s(0) - closing_s(within - 1)) / static_cast<double>(within - 1);
  if (now_s - closing_s(0) < overdue * interval_s) closings_per_s_ = 1.0 / interval_s;
}

void SoundCues::approach(SoundKind kind, double target, double dt_s) {
  constexpr double within_s = 0.008;
  draw_near(level(kind), target, within_s, dt_s);
}

void SoundCues::judge(const SoundState& now, double dt_s) {
  constexpr double full_motor_rpm = 6000.0, muffled = 0.5;  // with the engine on its shaft
  constexpr double full_crank_rpm = 200.0, full_load_Nm = 6.0;
  const double running = risen(crank_rpm(now), running_from_rpm, running_rpm);
  const double motor_rpm = std::abs(now.armature_rad_per_s) * rpm_per_rad_per_s;
  const bool drives = now.meshed && running < 0.5;
  approach(SoundKind::whirr, (drives ? muffled : 1.0) * std::min(motor_rpm / full_motor_rpm, 1.2), dt_s);

  draw_near(load_, std::min(std::abs(now.shaft_Nm) / full_load_Nm, 1.5), 0.02, dt_s);
  const double meeting = now.meshed ? std::min(crank_rpm(now) / full_crank_rpm, 1.2) : 0.0;
  approach(SoundKind::whine, meeting * (0.3 + 0.7 * load_) * (1.0 - running), dt_s);
  approach(SoundKind::run_on_howl, now.meshed ? running : 0.0, dt_s);

  judge_teeth(now, dt_s);
  level(SoundKind::chatter) = closings_per_s_ > 0.0 ? 1.0 : 0.0;
}

// A pinion that only slips into the nearest gap does not grind: it must have slid past whole teeth.
void SoundCues::judge_teeth(const SoundState& now, double dt_s) {
  constexpr double gentle_per_s = 40.0, harsh_per_s = 250.0;
  constexpr double bites_s = 0.001, rings_s = 0.025;
  teeth_slid_ = now.teeth_slid_per_s == 0.0 ? 0.0 : teeth_slid_ + now.teeth_slid_per_s * dt_s;
  const double grinding =
      risen(std::abs(teeth_slid_), 1.0, 2.0) * risen(std::abs(now.teeth_slid_per_s), gentle_per_s, harsh_per_s);
  double& grind = level(SoundKind::grind);
  draw_near(grind, grinding, grinding > grind ? bites_s : rings_s, dt_s);
}

void SoundCues::judge_engine(const SoundState& now, double dt_s) {
  constexpr double beats_s = 0.15, between_beats_s = 0.4, lasting_s = 0.3;
  constexpr double slow_rpm = 60.0, brisk_rpm = 110.0;  // below 60 single compressions are heard one by one
  constexpr double some_A = 60.0, heavy_A = 150.0;
  draw_near(usual_rpm_, crank_rpm(now), beats_s, dt_s);
  const double running = risen(crank_rpm(now), running_from_rpm, running_rpm);
  const double turning = risen(usual_rpm_, 8.0, 35.0);
  swell_ = turning * std::pow(crest_share(now), 1.5);
  beat_ = std::max(beat_ * (1.0 - dt_s / (between_beats_s + dt_s)), swell_);
  approach(SoundKind::compression_beat, turning * beat_ * (1.0 - running), dt_s);
  const double strain = now.meshed ? risen(std::abs(now.motor_A), some_A, heavy_A) : 0.0;
  // A healthy engine, too, is slow and heavy for its first moment.
  draw_near(labour_, turning * strain * (1.0 - risen(usual_rpm_, slow_rpm, brisk_rpm)), lasting_s, dt_s);
  approach(SoundKind::labouring, risen(labour_, 0.35, 0.8), dt_s);
  approach(SoundKind::engine_idle, risen(usual_rpm_, running_from_rpm, running_rpm), dt_s);
}

}  // namespace voltfall
