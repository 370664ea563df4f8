#include "console/scenario_files.h"

#include <algorithm>

namespace voltfall {

namespace fs = std::filesystem;

std::vector<fs::path> scenario_files(const std::vector<fs::path>& given, std::vector<Problem>& problems) {
  std::vector<fs::path> files;
  for (const fs::path& path : given) {
    std::error_code failed;
    if (!fs::is_directory(path, failed)) {
      files.push_back(path);
      continue;
    }
    std::vector<fs::path> inside;
    for (const auto& entry : fs::directory_iterator(path, failed)) {
      if (entry.path().extension() == ".toml") inside.push_back(entry.path());
    }
    if (inside.empty()) problems.push_back({path.string(), 0, 0, "holds no scenario (.toml); allowed: one that does"});
    std::sort(inside.begin(), inside.end());
    files.insert(files.end(), inside.begin(), inside.end());
  }
  return files;
}

}  // namespace voltfall
