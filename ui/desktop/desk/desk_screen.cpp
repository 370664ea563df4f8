#include "desktop/desk/desk_screen.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "console/user_folders.h"
#include "desktop/bay/bay_screen.h"
#include "desktop/desk/new_job.h"
#include "desktop/layout.h"
#include "desktop/start/open_job.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

constexpr float row_height = 40;
constexpr std::array<std::string_view, 5> page_words{"Findings", "Readings", "Test points", "Trace", "Par"};

bool escape_pressed() {
  return ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
}

void add_files_in(const std::filesystem::path& folder, bool own, std::vector<DeskFile>& files) {
  std::vector<DeskFile> found;
  std::error_code failed;
  for (const auto& entry : std::filesystem::directory_iterator(folder, failed)) {
    if (entry.path().extension() != ".toml") continue;
    const ReadScenario read = read_scenario(entry.path());
    found.push_back({entry.path(), read.scenario ? read.scenario->title : entry.path().filename().string(), own});
  }
  std::sort(found.begin(), found.end(), [](const DeskFile& a, const DeskFile& b) { return a.title < b.title; });
  files.insert(files.end(), found.begin(), found.end());
}

}  // namespace

std::filesystem::path own_jobs_folder() {
  return data_folder() / "own_jobs";
}

std::vector<DeskFile> desk_files() {
  std::vector<DeskFile> files;
  add_files_in(own_jobs_folder(), true, files);
  add_files_in(scenarios_folder() / "template", false, files);
  add_files_in(scenarios_folder(), false, files);
  return files;
}

// ---- the list ------------------------------------------------------------------------------------------------------

DeskList::DeskList(const Wording& words, std::function<std::unique_ptr<Screen>()> before)
    : words_(words), before_(std::move(before)), files_(desk_files()) {
  hands_.focus_on("desk/new");
}

void DeskList::draw_list(const Rect& inside) {
  const auto here = [&words = words_, before = before_] { return std::make_unique<DeskList>(words, before); };
  ScrollArea list(hands_, "desk/files", inside, row_height * static_cast<float>(files_.size()));
  for (std::size_t i = 0; i < files_.size(); ++i) {
    const DeskFile& one = files_[i];
    Rect row{inside.x, list.top() + row_height * static_cast<float>(i), list.width(), row_height};
    const std::string id = fmt::format("desk/file/{}", one.file.stem().string());
    if (hands_.ring_on(id)) list.keep_in_sight(row.y, row.h);
    if (list_row(hands_, id, row, false)) next.emplace(std::make_unique<DeskScreen>(one.file, words_, here));
    rule_across(row.x, row.right(), row.bottom() - 1, ink::hairline);
    row = row.inset(gap_8, 0);
    text_in(row.cut_right(120), Type::small, ink::ink_soft, one.own ? words_.text("desk.own") : "", Align::right);
    text_in(row.cut_right(row.w * 0.5F), Type::small, ink::ink_soft, one.file.filename().string(), Align::right);
    text_in(row, Type::body_bold, ink::ink, one.title);
  }
}

void DeskList::frame(double /*frame_s*/, ImVec2 window_size) {
  begin_sheet(window_size);
  hands_.begin_frame();
  const Rect place = layout_of(window_size.x, window_size.y).sheet;
  ruled_zone(place);
  Rect inside = place.inset(gap_24, gap_16);
  Rect head = inside.cut_top(40);
  const bool back = push_key(hands_, "desk/back", head.cut_right(120).inset(0, 2), "Back  (Esc)") || escape_pressed();
  head.cut_right(gap_16);
  if (push_key(hands_, "desk/new", head.cut_right(260).inset(0, 2), words_.text("desk.new"), {.strong = true})) {
    next.emplace(std::make_unique<NewJobScreen>(words_, before_));
  }
  text_in(head, Type::heading, ink::ink, words_.text("desk.title"));
  rule_across(inside.x, inside.right(), inside.y);
  inside.cut_top(gap_8);
  inside.cut_top(wrapped_text(inside.min(), inside.w, Type::body, ink::ink_soft, words_.text("desk.about")) + gap_8);
  draw_list(inside);
  hands_.end_frame();
  end_sheet();
  if (back && !next) next.emplace(before_());
}

// ---- one of them ---------------------------------------------------------------------------------------------------

DeskScreen::DeskScreen(std::filesystem::path file, const Wording& words,
                       std::function<std::unique_ptr<Screen>()> before)
    : words_(words), before_(std::move(before)), watch_(std::move(file)) {
  hands_.focus_on("desk/play");
}

void DeskScreen::play() {
  OpenedJob opened = open_job(watch_.file(), {});
  if (!opened.session) {
    problem_ = opened.problems.empty() ? std::string(words_.text("desk.cant_play")) : opened.problems.front().text();
    return;
  }
  const auto here = [file = watch_.file(), &words = words_, before = before_] {
    return std::make_unique<DeskScreen>(file, words, before);
  };
  BesideTheJob beside{std::move(opened.table), std::move(opened.record), nullptr};
  next.emplace(std::make_unique<BayScreen>(std::move(opened.session), words_, here, std::move(beside)));
}

void DeskScreen::draw_head(Rect row) {
  const bool back = push_key(hands_, "desk/back", row.cut_right(120).inset(0, 2), "Back  (Esc)") || escape_pressed();
  row.cut_right(gap_8);
  KeyLook look{.enabled = watch_.problems().empty()};
  look.strong = true;
  const bool key = letter_pressed(hands_, 'P') && look.enabled;
  if (push_key(hands_, "desk/play", row.cut_right(240).inset(0, 2), words_.text("desk.play"), look) || key) play();
  row.cut_right(gap_16);
  const auto report = watch_.report();
  std::string_view verdict = "desk.reading";
  if (!watch_.problems().empty()) {
    verdict = "desk.unread";
  } else if (report && !report->sound()) {
    verdict = "desk.unsound";
  } else if (report && report->complete) {
    verdict = "desk.sound";
  }
  text_in(row.cut_left(220), Type::heading, ink::ink, words_.text(verdict));
  text_in(row, Type::small, ink::ink_soft, problem_.empty() ? watch_.file().string() : problem_);
  if (back && !next) next.emplace(before_());
}

void DeskScreen::draw_right(Rect place) {
  const auto cells = cells_by_words(place.cut_top(28), Type::small_bold, page_words);
  KeyLook look;
  look.type = Type::small;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    look.selected = static_cast<std::size_t>(page_) == i;
    const std::string id = fmt::format("desk/page/{}", i + 1);
    if (push_key(hands_, id, cells[i], page_words.at(i), look)) page_ = static_cast<DeskPage>(i);
  }
  place.cut_top(gap_8);
  if (watch_.is_busy()) {
    text_in(place.cut_bottom(20), Type::small, ink::ink_soft,
            watch_.of() > 0
                ? filled(words_, "debrief.working_out", fmt::arg("done", watch_.done()), fmt::arg("of", watch_.of()))
                : filled(words_, "debrief.looking_up"));
  }
  if (page_ == DeskPage::findings && !watch_.problems().empty()) return draw_mistakes(watch_, words_, hands_, place);
  if (const auto report = watch_.report()) draw_desk_page(page_, *report, words_, hands_, place);
}

void DeskScreen::frame(double frame_s, ImVec2 window_size) {
  watch_.poll(frame_s);
  begin_sheet(window_size);
  hands_.begin_frame();
  const Rect place = layout_of(window_size.x, window_size.y).sheet;
  ruled_zone(place);
  Rect inside = place.inset(gap_16, gap_8);
  draw_head(inside.cut_top(40));
  rule_across(inside.x, inside.right(), inside.y);
  inside.cut_top(gap_8);
  Rect left = inside.cut_left(inside.w * 0.42F);
  inside.cut_left(gap_16);
  rule_down(inside.x - gap_8, inside.y, inside.bottom(), ink::hairline);
  draw_source(watch_, hands_, left);
  draw_right(inside);
  hands_.end_frame();
  end_sheet();
}

}  // namespace voltfall
