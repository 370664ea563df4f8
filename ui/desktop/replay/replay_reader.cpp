#include "desktop/replay/replay_reader.h"

namespace voltfall {

void ReplayReader::go_to(std::size_t entries) {
  stop_ = true;
  if (work_.valid()) work_.get();
  stop_ = false;
  work_ = std::async(std::launch::async, [this, entries] { play_to(entries); });
}

bool ReplayReader::busy() {
  // A step forward is mostly there within a frame or two: no blank sheet for it.
  return work_.valid() && work_.wait_for(std::chrono::milliseconds(15)) != std::future_status::ready;
}

const Session* ReplayReader::session() {
  if (busy() || !player_ || !player_->so_far().session) return nullptr;
  return &*player_->so_far().session;
}

std::size_t ReplayReader::entries_so_far() const {
  const auto& session = player_->so_far().session;
  return session ? session->log().entries().size() : 0;
}

void ReplayReader::play_to(std::size_t entries) {
  const bool past = player_ && (rolled_on_ || entries_so_far() > entries);
  if (!player_ || past) player_ = std::make_unique<RecordPlayer>(record_, name_);
  rolled_on_ = false;
  const auto there = [&] { return player_->line() > 0 && entries_so_far() >= entries; };
  while (!stop_ && !there() && !player_->closes_next() && player_->play_line()) {
  }
  if (stop_ || !player_->so_far().session) return;
  if (!there()) {
    player_->run_to_next_action();
    rolled_on_ = true;
  } else if (entries > 0 && player_->so_far().session->log().entries().back().what == "crank") {
    player_->run_to_next_action();
  }
}

}  // namespace voltfall
