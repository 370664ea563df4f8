#include "desktop/bench/bench_screen.h"

#include <SFML/System/Clock.hpp>
#include <SFML/Window/Keyboard.hpp>
#include <array>
#include <utility>

#include "desktop/layout.h"
#include "desktop/style/draw.h"
#include "desktop/style/key_list.h"

namespace voltfall {
namespace {

constexpr std::array uses{
    KeyUse{"hold C", "turn the key to start"},
    KeyUse{"H  I", "headlamps; ignition and fuel, with which an engine starts"},
    KeyUse{"1  to  5", "how fast time is shown: real, 1/5, 1/20, 1/100, 1/500"},
    KeyUse{"P", "pause, and go on"},
    KeyUse{",  .", "a step back, a step on"},
    KeyUse{"L", "over the engagement again and again, slowly"},
    KeyUse{"N", "back to now, in real time"},
    KeyUse{"M", "sound off and on"},
    KeyUse{"wheel", "over the teeth or the tape: nearer, farther"},
    KeyUse{"\u2190  \u2192", "turn the knob in focus; Page Up and Page Down by ten steps"},
    KeyUse{"Tab", "walk the keys on the sheet; Enter or Space presses"},
    KeyUse{"Esc", "leave the bench"},
};

struct BenchZones {
  Rect bar, answer, hero, strip, column;
};

BenchZones bench_zones(ImVec2 window_size) {
  const Layout zones = layout_of(window_size.x, window_size.y);
  Rect left = zones.sheet;
  BenchZones bench;
  bench.bar = left.cut_top(zones.bar.h);
  bench.column = left.cut_right(zones.rail.w);
  bench.answer = left.cut_top(76);
  bench.strip = left.cut_bottom(98);
  bench.hero = left;
  return bench;
}

}  // namespace

BenchSubject subject_of(const VehicleType& type) {
  return {std::string(type.name), type.healthy, {}, limits_of(&type)};
}

BenchSubject subject_of(const Scenario& scenario) {
  return {scenario.vehicle_name, scenario.healthy, scenario.rest, scenario.limits};
}

BenchScreen::BenchScreen(BenchSubject subject, const Wording& words, std::function<std::unique_ptr<Screen>()> before)
    : words_(words), before_(std::move(before)), walks_(words) {
  put_on_bench(std::move(subject));
  sheet_.hands.focus_on("bench/crank/1");
}

void BenchScreen::put_on_bench(BenchSubject subject) {
  subject_ = std::move(subject);
  bench_ = std::make_unique<OpenBench>(subject_.healthy, subject_.rest);
  sound_ = std::make_unique<BenchSound>(subject_.healthy);
  bench_->on_step([this](const Rig& rig, const Readings& now, std::span<const RigEvent> events) {
    sound_->record(rig, now, events);
  });
  volts_.forget();
  threshold_.forget();
  held_of_ = -1;
}

void BenchScreen::let_go() {
  sheet_.hands.let_go();
  if (was_held_) bench_->hold_key(false);
  was_held_ = false;
}

BenchScene BenchScreen::scene() {
  return {*bench_, sheet_, words_, subject_.limits, held_, *sound_};
}

std::string BenchScreen::answer() {
  return answer(scene());
}

void BenchScreen::pass_time(double frame_s) {
  // Teeth that meet cost more than real time; the picture comes first, and the model catches up.
  constexpr double longest_frame_s = 0.1;
  constexpr sf::Int64 budget_us = 3000;
  const sf::Clock spent;
  bench_->advance(std::min(frame_s, longest_frame_s),
                  [&] { return spent.getElapsedTime().asMicroseconds() < budget_us; });
  sound_->pass(frame_s, *bench_);
}

void BenchScreen::see_held() {
  if (held_of_ == bench_->changes() && held_with_lamps_ == bench_->headlamps()) return;
  held_of_ = bench_->changes();
  held_with_lamps_ = bench_->headlamps();
  held_ = hold_shoe(bench_->vehicle().parameters(), held_with_lamps_);
}

void BenchScreen::turn_key_as_held() {
  const Hands& hands = sheet_.hands;
  if (letter_down(hands, 'C')) sheet_.crank_held = true;
  if (letter_pressed(hands, 'M')) sound_->mute(!sound_->muted());
  if (letter_pressed(hands, 'I')) bench_->switch_ignition(!bench_->ignition());
  if (letter_pressed(hands, 'H')) bench_->switch_headlamps(!bench_->headlamps());
  if (sheet_.crank_held != was_held_) bench_->hold_key(sheet_.crank_held);
  was_held_ = sheet_.crank_held;
  // A refused change left the vehicle as it was: what it does now is what is to be read.
  if (bench_->key() == KeyPosition::start) sheet_.refused.clear();
}

void BenchScreen::carry_out(const BenchWishes& wishes) {
  if (wishes.vehicle != nullptr) put_on_bench(subject_of(*wishes.vehicle));
  if (wishes.sight != nullptr) set_up(*wishes.sight);
}

void BenchScreen::set_up(const WalkSight& sight) {
  put_on_bench(subject_of(*sight.trial.vehicle));
  sheet_.refused = bench_->change([&](BenchVehicle& vehicle) {
    for (const WalkSetting& setting : sight.trial.setup.settings) vehicle.set(*setting.settable, setting.value);
    for (const WalkFault& fault : sight.trial.setup.faults) vehicle.put_on(*fault.fault, fault.severity);
  });
  bench_->switch_headlamps(sight.trial.headlamps);
  sheet_.view = static_cast<BenchView>(sight.view);
  if (sight.sweep) threshold_.aim(*sight.sweep);
}

std::string BenchScreen::answer(const BenchScene& scene) const {
  if (sheet_.view != BenchView::threshold) return answer_text(scene);
  std::string swept = threshold_.answer(words_);
  if (swept.empty() && bench_->run_shown() == nullptr) swept = words_.text("open_bench.answer.no_sweep");
  return swept.empty() ? answer_text(scene) : swept;
}

void BenchScreen::draw_view(const BenchScene& scene, const Rect& zone) {
  switch (sheet_.view) {
    case BenchView::engage:
      return draw_engage_view(scene, zone);
    case BenchView::volts:
      volts_.draw(scene, zone);
      if (auto wanted = std::exchange(volts_.tape().picture_wanted, std::nullopt)) picture_wanted = std::move(wanted);
      return;
    case BenchView::threshold:
      return threshold_.draw(scene, zone);
  }
}

void BenchScreen::draw_keys(const Rect& picture) {
  sheet_.hands.live = true;
  if (ImGui::IsKeyPressed(sf::Keyboard::F1, false)) sheet_.keys_shown = true;
  if (!sheet_.keys_shown) return;
  if (draw_key_list(sheet_.hands, uses, "Back to the bench  (Esc)", picture)) sheet_.keys_shown = false;
}

void BenchScreen::frame(double frame_s, ImVec2 window_size) {
  sheet_.frame_s = frame_s;
  pass_time(frame_s);
  see_held();
  begin_sheet(window_size);
  sheet_.hands.begin_frame();
  sheet_.crank_held = false;
  sheet_.hands.live = !sheet_.keys_shown;
  const BenchZones zones = bench_zones(window_size);
  const BenchScene scene = this->scene();
  BenchWishes wishes;
  draw_bench_bar(scene, wishes, zones.bar);
  draw_answer(scene, answer(scene), zones.answer);
  draw_view(scene, zones.hero);
  draw_time_strip(scene, zones.strip);
  const Rect list = draw_column_head(scene, wishes, zones.column);
  if (sheet_.column == BenchColumn::walks) {
    walks_.draw(scene, wishes, threshold_.result() != nullptr, list);
  } else {
    draw_knobs_or_faults(scene, list);
  }
  turn_key_as_held();
  const bool escaped = !sheet_.hands.typing() && ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
  wishes.leave = wishes.leave || (escaped && !sheet_.keys_shown);
  draw_keys(zones.hero);
  sheet_.hands.end_frame();
  end_sheet();
  carry_out(wishes);
  if (wishes.leave) next.emplace(before_());
}

}  // namespace voltfall
