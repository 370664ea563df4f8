#pragma once

#include <filesystem>
#include <string_view>

namespace voltfall {

/// `XDG_DATA_HOME/voltfall`, else under the home folder, else under the working folder.
std::filesystem::path data_folder();

/// The same for what may be thrown away at any time: `XDG_CACHE_HOME/voltfall`.
std::filesystem::path cache_folder();

/// A file of the user's own that is not there yet, for something saved from a screen: `saved/tape_3.csv` in the data
/// folder, which is made.
std::filesystem::path own_file(std::string_view stem, std::string_view ending);

}  // namespace voltfall
