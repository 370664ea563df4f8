#pragma once

#include "tally/tally_contents.h"

namespace voltfall {

/// Adds what one closed job tells of a concept.
void tally_concepts(const Session& session, std::array<Tallied, concept_count>& concepts);

}  // namespace voltfall
