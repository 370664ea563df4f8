#include "job/job_log.h"

#include <algorithm>
#include <utility>

namespace voltfall {

void JobLog::add(std::string what, std::string detail, double minutes, bool counted, double money) {
  entries_.push_back({minutes_, std::move(what), std::move(detail), minutes, money, counted});
  minutes_ += minutes;
  money_ += money;
  if (counted) counted_minutes_ += minutes;
}

void JobLog::mark(MarkKind kind, std::string_view id) {
  const bool already = std::any_of(marks_.begin(), marks_.end(), [&](const SafetyMark& mark) { return mark.id == id; });
  if (kind == MarkKind::omission && already) return;
  marks_.push_back({kind, std::string(id), minutes_});
}

int JobLog::count(MarkKind kind) const {
  return static_cast<int>(
      std::count_if(marks_.begin(), marks_.end(), [&](const SafetyMark& mark) { return mark.kind == kind; }));
}

}  // namespace voltfall
