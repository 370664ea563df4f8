#include <algorithm>

#include "session/session.h"

// What makes intermittent faults come and go in the course of a job.

namespace voltfall {

// The same job comes in the same way every time it is opened: drawn from what its author wrote.
std::uint64_t Session::seed() const {
  constexpr std::uint64_t offset = 14695981039346656037ULL, prime = 1099511628211ULL;  // FNV-1a
  std::uint64_t hash = offset;
  for (const char letter : scenario_.source_text) hash = (hash ^ static_cast<unsigned char>(letter)) * prime;
  return hash;
}

void Session::set_triggers(const Triggers& next) {
  if (next == triggers_) return;
  triggers_ = next;
  const auto left = still_hidden(scenario_.faults, repairs_done_);
  const bool some_come_and_go =
      std::any_of(left.begin(), left.end(), [](const HiddenFault& fault) { return fault.when != When::always; });
  if (some_come_and_go) rig_.refit(with_triggers(rig_.parameters(), scenario_.healthy, left, triggers_));
}

void Session::follow_heat() {
  const Readings& now = rig_.readings();
  set_triggers(after_heat(triggers_, std::max(now.winding_C, now.hottest_joint_C), rig_.parameters().ambient_C));
}

void Session::follow_wait(double waited_s) {
  follow_heat();
  set_triggers(after_wait(triggers_, std::max(waited_s, log_.minutes() * 60.0)));
}

// A hand on the very part that moves.
void Session::shake(std::string_view component) {
  const auto left = still_hidden(scenario_.faults, repairs_done_);
  const bool moves = std::any_of(left.begin(), left.end(), [&](const HiddenFault& hidden) {
    return hidden.when == When::vibration && fault_named(hidden.id)->component == component;
  });
  if (moves) set_triggers(after_disturbance(triggers_));
}

// What eye and hand find is there whether the fault sleeps or not: a slack clamp is slack while it happens to conduct.
RigParameters Session::awake() const {
  return with_triggers(rig_.parameters(), scenario_.healthy, still_hidden(scenario_.faults, repairs_done_),
                       {.hot = true, .shaken = true, .damp = true});
}

bool Session::faults_are_there() const {
  return std::all_of(scenario_.faults.begin(), scenario_.faults.end(),
                     [&](const HiddenFault& fault) { return holds(fault.when, triggers_); });
}

}  // namespace voltfall
