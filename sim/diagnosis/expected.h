#pragma once

#include <optional>

#include "diagnosis/condition.h"
#include "scenario/scenario.h"

namespace voltfall {

/// What a competent person expects a sound vehicle to show, from the limits declared for it.
struct Expected {
  enum class Kind {
    drop,   ///< volts lost: at most `highest`, which holds at the loop currents given
    floor,  ///< volts left: at least `lowest`
    band    ///< a figure of its own: between the two
  } kind = Kind::band;
  double lowest = 0.0, highest = 0.0;  ///< 0: no such end
  double near = 0.0;                   ///< half the width round either end within which nobody can say
  double from_A = 0.0, to_A = 0.0;     ///< loop current the limit is meant for
};

/// Volts between two points in a state of the vehicle. Drops of legs add up along the path, and a declared limit of a
/// whole side caps the sum; from an insulated point to a grounded one the battery's own limit is what is left after the
/// drops on either side. Empty where nobody would expect a figure.
std::optional<Expected> expected_volts(TestPoint red, TestPoint black, Condition condition, const Scenario& scenario);

/// Ohms between two points with the battery off.
std::optional<Expected> expected_ohms(TestPoint red, TestPoint black, const Scenario& scenario);

/// The limit of that key as declared: for every reading that is not between two points.
Expected expected_by(std::string_view limit, const Scenario& scenario);

}  // namespace voltfall
