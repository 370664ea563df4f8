#pragma once

#include <filesystem>
#include <string_view>

namespace voltfall {

/// Where a new record goes when nobody says: the user's own data folder, `voltfall/records`, one file per attempt.
struct RecordPlace {
  std::filesystem::path path;
  int attempt;  ///< 1 for the first time this scenario is worked by this user
};

/// @param scenario_id  the scenario's id; the file is called after it and the attempt
RecordPlace next_record_place(std::string_view scenario_id);

/// `XDG_DATA_HOME/voltfall/records`, else under the home folder, else under the working folder.
std::filesystem::path records_folder();

}  // namespace voltfall
