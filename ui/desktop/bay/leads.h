#pragma once

#include "desktop/bay/place.h"
#include "desktop/bay_state.h"
#include "desktop/wishes.h"
#include "session/session.h"

namespace voltfall {

/// The meter's two leads on their way to a point, to the shelf or to the hand: drawn under the numbers, so that they
/// hide none.
void draw_lead_wires(const Session& session, const BayState& state, const Projection& projection);

/// The probes' grips and the clamp's jaw, over the numbers.
void draw_lead_grips(const Session& session, const BayState& state, const Projection& projection);

/// Picking up, carrying and landing by mouse. A lead dropped on a crowded place's metal opens its close-up.
void handle_leads(const Session& session, BayState& state, Wishes& wishes, const Projection& projection);

/// The heavy cable under a place of the screen.
std::optional<HeavyCable> cable_at(const Projection& projection, ImVec2 pixel);

/// Index of the crowded place whose metal is under a place of the screen.
std::optional<int> crowded_place_at(const Projection& projection, ImVec2 pixel);

}  // namespace voltfall
