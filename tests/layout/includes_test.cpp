#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <string>
#include <vector>

// SFML, ImGui and Box2D all lie under /usr/include, so the compiler can't stop a stray include. This can.

namespace {

namespace fs = std::filesystem;

struct Include {
  fs::path file;
  int line;
  std::string header;

  std::string place() const { return file.string() + ":" + std::to_string(line) + " includes " + header; }
};

// The header a line includes; empty when it includes none.
std::string header_in(const std::string& line) {
  if (line.rfind("#include", 0) != 0) return {};
  const std::size_t open = line.find_first_of("<\"");
  const std::size_t close = line.find_first_of(">\"", open + 1);
  return open == std::string::npos || close == std::string::npos ? "" : line.substr(open + 1, close - open - 1);
}

std::vector<Include> includes_below(const char* folder) {
  std::vector<Include> found;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(fs::path(VOLTFALL_SOURCE_DIR) / folder)) {
    if (entry.path().extension() != ".h" && entry.path().extension() != ".cpp") continue;
    std::ifstream file(entry.path());
    std::string text;
    for (int line = 1; std::getline(file, text); ++line) {
      const std::string header = header_in(text);
      if (!header.empty()) found.push_back({fs::relative(entry.path(), VOLTFALL_SOURCE_DIR), line, header});
    }
  }
  return found;
}

bool starts_with(const std::string& text, const std::string& start) {
  return text.rfind(start, 0) == 0;
}

// A folder of sim/ may use those named here, and itself.
const std::map<std::string, std::set<std::string>> allowed{
    {"text", {}},
    {"work", {}},
    {"numbers", {}},
    {"decision", {}},
    {"electrical", {"numbers"}},
    {"mechanical", {"numbers"}},
    {"rig", {"electrical", "mechanical", "text"}},
    {"faults", {"rig"}},
    {"vehicles", {"rig"}},
    {"instruments", {"rig", "electrical"}},
    {"hearing", {"rig"}},
    {"recording", {"rig"}},
    {"sweep", {"rig", "work"}},
    {"bench", {"rig", "mechanical", "electrical", "faults", "hearing", "recording"}},
    {"sound", {"rig"}},
    {"walks", {"rig", "faults", "vehicles", "hearing", "scenario", "bench"}},
    {"scenario", {"rig", "hearing", "faults", "vehicles", "instruments", "text"}},
    {"job", {"rig", "mechanical", "faults", "instruments", "scenario", "text"}},
    {"limits", {"rig", "faults", "instruments", "scenario", "job", "numbers"}},
    {"diagnosis", {"rig", "hearing", "faults", "instruments", "scenario", "job", "limits", "decision", "work"}},
    {"scoring", {"rig", "faults", "instruments", "scenario", "job", "limits", "diagnosis", "decision"}},
    {"sealing", {"scenario"}},
    {"session",
     {"rig", "hearing", "faults", "instruments", "scenario", "job", "scoring", "diagnosis", "sealing", "text"}},
    {"vetting",
     {"rig", "hearing", "faults", "instruments", "scenario", "job", "limits", "diagnosis", "decision", "scoring"}},
    {"dealing", {"hearing", "faults", "scenario", "diagnosis", "vetting", "work"}},
    {"marking", {"session", "sealing", "diagnosis", "work"}},
};

TEST(Layout, SimKnowsNoScreen) {
  for (const Include& include : includes_below("sim")) {
    for (const char* screen : {"SFML/", "imgui", "GL/", "desktop/", "console/", "wording/"}) {
      EXPECT_FALSE(starts_with(include.header, screen)) << include.place();
    }
  }
}

TEST(Layout, SimKnowsNoClock) {
  for (const Include& include : includes_below("sim")) {
    for (const char* clock : {"chrono", "ctime", "time.h"}) EXPECT_NE(include.header, clock) << include.place();
    // Many separate simulations, the same whatever works on them; and a file's name that no two threads share.
    if (include.header != "thread") continue;
    EXPECT_TRUE(include.file == "sim/work/on_all_cores.h" || include.file == "sim/diagnosis/signature_table.cpp")
        << include.place();
  }
}

TEST(Layout, OnlyThePinionMeshKnowsBox2D) {
  int doors = 0;
  for (const Include& include : includes_below("sim")) {
    if (!starts_with(include.header, "box2d/")) continue;
    ++doors;
    EXPECT_EQ(include.file, fs::path("sim/mechanical/pinion_mesh.cpp")) << include.place();
  }
  EXPECT_EQ(doors, 1);
}

TEST(Layout, FoldersOfSimUseOnlyThoseBelowThem) {
  for (const Include& include : includes_below("sim")) {
    const std::string folder = std::next(include.file.begin())->string();
    const auto rule = allowed.find(folder);
    ASSERT_NE(rule, allowed.end()) << include.file << " lies in a folder this test does not know";
    const std::string target = include.header.substr(0, include.header.find('/'));
    if (include.header.find('/') == std::string::npos || allowed.count(target) == 0 || target == folder) continue;
    EXPECT_TRUE(rule->second.count(target) == 1) << include.place();
  }
}

TEST(Layout, OnlyTheDesktopKnowsTheWindow) {
  for (const Include& include : includes_below("ui")) {
    const bool window = starts_with(include.header, "SFML/") || starts_with(include.header, "imgui");
    EXPECT_TRUE(!window || starts_with(include.file.string(), "ui/desktop/")) << include.place();
  }
}

}  // namespace
