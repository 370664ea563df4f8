#pragma once

#include "diagnosis/question.h"

namespace voltfall::vetting {

/// What the instrument that answers this question may be out by at `figure`, in the unit of the question's limit; 0 for
/// one that has no figure. Of the usual handheld instruments of the trade: common practice for the meter's volts
/// (half a per cent and two counts of a 6000-count display), from memory for the rest.
double accuracy_of(const Question& question, double figure);

}  // namespace voltfall::vetting
