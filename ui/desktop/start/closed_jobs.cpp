#include "desktop/start/closed_jobs.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "console/record_place.h"
#include "desktop/bay/bay_screen.h"
#include "desktop/layout.h"
#include "desktop/style/draw.h"
#include "session/record.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

using Json = nlohmann::json;

constexpr float row_height = 44;

/// Empty for a job that is not closed, and for a file that is no record.
std::optional<ClosedJob> closed_job(const std::filesystem::path& record) {
  std::ifstream in(record);
  std::string first, line, last;
  std::getline(in, first);
  while (std::getline(in, line)) {
    if (line.find("\"close_job\"") != std::string::npos) last = line;
  }
  const Json closing = Json::parse(last, nullptr, false);
  if (!closing.is_object() || closing.contains("refused")) return std::nullopt;
  const auto head = record_head(first);
  if (!head || !head->scenario.scenario) return std::nullopt;
  ClosedJob job{record, head->scenario.scenario->title, head->attempt, std::nullopt, closing.value("passed", false)};
  if (closing.contains("total")) job.total = closing.value("total", 0.0);
  return job;
}

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return std::move(text).str();
}

}  // namespace

std::vector<ClosedJob> closed_jobs() {
  constexpr std::size_t most = 60;
  std::vector<std::pair<std::filesystem::file_time_type, std::filesystem::path>> files;
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator(records_folder(), error)) {
    if (entry.path().extension() == ".vfrec") files.emplace_back(entry.last_write_time(error), entry.path());
  }
  std::sort(files.rbegin(), files.rend());
  std::vector<ClosedJob> jobs;
  for (const auto& [written, file] : files) {
    if (jobs.size() == most) break;
    if (auto job = closed_job(file)) jobs.push_back(std::move(*job));
  }
  return jobs;
}

// ---- the list ------------------------------------------------------------------------------------------------------

ClosedJobsScreen::ClosedJobsScreen(const Wording& words, std::function<std::unique_ptr<Screen>()> before)
    : words_(words), before_(std::move(before)), jobs_(closed_jobs()) {
  hands_.focus_on("closed/back");
}

void ClosedJobsScreen::frame(double /*frame_s*/, ImVec2 window_size) {
  begin_sheet(window_size);
  hands_.begin_frame();
  const Rect place = layout_of(window_size.x, window_size.y).sheet;
  ruled_zone(place);
  Rect inside = place.inset(gap_24, gap_16);
  Rect head = inside.cut_top(40);
  const bool escaped = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
  const bool back = push_key(hands_, "closed/back", head.cut_right(120).inset(0, 2), "Back  (Esc)") || escaped;
  text_in(head, Type::heading, ink::ink, "Debriefs of closed jobs");
  rule_across(inside.x, inside.right(), inside.y);
  inside.cut_top(gap_8);
  draw_list(inside);
  hands_.end_frame();
  end_sheet();
  if (back && !next) next.emplace(before_());
}

void ClosedJobsScreen::draw_list(Rect place) {
  if (jobs_.empty()) return text_in(place.cut_top(24), Type::body, ink::ink_soft, "No job has been closed yet.");
  ScrollArea list(hands_, "closed/jobs", place, row_height * static_cast<float>(jobs_.size()));
  for (std::size_t i = 0; i < jobs_.size(); ++i) {
    const ClosedJob& job = jobs_[i];
    Rect row{place.x, list.top() + row_height * static_cast<float>(i), list.width(), row_height};
    const std::string id = fmt::format("closed/job/{}", i + 1);
    if (hands_.ring_on(id)) list.keep_in_sight(row.y, row.h);
    if (list_row(hands_, id, row, false)) {
      next.emplace(std::make_unique<OpeningDebrief>(job.record, words_, before_));
    }
    rule_across(row.x, row.right(), row.bottom() - 1, ink::hairline);
    row = row.inset(gap_8, 0);
    const std::string verdict = job.total
                                    ? fmt::format("{}, {:.1f} of 100", job.passed ? "passed" : "not passed", *job.total)
                                    : filled(words_, "sealed.handed_back");
    text_in(row.cut_right(220), Type::body, ink::ink, verdict, Align::right);
    text_in(row.cut_right(120), Type::small, ink::ink_soft, fmt::format("attempt {}", job.attempt));
    text_in(row, Type::body_bold, ink::ink, job.title);
  }
}

// ---- one of them ---------------------------------------------------------------------------------------------------

OpeningDebrief::OpeningDebrief(std::filesystem::path record, const Wording& words,
                               std::function<std::unique_ptr<Screen>()> before)
    : record_(std::move(record)), words_(words), before_(std::move(before)) {
  opened_ = std::async(std::launch::async, [this] { return open(record_, words_, work_); });
}

void OpeningDebrief::stop_table() {
  const std::lock_guard lock(work_.mutex);
  if (work_.table) work_.table->stop();
}

OpeningDebrief::Opened OpeningDebrief::open(const std::filesystem::path& record, const Wording& words, Work& work) {
  TableHolder table;
  RecordPlayer player(text_of(record), record.string(), table.source(), by_releases_at_hand(record.parent_path()));
  if (player.play_line() && !player.so_far().scenario->score_stays_closed()) {
    const std::lock_guard lock(work.mutex);
    table.begin(player.so_far().session->scenario());
    work.table = table.work();
    if (work.stop) work.table->stop();
  }
  while (!work.stop && player.play_line()) {
  }
  Replay played = player.take();
  if (work.stop || !played.session || !played.finished) return {nullptr, std::move(played.problems), nullptr};
  if (!played.session->score()) return {nullptr, {{{}, 0, 0, filled(words, "sealed.not_released")}}, nullptr};
  Opened opened{std::make_unique<Session>(std::move(*played.session)), {}, nullptr};
  opened.contents = std::make_shared<const DebriefContents>(debrief_contents(*opened.session, words));
  return opened;
}

void OpeningDebrief::frame(double /*frame_s*/, ImVec2 window_size) {
  begin_sheet(window_size);
  hands_.begin_frame();
  Progress progress{problem_, 0.0F};
  if (problem_.empty()) {
    const std::lock_guard lock(work_.mutex);
    progress = progress_of(work_.table.get(), words_);
  }
  const Rect place = layout_of(window_size.x, window_size.y).sheet;
  const bool back = draw_waiting(hands_, words_.text("debrief.reading_record"), progress, "Back", place);
  hands_.end_frame();
  end_sheet();
  if (back) {
    next.emplace(before_());
    return;
  }
  if (!opened_.valid() || opened_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return;
  Opened opened = opened_.get();
  if (!opened.session) {
    problem_ = opened.problems.empty() ? "The job is not closed." : opened.problems.front().text();
    return;
  }
  BesideTheJob beside{nullptr, record_, std::move(opened.contents)};
  next.emplace(std::make_unique<BayScreen>(std::move(opened.session), words_, before_, std::move(beside)));
}

}  // namespace voltfall
