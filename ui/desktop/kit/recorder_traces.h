#pragma once

#include <optional>
#include <string>

#include "desktop/kit/recorder_view.h"
#include "desktop/style/hands.h"
#include "instruments/recorder.h"

namespace voltfall {

/// The stretch of a capture that is shown, with both traces, the trigger and the cursors; cursors are dragged here.
void draw_recorder_traces(const Capture& capture, RecorderView& view, const Hands& hands, const Rect& place);

/// What a channel held at a cursor, in V or A; empty for an open channel.
std::optional<double> value_at(const Capture& capture, int channel, double share);
/// Seconds from the trigger to a place of the capture.
double time_at(const Capture& capture, double share);

/// Halves or doubles the shown stretch about the chosen cursor, within the capture.
void zoom(RecorderView& view, bool in);

}  // namespace voltfall
