#pragma once

#include <filesystem>

namespace voltfall {

/// `XDG_DATA_HOME/voltfall`, else under the home folder, else under the working folder.
std::filesystem::path data_folder();

/// The same for what may be thrown away at any time: `XDG_CACHE_HOME/voltfall`.
std::filesystem::path cache_folder();

}  // namespace voltfall
