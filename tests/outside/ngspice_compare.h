#pragma once

#include <string>
#include <vector>

#include "outside/ngspice_waves.h"

namespace voltfall {

/// The moments at which contacts moved, in the order of time, of both contacts together.
std::vector<Switching> switchings_of(const Waves& waves);

/// The smallest full scale worth comparing: a tenth of an ampere or of a millimetre, a millivolt, a revolution a
/// minute.
double least_full_scale(Signal signal);
/// Of a signal in the deck, but never less than that.
double full_scale(Signal signal, const Waves& deck);

/// The greatest difference between two waveforms of a signal, on the model's steps.
struct Difference {
  double worst = 0.0;  ///< over the full scale
  double at_s = 0.0;   ///< on the model's clock
  double model = 0.0, deck = 0.0;
  int samples = 0;
};

/// Compares on a common time base. A contact that moves makes a jump in some signals, and from there on all goes by the
/// time since the jump; so a stretch between two switchings is compared on the clock that starts with it, and the times
/// of the switchings are a comparison of their own.
/// - Samples closer than `jump_s`, a quarter of the model's step, to a switching of the model are left out: there the
///   deck's contact is half way.
/// - For `settling_s` after a switching a sample may be `off_s` off in time: arcs go out then, which are jumps that no
///   contact makes.
/// @param from_s,to_s the part of the run to look at, on the model's clock
Difference difference(Signal signal, const Waves& model, const Waves& deck, double from_s, double to_s, double off_s);

inline constexpr double jump_s = 5.0e-5, settling_s = 2.0e-3;  // the latter as long as a bounce

/// When the disc has done bouncing after the first closing, or the end of the run.
double first_bounces_end_s(const Waves& waves);

/// How the relay chatters: closings, each with the bounces that follow it within milliseconds, from the first to the
/// last.
struct Chatter {
  int closings = 0;
  double per_s = 0.0;
  double duty = 0.0;  ///< share of the time with metal shut
};
Chatter chatter_of(const Waves& waves);

}  // namespace voltfall
