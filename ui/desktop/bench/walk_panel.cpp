#include "desktop/bench/walk_panel.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "console/files.h"
#include "console/user_folders.h"
#include "desktop/start/open_job.h"
#include "desktop/style/draw.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

constexpr std::array<std::string_view, 4> page_ids{"predict", "see", "explain", "unlike"};

std::string text_in_file(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

template <typename Worded>
std::vector<std::string_view> words_of(const std::vector<Worded>& all) {
  std::vector<std::string_view> words;
  words.reserve(all.size());
  for (const Worded& one : all) words.push_back(one.words);
  return words;
}

}  // namespace

std::string value_words(const Wording& words, const WalkQuestion& question, const WalkValue& value) {
  const WalkMeasure& measure = *question.measured.measure;
  if (!measure.in_words()) return text_of(question, value);
  const std::string section = measure.id == "lamps"   ? "lamp_look"
                              : measure.id == "state" ? "crank_state"
                                                      : fmt::format("open_bench.walk.{}", measure.id);
  return std::string(words.text(fmt::format("{}.{}", section, value.word)));
}

WalkPanel::WalkPanel(const Wording& words) : file_(data_folder() / "walks.json") {
  ReadWalks read = read_walks(walks_folder());
  walks_ = std::move(read.walks);
  if (!read.problems.empty()) told_ = read.problems.front().text();
  std::error_code none;
  if (!std::filesystem::exists(file_, none)) return;
  ReadWalkProgress kept = walk_progress_in(text_in_file(file_), walks_);
  progress_ = std::move(kept.progress);
  if (!kept.message.empty()) told_ = filled(words, "open_bench.walk.lost", fmt::arg("why", kept.message));
}

const BenchWalk* WalkPanel::walk_named(std::string_view id) const {
  const auto found = std::find_if(walks_.begin(), walks_.end(), [&](const BenchWalk& walk) { return walk.id == id; });
  return found != walks_.end() ? &*found : nullptr;
}

const WalkQuestion* WalkPanel::question_here() const {
  const auto here = progress_.here();
  const BenchWalk* walk = here ? walk_named(here->walk) : nullptr;
  if (walk == nullptr) return nullptr;
  const WalkPage& page = walk->page(here->page);
  if (here->returning) return page.repeat ? &*page.repeat : nullptr;
  return page.question ? &*page.question : nullptr;
}

void WalkPanel::keep() {
  std::error_code failed;
  std::filesystem::create_directories(file_.parent_path(), failed);
  const std::string problem = problem_writing(file_, progress_.to_json());
  if (!problem.empty()) told_ = fmt::format("{}: {}", file_.string(), problem);
}

/// Another page is open: nothing is chosen or set up on it yet.
void WalkPanel::turn_page() {
  asked_ = {question_here(), {}, {}, {}};
  line_.clear();
  sight_ = 0;
  set_up_ = all_seen_ = false;
  keep();
}

std::optional<std::size_t> WalkPanel::draw_choices(const BenchScene& scene, PaperColumn& column, std::string_view id,
                                                   const std::vector<std::string_view>& choices,
                                                   std::optional<std::size_t> chosen, bool open) {
  for (std::size_t i = 0; i < choices.size(); ++i) {
    const std::string row_id = fmt::format("{}/{}", id, i);
    const float height = wrapped_height(Type::small, choices[i], column.width() - 2 * gap_8) + 10;
    const Rect row = column.row_for(row_id, height);
    if (list_row(scene.sheet.hands, row_id, row, chosen == i, open)) chosen = i;
    wrapped_text({row.x + gap_8, row.y + 5}, row.w - 2 * gap_8, Type::small, ink::ink, choices[i]);
  }
  return chosen;
}

void WalkPanel::draw_question(const BenchScene& scene, PaperColumn& column) {
  const WalkQuestion& question = *asked_.question;
  const bool open = !asked_.answer.has_value();
  column.paragraph(Type::body, ink::ink, question.words);
  column.gap(gap_8);
  asked_.choice = draw_choices(scene, column, "walk/choice", words_of(question.choices), asked_.choice, open);
  if (!question.reasons.empty()) {
    column.gap(gap_8);
    column.paragraph(Type::small_bold, ink::ink, scene.words.text("open_bench.walk.because"));
    asked_.reason = draw_choices(scene, column, "walk/reason", words_of(question.reasons), asked_.reason, open);
  }
  column.gap(gap_8);
  if (!open) return draw_outcome(scene, column);
  const bool complete = asked_.choice && (question.reasons.empty() || asked_.reason);
  const Rect key = column.row_for("walk/say", 34);
  if (push_key(scene.sheet.hands, "walk/say", key, scene.words.text("open_bench.walk.say"),
               {.enabled = complete, .strong = complete})) {
    asked_.answer = answer(question);
    const bool reason_right = question.reasons.empty() || question.reasons[*asked_.reason].right;
    progress_.reply({*asked_.choice, asked_.reason, asked_.answer->right == asked_.choice && reason_right});
    keep();
  }
}

void WalkPanel::draw_outcome(const BenchScene& scene, PaperColumn& column) {
  const WalkQuestion& question = *asked_.question;
  if (!asked_.answer->right) {
    column.paragraph(Type::small_bold, ink::danger, asked_.answer->doubt);
    return;
  }
  const bool right = asked_.answer->right == asked_.choice;
  column.paragraph(Type::body_bold, ink::ink,
                   scene.words.text(right ? "open_bench.walk.right" : "open_bench.walk.wrong"));
  column.paragraph(Type::body, ink::ink,
                   filled(scene.words, "open_bench.walk.told",
                          fmt::arg("value", value_words(scene.words, question, *asked_.answer->value)),
                          fmt::arg("choice", question.choices[*asked_.choice].words)));
  if (question.reasons.empty()) return;
  const auto good =
      std::find_if(question.reasons.begin(), question.reasons.end(), [](const auto& r) { return r.right; });
  const bool reason_right = question.reasons[*asked_.reason].right;
  column.gap(gap_4);
  column.paragraph(Type::small_bold, ink::ink,
                   scene.words.text(reason_right ? "open_bench.walk.reason_right" : "open_bench.walk.reason_wrong"));
  column.paragraph(Type::small, ink::ink, good->words);
  if (!right || !reason_right)
    column.paragraph(Type::small, ink::ink_soft, scene.words.text("open_bench.walk.returns"));
}

bool WalkPanel::sight_seen(const BenchScene& scene, const WalkSight& sight, bool swept) const {
  if (!set_up_) return false;
  if (sight.sweep) return swept;
  if (!sight.trial.key_at_start) return true;
  constexpr double long_enough_s = 0.7;
  const auto& runs = scene.bench.runs();
  return !runs.empty() && runs.back().seen.held_s >= std::min(long_enough_s, 0.9 * sight.trial.key_s);
}

void WalkPanel::draw_sights(const BenchScene& scene, BenchWishes& wishes, bool swept, PaperColumn& column) {
  const auto& sights = walk_named(progress_.here()->walk)->page(WalkPageKind::see).sights;
  const WalkSight& sight = sights[sight_];
  if (sights.size() > 1) {
    column.paragraph(
        Type::small, ink::ink_soft,
        filled(scene.words, "open_bench.walk.sight", fmt::arg("number", sight_ + 1), fmt::arg("of", sights.size())));
  }
  column.paragraph(Type::body, ink::ink, sight.words);
  column.gap(gap_8);
  const bool seen = sight_seen(scene, sight, swept);
  const Rect key = column.row_for("walk/set_up", 34);
  if (push_key(scene.sheet.hands, "walk/set_up", key,
               scene.words.text(set_up_ ? "open_bench.walk.again" : "open_bench.walk.set_up"), {.strong = !set_up_})) {
    wishes.sight = &sight;
    set_up_ = true;
    return;
  }
  if (!set_up_) return;
  column.gap(gap_8);
  const std::string_view next = sight.sweep                ? "open_bench.walk.sweep_now"
                                : sight.trial.key_at_start ? "open_bench.walk.crank_now"
                                                           : "open_bench.walk.look_now";
  column.paragraph(Type::small_bold, ink::ink,
                   seen ? std::string(scene.words.text("open_bench.walk.seen"))
                        : filled(scene.words, next, fmt::arg("s", sight.trial.key_s)));
  if (!seen) return;
  if (sight_ + 1 == sights.size()) {
    all_seen_ = true;
    return;
  }
  column.gap(gap_8);
  const Rect more = column.row_for("walk/more", 34);
  if (push_key(scene.sheet.hands, "walk/more", more, scene.words.text("open_bench.walk.more"), {.strong = true})) {
    ++sight_;
    set_up_ = false;
  }
}

void WalkPanel::draw_explain(const BenchScene& scene, PaperColumn& column) {
  const BenchWalk& walk = *walk_named(progress_.here()->walk);
  const WalkPage& page = walk.page(WalkPageKind::explain);
  column.paragraph(Type::body, ink::ink, page.ask);
  column.gap(gap_8);
  const WalkNotes* notes = progress_.notes(walk.id);
  if (notes != nullptr && !notes->line.empty()) {
    column.paragraph(Type::small_bold, ink::ink, scene.words.text("open_bench.walk.yours"));
    column.paragraph(Type::body, ink::ink, notes->line);
    column.gap(gap_8);
    column.paragraph(Type::small_bold, ink::ink, scene.words.text("open_bench.walk.ours"));
    column.paragraph(Type::body, ink::ink, page.ours);
    return;
  }
  const bool entered =
      text_field(scene.sheet.hands, "walk/line", column.row_for("walk/line", 34), line_, "in one line");
  column.gap(gap_8);
  const bool enough = line_.find(' ') != std::string::npos;
  const Rect key = column.row_for("walk/compare", 34);
  if (push_key(scene.sheet.hands, "walk/compare", key, scene.words.text("open_bench.walk.compare"),
               {.enabled = enough, .strong = enough}) ||
      (entered && enough)) {
    progress_.explain(line_);
    keep();
  }
}

void WalkPanel::draw_foot(const BenchScene& scene, PaperColumn& column) {
  const auto here = progress_.here();
  column.gap(gap_16);
  const Rect row = column.row_for("walk/on", 34);
  const bool on = progress_.may_go_on() && (here->page != WalkPageKind::see || all_seen_);
  const bool last = here->page == WalkPageKind::unlike && !here->returning;
  if (push_key(scene.sheet.hands, "walk/leave", cell_of(row, 0, 2, gap_8), scene.words.text("open_bench.walk.leave"))) {
    progress_.leave();
    turn_page();
    return;
  }
  if (push_key(scene.sheet.hands, "walk/on", cell_of(row, 1, 2, gap_8),
               scene.words.text(last ? "open_bench.walk.finish" : "open_bench.walk.on"),
               {.enabled = on, .strong = on})) {
    progress_.go_on();
    turn_page();
  }
}

void WalkPanel::draw_page(const BenchScene& scene, BenchWishes& wishes, bool swept, PaperColumn& column) {
  const WalkPlace here = *progress_.here();
  const BenchWalk& walk = *walk_named(here.walk);
  const std::string_view kind = here.returning ? "again" : page_ids.at(static_cast<std::size_t>(here.page));
  column.heading(here.returning ? std::string(scene.words.text("open_bench.walk.from_before"))
                                : fmt::format("{}. {}", walk.number, walk.title));
  column.paragraph(Type::small_bold, ink::ink_soft, scene.words.text(fmt::format("open_bench.walk.page.{}", kind)));
  column.gap(gap_8);
  if (here.page == WalkPageKind::predict && !here.returning && !asked_.answer) {
    column.paragraph(Type::small, ink::ink, walk.intro);
    column.gap(gap_8);
  }
  if (asked_.question == nullptr) asked_.question = question_here();
  if (asked_.question != nullptr) draw_question(scene, column);
  if (here.page == WalkPageKind::see) draw_sights(scene, wishes, swept, column);
  if (here.page == WalkPageKind::explain) draw_explain(scene, column);
  draw_foot(scene, column);
}

void WalkPanel::draw_list(const BenchScene& scene, PaperColumn& column) {
  column.paragraph(Type::small, ink::ink, scene.words.text("open_bench.walk.about"));
  column.gap(gap_8);
  if (!told_.empty()) column.paragraph(Type::small_bold, ink::danger, told_);
  std::optional<WalkGroup> group;
  for (const BenchWalk& walk : walks_) {
    if (group != walk.group)
      column.heading(scene.words.text(fmt::format("open_bench.walk.group.{}", id_of(walk.group))));
    group = walk.group;
    const std::string id = fmt::format("walk/begin/{}", walk.id);
    const Rect row = column.row_for(id, 32);
    if (list_row(scene.sheet.hands, id, row, false)) {
      progress_.begin(walk, walks_);
      turn_page();
      return;
    }
    const WalkNotes* notes = progress_.notes(walk.id);
    if (notes != nullptr && notes->finished) tick_mark({row.right() - 14, row.centre().y}, 14, ink::ink);
    text_in(row.inset(gap_8, 0), Type::body, ink::ink, fmt::format("{}. {}", walk.number, walk.title));
  }
  if (progress_.missed().empty()) return;
  column.gap(gap_8);
  column.paragraph(Type::small, ink::ink_soft,
                   filled(scene.words, "open_bench.walk.will_return", fmt::arg("count", progress_.missed().size())));
}

void WalkPanel::draw(const BenchScene& scene, BenchWishes& wishes, bool swept, Rect place) {
  PaperColumn column(scene.sheet.hands, "bench/walks", place);
  if (progress_.here()) {
    draw_page(scene, wishes, swept, column);
  } else {
    draw_list(scene, column);
  }
}

}  // namespace voltfall
