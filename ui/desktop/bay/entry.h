#pragma once

#include <vector>

#include "desktop/bay_state.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

/// Points meant by what was typed: a number, or names holding every word of it, best first.
std::vector<TestPoint> points_meant(const Wording& words, std::string_view typed);
std::vector<HeavyCable> cables_meant(const Wording& words, std::string_view typed);

/// The open entry line: takes letters, completes, lands the lead or jaw on Enter; arrows walk the lead.
void handle_entry(const Session& session, const Wording& words, BayState& state, Wishes& wishes);

/// The instrument in hand at a point: a device's first end, then its last; the thermometer's aim; a recorder channel's
/// red, then its black. Closes the entry line when nothing more is to be chosen.
void land_on(BayState& state, Wishes& wishes, TestPoint point);

/// An instrument of the kit waits for its points: they may be clicked as well as typed.
bool aiming_kit(const BayState& state);
/// What is being put somewhere, and which end of it.
std::string entry_subject(const Wording& words, const BayState& state);

/// `red +  4  relay, battery stud`: what the line shows, and what Enter would do.
std::string entry_text(const Wording& words, const BayState& state);

/// Moves a lead to the next or previous numbered point; from the air, to the first or last.
void walk_lead(const Session& session, BayState& state, Wishes& wishes, Pick lead, int direction);

}  // namespace voltfall
