#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "sealing/instructor_key.h"

namespace voltfall {

/// An instructor's word that the score and debrief of these sealed jobs may be seen. A file (`.vfrelease`) of JSON,
/// signed.
struct Release {
  InstructorName instructor;
  std::set<std::string> jobs;  ///< `Seal::job`
};

std::string release_text(const std::set<std::string>& jobs, const InstructorKey& key);

/// Empty when it is no release, or was changed.
std::optional<Release> release_in(std::string_view text);

}  // namespace voltfall
