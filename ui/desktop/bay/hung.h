#pragma once

#include "desktop/bay/place.h"
#include "desktop/bay_state.h"
#include "session/session.h"

namespace voltfall {

/// Everything of the kit that is on the vehicle: leads from point to point with the device between, the recorder's
/// clips, the thermometer's beam. Leads go under the numbers, devices over them.
void draw_hung_leads(const Session& session, const BayState& state, const Projection& projection);
void draw_hung_devices(const Session& session, const BayState& state, const Projection& projection);

/// The hung device under a place of the screen: a click takes it in hand.
std::optional<Device> hung_under(const Session& session, const Projection& projection, ImVec2 pixel);

}  // namespace voltfall
