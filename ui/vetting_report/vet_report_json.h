#pragma once

#include <span>
#include <string>

#include "vetting/vet.h"

namespace voltfall {

/// What vetting found, for machines: an array of objects, ids throughout, figures in the units their names end in.
std::string vet_reports_as_json(std::span<const VetReport> reports);

}  // namespace voltfall
