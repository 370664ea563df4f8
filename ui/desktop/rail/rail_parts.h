#pragma once

#include "desktop/bay_state.h"
#include "desktop/style/rect.h"
#include "desktop/wishes.h"
#include "session/session.h"
#include "wording/wording.h"

namespace voltfall {

// The rail's pieces, top to bottom. Each draws into its place and writes down what the person wishes.

inline constexpr float meter_height = 156, clamp_height = 44;

void draw_meter(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);
void draw_clamp(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);

void draw_work_order(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);
void draw_findings(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);
void draw_suspects(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place);

/// One finding on one line: number, where, state, figure, amperes; or what was heard or seen.
void draw_finding(const Finding& finding, const Wording& words, const Rect& row);

}  // namespace voltfall
