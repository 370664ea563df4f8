#pragma once

#include <filesystem>

namespace voltfall {

/// The start page in a window; with no display says so and plays the demonstration job in the terminal.
/// Returns the process's exit code.
int start_page();

/// A scenario in the Bay. An empty record path means one beside the user's other records.
int bay_on_screen(const std::filesystem::path& scenario, const std::filesystem::path& record);

/// The open bench, with the scenario's vehicle in health; an empty path is a vehicle of the first type.
/// @param key  the instructor's, for a sealed job; empty: none
int bench_on_screen(const std::filesystem::path& scenario, const std::filesystem::path& key);

/// A scenario on the Desk, beside its findings.
int desk_on_screen(const std::filesystem::path& scenario);

}  // namespace voltfall
