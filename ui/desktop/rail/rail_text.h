#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "faults/limit_keys.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

// What the rail says, apart from how it is drawn.

/// `V dc`, `mV dc`, `Ω`, `kΩ`, by the function while there is no figure.
std::string unit_text(MeterFunction function, const MeterDisplay& display);

/// What stands under the unit: `lowest, cranking`; `settling`; `a lead is in the air`; empty for a live figure.
std::string held_text(const Session& session, const Wording& words);

/// A unit as it is printed: `Ω` for ohm, `°C` for degC.
std::string_view unit_word(std::string_view unit);

/// It has a figure of its own, not words alone.
bool has_figure(const Finding& finding);

/// `1–13`, `starter cable`, `cell 3`, or the observation's words.
std::string where_text(const Finding& finding, const Wording& words);

/// `12.61 V`
std::string figure_text(const Finding& finding);

/// `2 A`, `0.4 A`
std::string amps_text(double loop_A);

/// What is the matter and won't go away by itself, with the way out in the words: a blown fuse, a vehicle that moved, a
/// starter on the bench. Empty when nothing is.
struct SheetState {
  std::string_view words;
  bool danger = false;
  std::string_view key;          ///< on the key that mends it; empty when no one key does
  std::optional<Action> action;  ///< what that key does
};
std::optional<SheetState> sheet_state(const Session& session, const Wording& words);

/// The states of safety that hold now, in short: `eyes · brake · park · ignition off`; `nothing yet` when none does.
std::string made_safe_text(const Session& session);

/// `cable 0.20, relay 0.30, ground 0.30 V`
std::string limits_text(const Scenario& scenario);

/// A limit's figures with the current they are meant for: `at most 0.20 V, 80 to 400 A`.
std::string limit_text(const LimitKey& key, const Limit& limit);

}  // namespace voltfall
