#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "sealing/sealed_job.h"

namespace voltfall {

struct ReadKey {
  std::optional<InstructorKey> key;
  std::vector<Problem> problems;  ///< why there is none
};
ReadKey read_key(const std::filesystem::path& file);

/// Opens jobs sealed with the key in that file, an empty path standing for no key; empty, with the reason on standard
/// error, when the file can't be used.
SealOpener opener_with(const std::filesystem::path& key);

/// A job whose contents are shown: one that is sealed only with its key, an empty path standing for none.
ReadScenario read_job_to_show(const std::filesystem::path& file, const std::filesystem::path& key);

/// Problems to standard error; the exit code for what can't be read.
int explain(const std::vector<Problem>& problems);

}  // namespace voltfall
