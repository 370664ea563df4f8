#pragma once

#include <iosfwd>

#include "session/session.h"

namespace voltfall {

/// Verdict, gates, points with reasons: one fact a line.
void print_score(std::ostream& out, const Session& session);

/// A finding as the terminal shows it, with its number.
void print_finding(std::ostream& out, const Finding& finding);

/// What the latest crank sounded and looked like.
void print_crank(std::ostream& out, const Session& session);

/// Meter, clamp, key, gear and safety as they stand.
void print_displays(std::ostream& out, const Session& session);
void print_vehicle(std::ostream& out, const Session& session);

/// Devices and instruments beyond meter and clamp: where they hang and what they show.
void print_kit(std::ostream& out, const Session& session);
/// The recorder's capture: what triggered it, peak and lowest of each channel, and twenty samples of each.
void print_trace(std::ostream& out, const Session& session);

void print_work_order(std::ostream& out, const Scenario& scenario);

/// Timeline of the work with its minutes and money.
void print_timeline(std::ostream& out, const Session& session);

}  // namespace voltfall
