#include "desktop/desk/desk_watch.h"

#include <sstream>

#include "console/table_place.h"

namespace voltfall {
namespace {

constexpr double look_every_s = 0.25;

template <typename Value>
bool is_ready(const std::future<Value>& work) {
  return work.valid() && work.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
}

}  // namespace

DeskWatch::DeskWatch(std::filesystem::path file) : file_(std::move(file)) {
  poll(look_every_s);
}

DeskWatch::~DeskWatch() {
  progress_->stop = true;
}

void DeskWatch::poll(double frame_s) {
  take_results();
  since_look_s_ += frame_s;
  if (since_look_s_ < look_every_s) return;
  since_look_s_ = 0.0;
  std::error_code failed;
  const Stamp now{std::filesystem::last_write_time(file_, failed), std::filesystem::file_size(file_, failed)};
  if (now == stamp_ && !lines_.empty()) return;
  stamp_ = now;
  read();
}

void DeskWatch::read() {
  ReadScenario read = read_scenario(file_);
  problems_ = std::move(read.problems);
  const ReadText text = read_small_file(file_, std::size_t{1} << 20U, "a scenario file (.toml)");
  lines_.clear();
  std::istringstream in(text.text);
  for (std::string line; std::getline(in, line);) lines_.push_back(std::move(line));
  if (!read.scenario) return;
  scenario_ = std::move(read.scenario);
  progress_->stop = true;  // of what was being vetted, which nobody wants any more
  begin_vetting();
}

// One at a time: what is under way ends first, at the next hypothesis.
void DeskWatch::begin_vetting() {
  if (!scenario_ || is_busy()) return;
  progress_ = std::make_shared<TableProgress>();
  glance_ = std::async(std::launch::async, [scenario = *scenario_] {
    return std::make_shared<const VetReport>(vet_at_a_glance(scenario));
  });
  whole_ = std::async(std::launch::async, [scenario = std::move(*scenario_), progress = progress_]() -> Report {
    const auto table = table_store().get(scenario, *progress);
    return table ? std::make_shared<const VetReport>(vet(scenario, table)) : nullptr;
  });
  scenario_.reset();
}

void DeskWatch::take_results() {
  if (is_ready(glance_)) {
    Report glance = glance_.get();
    if (!progress_->stop && whole_.valid()) report_ = std::move(glance);
  }
  if (is_ready(whole_)) {
    if (Report whole = whole_.get(); whole && !progress_->stop) report_ = std::move(whole);
  }
  begin_vetting();
}

}  // namespace voltfall
