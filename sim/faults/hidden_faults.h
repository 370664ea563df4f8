#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "faults/catalogue.h"

namespace voltfall {

/// When a hidden fault is there: all the time, or only while its trigger holds.
enum class When { always, hot, vibration, damp };

/// In the order of `When`, as scenario files write them.
std::span<const std::string_view> all_when_ids();

struct HiddenFault {
  std::string id;  ///< of the catalogue
  double severity;
  When when = When::always;

  bool operator==(const HiddenFault&) const = default;
};

/// What makes an intermittent fault come and go.
struct Triggers {
  bool hot = false;     ///< heat has soaked in
  bool shaken = false;  ///< what moves has been shaken apart
  bool damp = false;    ///< a damp morning that has not dried off

  bool operator==(const Triggers&) const = default;
};

bool holds(When when, const Triggers& now);

/// A vehicle as it comes in: cold and damp, what moves shaken apart by the drive that brought it or not, by seed.
Triggers triggers_on_arrival(std::uint64_t seed);

// How they change. All from memory, for engine bays and seasons in general; none depends on which faults there are, so
// that nothing can be told from them.

/// Heat: soaked once the hottest winding or joint has come to 60 °C above the air, gone when it is back within 8 K,
/// which takes a starter some quarter of an hour (trade.md A9: works again after 15 to 30 minutes).
Triggers after_heat(Triggers now, double hottest_C, double ambient_C);
/// Each wiggle or press of a part that moves undoes what the last did.
Triggers after_disturbance(Triggers now);
/// The engine's own shaking: with the `crank`th crank of the job (from 0) it is as likely as not to be apart.
Triggers after_crank(Triggers now, std::uint64_t seed, int crank);
/// An hour dries a morning's damp; so does a hot-air gun at once (`dried`).
Triggers after_wait(Triggers now, double wait_s);
Triggers dried(Triggers now);

/// `healthy` with those of the hidden faults that are there now.
RigParameters parameters_now(const RigParameters& healthy, std::span<const HiddenFault> faults, const Triggers& now);

/// A vehicle that has been cranked, damaged or repaired since: only the values that its intermittent faults change are
/// set, to healthy or faulty.
/// @param faults those that no repair has mended
RigParameters with_triggers(RigParameters vehicle, const RigParameters& healthy, std::span<const HiddenFault> faults,
                            const Triggers& now);

/// The hidden faults that none of these repairs mends. An intermittent fault that sleeps is not mended.
std::vector<HiddenFault> still_hidden(std::span<const HiddenFault> faults, std::span<const std::string> repairs_done);

}  // namespace voltfall
