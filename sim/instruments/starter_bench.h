#pragma once

#include <optional>
#include <string_view>

#include "instruments/multimeter.h"
#include "rig/rig.h"

namespace voltfall {

enum class BenchTest { no_load, hold_in, clutch_torque, brush_length };
/// The id used in records and wording.
std::string_view id_of(BenchTest test);
std::optional<BenchTest> bench_test_named(std::string_view id);

/// What a test of the starter on the bench shows:
/// - no_load: amperes on a stiff 12 V with nothing on the pinion, and revolutions a minute
/// - hold_in: ohms from terminal to case with the grounding contacts papered and the insulated brushes lifted
/// - clutch_torque: newton metres at which the pinion lets go the driving way, and what it takes the free way
/// - brush_length: millimetres of the shortest brush
struct BenchResult {
  MeterDisplay shown, also_shown;
};

/// @param step_s  of the no-load run; a longer one is near enough to foretell what the bench will show
BenchResult bench_result(BenchTest test, const RigParameters& parameters, double step_s = Rig::step_s);

}  // namespace voltfall
