#include "walks/walk_progress.h"

#include <algorithm>
#include <utility>

#include "walks/walk_text.h"

namespace voltfall {
namespace {

bool asks(WalkPageKind page) {
  return page == WalkPageKind::predict || page == WalkPageKind::unlike;
}

WalkPageKind beside(WalkPageKind page, int step) {
  return static_cast<WalkPageKind>(static_cast<int>(page) + step);
}

const BenchWalk* walk_of(std::span<const BenchWalk> walks, std::string_view id) {
  const auto found = std::find_if(walks.begin(), walks.end(), [&](const BenchWalk& walk) { return walk.id == id; });
  return found == walks.end() ? nullptr : &*found;
}

}  // namespace

void WalkProgress::begin(const BenchWalk& walk, std::span<const BenchWalk> walks) {
  Open open{walk.id, {}, std::nullopt, WalkPageKind::predict};
  for (const std::string& id : missed_) {
    // Its own question stands on its first page anyway.
    const BenchWalk* from = id == walk.id ? nullptr : walk_of(walks, id);
    if (from != nullptr && from->page(WalkPageKind::predict).repeat) open.returning.push_back(id);
  }
  open_ = std::move(open);
  // Taken again: what was said the time before goes, that it was finished stays.
  WalkNotes fresh;
  fresh.finished = notes_[walk.id].finished;
  notes_[walk.id] = std::move(fresh);
}

std::optional<WalkPlace> WalkProgress::here() const {
  if (!open_) return std::nullopt;
  if (!open_->returning.empty()) return WalkPlace{open_->returning.front(), true, WalkPageKind::predict};
  return WalkPlace{open_->walk, false, open_->page};
}

void WalkProgress::reply(const WalkReply& said) {
  if (!open_ || replied()) return;
  if (!open_->returning.empty()) {
    open_->returned = said;
    note_missed(open_->returning.front(), said.right);
  } else if (open_->page == WalkPageKind::predict) {
    notes_[open_->walk].predicted = said;
    if (!said.right) note_missed(open_->walk, false);
  } else if (open_->page == WalkPageKind::unlike) {
    notes_[open_->walk].unlike = said;
  }
}

/// Only the form that returned shows that the idea is there: the first one's answer is known by now.
void WalkProgress::note_missed(const std::string& walk, bool right) {
  const auto noted = std::find(missed_.begin(), missed_.end(), walk);
  if (right && noted != missed_.end()) missed_.erase(noted);
  if (!right && noted == missed_.end()) missed_.push_back(walk);
}

std::optional<WalkReply> WalkProgress::replied() const {
  if (!open_) return std::nullopt;
  if (!open_->returning.empty()) return open_->returned;
  const WalkNotes* noted = notes(open_->walk);
  if (noted == nullptr || !asks(open_->page)) return std::nullopt;
  return open_->page == WalkPageKind::predict ? noted->predicted : noted->unlike;
}

void WalkProgress::explain(std::string_view line) {
  const std::optional<WalkPlace> place = here();
  if (!place || place->returning || place->page != WalkPageKind::explain) return;
  notes_[place->walk].line = cut_to(line, longest_walk_line);
}

bool WalkProgress::may_go_on() const {
  const std::optional<WalkPlace> place = here();
  if (!place) return false;
  if (asks(place->page)) return replied().has_value();
  return place->page != WalkPageKind::explain || !is_blank(notes(place->walk)->line);
}

bool WalkProgress::go_on() {
  if (!may_go_on()) return false;
  if (!open_->returning.empty()) {
    open_->returning.erase(open_->returning.begin());
    open_->returned.reset();
  } else if (open_->page == WalkPageKind::unlike) {
    notes_[open_->walk].finished = true;
    open_.reset();
  } else {
    open_->page = beside(open_->page, 1);
  }
  return true;
}

bool WalkProgress::go_back() {
  if (!open_ || !open_->returning.empty() || open_->page == WalkPageKind::predict) return false;
  open_->page = beside(open_->page, -1);
  return true;
}

void WalkProgress::leave() {
  open_.reset();
}

const WalkNotes* WalkProgress::notes(std::string_view walk) const {
  const auto found = notes_.find(walk);
  return found == notes_.end() ? nullptr : &found->second;
}

}  // namespace voltfall
