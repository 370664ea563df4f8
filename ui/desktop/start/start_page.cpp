#include "desktop/start/start_page.h"

#include <fmt/format.h>

#include "desktop/bay/bay_screen.h"
#include "desktop/bench/bench_screen.h"
#include "desktop/desk/desk_screen.h"
#include "desktop/drawings/vehicle.h"
#include "desktop/layout.h"
#include "desktop/service_sheet/service_sheet.h"
#include "desktop/start/closed_jobs.h"
#include "desktop/style/draw.h"
#include "desktop/walk/walk_screen.h"

namespace voltfall {
namespace {

constexpr float job_row_height = 84;

std::string first_sentences(std::string_view complaint, std::size_t longest) {
  const std::string flat(complaint);
  const std::size_t stop = flat.find(". ");
  return stop == std::string::npos || stop > longest ? flat : flat.substr(0, stop + 1);
}

}  // namespace

StartPage::StartPage(const Wording& words) : words_(words), jobs_(jobs_on_offer()), unfinished_(unfinished_job()) {
  hands_.focus_on("start/walk");
}

void StartPage::frame(double /*frame_s*/, ImVec2 window_size) {
  begin_sheet(window_size);
  hands_.begin_frame();
  const Layout zones = layout_of(window_size.x, window_size.y);
  Rect left = zones.sheet;
  const Rect cautions = left.cut_right(zones.rail.w);
  ruled_zone(left);
  ruled_zone(cautions);
  Rect page = left.inset(gap_24);
  draw_head(page.cut_top(page.h * 0.40F));
  page.cut_top(gap_16);
  draw_choices(page);
  draw_cautions(cautions.inset(gap_24));
  hands_.end_frame();
  end_sheet();
}

void StartPage::draw_head(const Rect& place) {
  Rect words = place;
  Rect picture = words.cut_right(place.w * 0.52F);
  text_in(words.cut_top(44), Type::title, ink::ink, "Voltfall");
  words.cut_top(gap_8);
  wrapped_text(words.min(), words.w - gap_24, Type::body, ink::ink,
               "The engine won't crank, and ten things could be why. Work the circuit with meter, clamp, key, eyes and "
               "ears. Find the fault under load, prove it, repair only that, and prove the repair.");
  ruled_zone(picture, ink::paper);
  VehicleLook look;
  look.lamp_light = 0.9;
  look.headlamps = true;
  look.strap = StrapSeen::fitted;
  picture = picture.inset(gap_8);
  sheet().PushClipRect(picture.min(), picture.max(), true);
  draw_vehicle(look, Projection(picture));
  sheet().PopClipRect();
}

void StartPage::draw_choices(Rect place) {
  const KeyLook strong{.strong = true};
  Rect left = place.cut_left(300);
  place.cut_left(gap_24);
  text_in(left.cut_top(28), Type::heading, ink::ink, "Begin here");
  left.cut_top(gap_8);
  if (push_key(hands_, "start/walk", left.cut_top(48), "Ten minutes on a healthy car", strong)) begin_walk();
  left.cut_top(gap_8);
  left.cut_top(wrapped_text(left.min(), left.w, Type::small, ink::ink_soft,
                            "Hear a good crank, read what good looks like, then find your first bad joint. No score.") +
               gap_24);
  if (unfinished_) {
    text_in(left.cut_top(28), Type::heading, ink::ink, "Go on where I was");
    left.cut_top(gap_8);
    if (push_key(hands_, "start/resume", left.cut_top(48), unfinished_->title)) open(resume_job(unfinished_->record));
  }
  left.cut_top(gap_24);
  const auto before = [&words = words_] { return std::make_unique<StartPage>(words); };
  if (push_key(hands_, "start/bench", left.cut_top(36), "Take the starter apart")) {
    next.emplace(std::make_unique<BenchScreen>(subject_of(all_vehicle_types().front()), words_, before));
  }
  left.cut_top(gap_8);
  const Rect keys = left.cut_top(36);
  if (push_key(hands_, "start/service_sheets", cell_of(keys, 0, 2, gap_8), "Service sheets")) {
    next.emplace(std::make_unique<ServiceSheetScreen>(words_, before));
  }
  if (push_key(hands_, "start/debriefs", cell_of(keys, 1, 2, gap_8), "Debriefs")) {
    next.emplace(std::make_unique<ClosedJobsScreen>(words_, before));
  }
  left.cut_top(gap_8);
  if (push_key(hands_, "start/desk", left.cut_top(36), "Set work for others")) {
    next.emplace(std::make_unique<DeskList>(words_, before));
  }
  left.cut_top(gap_8);
  if (!problem_.empty()) wrapped_text(left.min(), left.w, Type::small_bold, ink::danger, problem_);

  text_in(place.cut_top(28), Type::heading, ink::ink, "Work a fault");
  ScrollArea list(hands_, "start/jobs", place, job_row_height * static_cast<float>(jobs_.size()));
  for (std::size_t i = 0; i < jobs_.size(); ++i) {
    const Rect row{place.x, list.top() + job_row_height * static_cast<float>(i), list.width(), job_row_height};
    const std::string id = "start/job/" + jobs_[i].file.stem().string();
    if (hands_.ring_on(id)) list.keep_in_sight(row.y, row.h);
    if (list_row(hands_, id, row, false)) open(open_job(jobs_[i].file, {}));
    draw_job(jobs_[i], row);
  }
}

void StartPage::draw_job(const JobOffer& job, const Rect& row) {
  Rect inside = row.inset(gap_8, gap_8);
  Rect number = inside.cut_left(40);
  text_in(number.cut_top(28), Type::heading, ink::ink, std::to_string(job.sheet));
  Rect head = inside.cut_top(26);
  const std::string dealt = job.code.empty() ? std::string() : fmt::format("{}, sealed, ", job.code);
  text_in(head.cut_right(job.code.empty() ? 72 : 240), Type::small, ink::ink_soft, dealt + job.level, Align::right);
  text_in(head, Type::body_bold, ink::ink, job.title);
  // Two lines of what the driver says; a line's end leaves up to a word's room unused.
  const std::string said = fmt::format("\u201C{}\u201D", first_sentences(job.complaint, 200));
  wrapped_text(inside.min(), inside.w, Type::body, ink::ink_soft, shortened(Type::body, said, 2 * inside.w - 80));
}

void StartPage::draw_cautions(Rect place) {
  text_in(place.cut_top(32), Type::heading, ink::ink, "On a real vehicle");
  for (const std::string_view caution : words_.cautions()) {
    const float height = wrapped_text(place.min(), place.w, Type::small, ink::ink, caution);
    place.cut_top(height + gap_8);
  }
}

void StartPage::open(OpenedJob opened) {
  if (opened.session) {
    next.emplace(bay_for(std::move(opened), words_));
    return;
  }
  problem_ = opened.problems.empty() ? "The job can't be opened." : opened.problems.front().text();
}

void StartPage::begin_walk() {
  std::vector<Problem> problems;
  auto walk = make_walk(words_, problems);
  if (walk)
    next.emplace(std::move(walk));
  else
    problem_ = problems.empty() ? "The walk can't be opened." : problems.front().text();
}

std::unique_ptr<Screen> bay_for(OpenedJob opened, const Wording& words) {
  BesideTheJob beside{std::move(opened.table), std::move(opened.record), nullptr};
  return std::make_unique<BayScreen>(
      std::move(opened.session), words, [&words] { return std::make_unique<StartPage>(words); }, std::move(beside));
}

}  // namespace voltfall
