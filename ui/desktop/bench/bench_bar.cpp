#include <fmt/format.h>

#include <array>
#include <string>

#include "desktop/bench/bench_panels.h"
#include "desktop/style/draw.h"
#include "desktop/style/scale_key.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

constexpr std::array timed_s{1.0, 2.0, 5.0};

void draw_cranks(const BenchScene& scene, Rect row) {
  KeyLook look{.selected = scene.bench.key() == KeyPosition::start, .type = Type::small};
  const Rect hold = row.cut_right(112);
  if (hold_key(scene.sheet.hands, "bench/crank", hold, scene.words.text("open_bench.hold"), look))
    scene.sheet.crank_held = true;
  row.cut_right(gap_8);
  look.selected = false;
  for (std::size_t i = timed_s.size(); i-- > 0;) {
    const Rect cell = row.cut_right(44);
    row.cut_right(gap_4);
    if (push_key(scene.sheet.hands, fmt::format("bench/crank/{:.0f}", timed_s.at(i)), cell,
                 fmt::format("{:.0f} s", timed_s.at(i)), look)) {
      scene.bench.crank_for(timed_s.at(i));
    }
  }
  row.cut_right(gap_4);
  text_in(row, Type::small, ink::ink_soft, scene.words.text("open_bench.crank_for"), Align::right);
}

double needed_at(const RigParameters& vehicle, double travel_m) {
  return pull_needed_N(vehicle.shoe, travel_m);
}

}  // namespace

void draw_bench_bar(const BenchScene& scene, BenchWishes& wishes, const Rect& zone) {
  ruled_border(zone);
  Rect row = zone.inset(gap_16, gap_8);
  if (push_key(scene.sheet.hands, "bench/leave", row.cut_left(64), scene.words.text("open_bench.leave")))
    wishes.leave = true;
  row.cut_left(gap_16);
  const std::array views{scene.words.text("open_bench.view.engage"), scene.words.text("open_bench.view.volts"),
                         scene.words.text("open_bench.view.threshold")};
  scene.sheet.view = static_cast<BenchView>(
      choice_keys(scene.sheet.hands, "bench/view", row.cut_left(3 * 110), views, static_cast<int>(scene.sheet.view)));
  row.cut_left(gap_16);
  if (push_key(scene.sheet.hands, "bench/keys", row.cut_left(86), scene.words.text("open_bench.keys"),
               {.type = Type::small})) {
    scene.sheet.keys_shown = true;
  }
  draw_cranks(scene, row.cut_right(368));
  row.cut_right(gap_16);
  const bool ignition = scene.bench.ignition();
  const std::string_view ignition_words =
      scene.words.text(ignition ? "open_bench.ignition_on" : "open_bench.ignition_off");
  if (push_key(scene.sheet.hands, "bench/ignition", row.cut_right(104), ignition_words, {.selected = ignition})) {
    scene.bench.switch_ignition(!ignition);
  }
  row.cut_right(gap_8);
  const bool lamps = scene.bench.headlamps();
  const std::string_view lamp_words = scene.words.text(lamps ? "open_bench.lamps_on" : "open_bench.lamps_off");
  if (push_key(scene.sheet.hands, "bench/lamps", row.cut_right(96), lamp_words, {.selected = lamps})) {
    scene.bench.switch_headlamps(!lamps);
  }
}

std::string heard_text(const BenchSound& sound, const Wording& words) {
  std::string told;
  for (const HeardSound& heard : sound.heard()) {
    told += fmt::format(
        "{}{}", told.empty() ? "" : " \u00B7 ",
        filled(words, fmt::format("open_bench.sound.{}", id_of(heard.kind)), fmt::arg("per_s", heard.per_s)));
  }
  return told;
}

std::string answer_text(const BenchScene& scene) {
  const BenchRun* run = scene.bench.run_shown();
  if (run == nullptr) return std::string(scene.words.text("open_bench.answer.not_cranked"));
  const RigParameters& vehicle = scene.bench.vehicle().parameters();
  const PullShortfall worst = worst_place(vehicle, scene.held.surge_ampere_turns);
  const double since_ms = 1000.0 * (scene.bench.shown_s() - run->from_s);
  const double meet_mm = 1000.0 * vehicle.drive.teeth_meet_at * vehicle.shoe.travel_m;
  const bool told_already = run->failing != FirstFailing::under_way && scene.bench.shown_s() < run->from_s + 0.3;
  if (told_already && !scene.bench.at_newest()) {
    const Mechanism now = scene.bench.mechanism();
    return filled(scene.words, "open_bench.answer.going_over", fmt::arg("ms", since_ms),
                  fmt::arg("shoe", 1000.0 * now.shoe_travel_m), fmt::arg("amps", now.battery_A));
  }
  return filled(scene.words, fmt::format("open_bench.answer.{}", id_of(run->failing)), fmt::arg("ms", since_ms),
                fmt::arg("S", run->highest_S_V), fmt::arg("rate", run->seen.closings_per_s),
                fmt::arg("peak", run->seen.peak_loop_A), fmt::arg("drive", scene.held.surge_A),
                fmt::arg("needed", needed_at(vehicle, 0.0)),
                fmt::arg("given", standing_pull_N(vehicle, scene.held.surge_ampere_turns, 0.0)),
                fmt::arg("far", 1000.0 * run->farthest_m), fmt::arg("meet", meet_mm),
                fmt::arg("short", std::max(0.0, worst.short_by_N())), fmt::arg("at", 1000.0 * worst.shoe_travel_m),
                fmt::arg("home", 1000.0 * run->seated_s.value_or(0.0)), fmt::arg("rpm", run->crank_rpm),
                fmt::arg("motor", run->seen.motor_rpm), fmt::arg("amps", run->loop_A),
                fmt::arg("volts", run->starter_V));
}

/// What there is to hear, and how loud it is to be played.
void draw_heard(const BenchScene& scene, Rect row) {
  BenchSound& sound = scene.sound;
  const std::string_view key = scene.words.text(sound.muted() ? "open_bench.sound.muted" : "open_bench.sound.mute");
  if (sound.has_device()) {
    if (push_key(scene.sheet.hands, "bench/mute", row.cut_right(100), key, {.type = Type::small}))
      sound.mute(!sound.muted());
    row.cut_right(gap_8);
    if (const auto moved =
            scale_key(scene.sheet.hands, "bench/volume", row.cut_right(80), {sound.volume(), {}, 0.05, false}))
      sound.set_volume(*moved);
    row.cut_right(gap_8);
  } else {
    text_in(row.cut_right(140), Type::small, ink::ink_soft, scene.words.text("open_bench.sound.no_device"),
            Align::right);
  }
  const std::string told = heard_text(sound, scene.words);
  text_in(row.cut_left(58), Type::small, ink::ink_soft, scene.words.text("open_bench.sound.label"));
  text_in(row, Type::small_bold, ink::ink,
          told.empty() ? scene.words.text("open_bench.sound.quiet") : std::string_view(told));
}

void draw_answer(const BenchScene& scene, const std::string& answered, const Rect& zone) {
  ruled_border(zone);
  Rect place = zone.inset(gap_16, gap_4);
  draw_heard(scene, place.cut_bottom(20));
  const std::string answer = scene.sheet.refused.empty() ? answered : scene.sheet.refused;
  const ImU32 colour = scene.sheet.refused.empty() ? ink::ink : ink::danger;
  const float height = wrapped_height(Type::heading, answer, place.w);
  wrapped_text({place.x, place.centre().y - height / 2}, place.w, Type::heading, colour, answer);
}

}  // namespace voltfall
