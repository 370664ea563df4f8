#include "console/given_files.h"

#include <fmt/format.h>

#include <algorithm>

namespace voltfall {
namespace {

namespace fs = std::filesystem;

/// A folder that can't be read ends the list: what was in it is missed, and never the program ended by it.
template <typename Walk>
std::vector<fs::path> found_by(Walk at, std::string_view extension) {
  std::vector<fs::path> found;
  std::error_code failed;
  for (; at != Walk(); at.increment(failed)) {
    if (at->path().extension() == extension) found.push_back(at->path());
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace

std::vector<fs::path> given_files(const std::vector<fs::path>& given, std::string_view extension, Depth depth,
                                  std::vector<Problem>& problems) {
  std::vector<fs::path> files;
  for (const fs::path& path : given) {
    std::error_code failed;
    if (!fs::is_directory(path, failed)) {
      files.push_back(path);
      continue;
    }
    const auto found = depth == Depth::all_below ? found_by(fs::recursive_directory_iterator(path, failed), extension)
                                                 : found_by(fs::directory_iterator(path, failed), extension);
    if (found.empty()) {
      problems.push_back(
          {path.string(), 0, 0, fmt::format("holds no {0} file; allowed: a folder that does", extension)});
    }
    files.insert(files.end(), found.begin(), found.end());
  }
  return files;
}

}  // namespace voltfall
