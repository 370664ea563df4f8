#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "scenario/read_scenario.h"
#include "sealing/instructor_key.h"
#include "sealing/release.h"

namespace voltfall {

// A sealed job (`.vfjob`) is JSON: the code it was dealt under, the instructor's name, and the scenario twice, sealed
// to the instructor and to the program. The instructor has signed the whole. What is sealed is padded to full pages, so
// that its length does not tell a short fault from a long one, and salted, so that nobody finds the answer by hashing
// likely scenarios.

/// 1 to 40 letters, digits and hyphens: also part of file names.
bool is_pupil_code(std::string_view code);

/// @param scenario_id  what the scenario is called before it is opened: also part of what a learner sees
/// @param code         what stands for the pupil
/// @throws std::invalid_argument for another code
std::string sealed_job_text(std::string_view scenario_id, std::string_view scenario_text, std::string_view code,
                            const InstructorKey& key);

/// Whether this is meant to be a sealed job, whole or not.
bool is_sealed_job(std::string_view text);

/// Opens a sealed job's text; `name` stands in messages. `Scenario::seal` is set. Never throws for a bad file.
using SealOpener = std::function<ReadScenario(std::string_view text, std::string_view name)>;

/// By the program, to be worked: the score stays closed.
SealOpener by_program();
/// By the program, the score open for what one of these releases covers.
SealOpener by_releases(std::vector<Release> releases);
/// By nobody: for a command that shows what is in a job and was given no key.
SealOpener by_no_key();
/// By the instructor: everything may be seen. One sealed with another key is a problem.
SealOpener by_key(InstructorKey key);

/// A job from a file, sealed or not.
ReadScenario read_job(const std::filesystem::path& file, const SealOpener& opener);

}  // namespace voltfall
