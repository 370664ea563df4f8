#pragma once

#include <filesystem>

namespace voltfall {

/// The start page in a window; with no display says so and plays the demonstration job in the terminal.
/// Returns the process's exit code.
int start_page();

/// A scenario in the Bay. An empty record path means one beside the user's other records.
int bay_on_screen(const std::filesystem::path& scenario, const std::filesystem::path& record);

/// A scenario on the Desk, beside its findings.
int desk_on_screen(const std::filesystem::path& scenario);

}  // namespace voltfall
