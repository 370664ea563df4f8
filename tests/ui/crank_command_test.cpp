#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

// The program as a person or a script meets it: arguments in, text and exit code out.

namespace voltfall {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;
using Json = nlohmann::json;

struct Ran {
  int exit_code;
  std::string printed;
};

Ran run(const std::string& arguments) {
  std::FILE* pipe = popen(("'" VOLTFALL_PROGRAM "' crank " + arguments).c_str(), "r");
  if (pipe == nullptr) return {-1, {}};
  std::string printed;
  char piece[4096];
  std::size_t got = 0;
  while ((got = std::fread(piece, 1, sizeof piece, pipe)) > 0) printed.append(piece, got);
  const int status = pclose(pipe);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, printed};
}

// Only what went to standard error.
Ran run_for_errors(const std::string& arguments) {
  return run(arguments + " 2>&1 >/dev/null");
}

std::filesystem::path scratch_file(const std::string& name) {
  return std::filesystem::temp_directory_path() / (std::to_string(getpid()) + "_" + name);
}

std::string text_of(const std::filesystem::path& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

TEST(CrankCommand, GivesTheWholeResultAsJson) {
  const Ran ran = run("--json - --crank-angle 100 --tooth-phase 0.4");
  ASSERT_EQ(ran.exit_code, 0);
  const Json json = Json::parse(ran.printed);
  const Json& settled = json.at("settled");
  EXPECT_EQ(settled.at("state"), "cranking");
  for (const char* key : {"battery_posts_V", "starter_V", "loop_A", "crank_rpm", "motor_rpm", "shaft_Nm"}) {
    EXPECT_GT(settled.at(key).get<double>(), 0.0) << key;
  }
  EXPECT_TRUE(settled.at("converged").get<bool>());
  EXPECT_GT(settled.at("window_s").get<double>(), 0.0);
  EXPECT_GT(json.at("peak").at("loop_A").get<double>(), settled.at("loop_A").get<double>());
  EXPECT_LT(json.at("minimum").at("battery_posts_V").get<double>(), settled.at("battery_posts_V").get<double>());
  EXPECT_TRUE(json.at("engaged").get<bool>() && json.at("shoe_seated").get<bool>() && json.at("meshed").get<bool>());
  EXPECT_GT(json.at("engaged_at_s").get<double>(), 0.0);
  EXPECT_EQ(json.at("relay_closings"), 1);
  EXPECT_EQ(json.at("crank_angle_deg"), 100.0);
  EXPECT_EQ(json.at("tooth_phase"), 0.4);
  EXPECT_LE(json.at("kirchhoff_residual").get<double>(), 1.0e-9);
  EXPECT_LE(std::abs(json.at("energy_closure").get<double>()), 1.0e-3);
}

TEST(CrankCommand, GivesEveryTestPointAndEvent) {
  const Json json = Json::parse(run("--json - --for 1").printed);
  EXPECT_EQ(json.at("points").size(), 30U);
  for (const auto& [name, volts] : json.at("points").items()) {
    EXPECT_LE(volts.at("min").get<double>(), volts.at("max").get<double>()) << name;
  }
  EXPECT_EQ(json.at("points").at("negative_post").at("mean"), 0.0);
  ASSERT_FALSE(json.at("events").empty());
  EXPECT_TRUE(json.at("events")[0].contains("time_s"));
  EXPECT_EQ(json.at("events")[0].at("name"), "relay_closed");
}

TEST(CrankCommand, SaysNullWhereThereIsNothing) {
  const Json never = Json::parse(run("--json - --for 1 --set joints.mounting_face.added_ohm=0.05").printed);
  EXPECT_TRUE(never.at("engaged_at_s").is_null());
  EXPECT_FALSE(never.at("engaged").get<bool>());
  EXPECT_EQ(never.at("settled").at("crank_rpm"), 0.0);
  const Json bench = Json::parse(run("--json - --for 1 --load free --supply 12").printed);
  EXPECT_TRUE(bench.at("settled").at("crank_rpm").is_null());
  EXPECT_EQ(bench.at("settled").at("state"), "free_spin");
}

TEST(CrankCommand, BrakesTheMotorAsAsked) {
  const Json json = Json::parse(run("--json - --for 2 --load torque=5").printed);
  EXPECT_NEAR(json.at("settled").at("shaft_Nm").get<double>(), 5.0, 0.05);
}

TEST(CrankCommand, TakesAScenariosVehicleWithItsFault) {
  const Ran ran = run("'" VOLTFALL_SOURCE_DIR "/scenarios/clicks_in_the_morning.toml' --json - --for 1");
  ASSERT_EQ(ran.exit_code, 0);
  const Json points = Json::parse(ran.printed).at("points");
  EXPECT_GT(points.at("battery_positive_post").at("mean").get<double>() -
                points.at("positive_clamp").at("mean").get<double>(),
            0.3);
}

TEST(CrankCommand, ListsEveryPathWithUnitRangeAndDefault) {
  const Ran ran = run("--list");
  ASSERT_EQ(ran.exit_code, 0);
  for (const char* words : {"path", "unit", "lowest", "highest", "default", "ambient_C", "battery.charge",
                            "joints.positive_clamp.added_ohm", "cables.negative.length_m"}) {
    EXPECT_THAT(ran.printed, HasSubstr(words));
  }
}

TEST(CrankCommand, NamesTheNearestPath) {
  const Ran ran = run_for_errors("--set batery.charge=0.5");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.printed, HasSubstr("batery.charge"));
  EXPECT_THAT(ran.printed, HasSubstr("nearest is `battery.charge`"));
}

// All that is wrong at once: a value out of range with what is allowed, a word for a number, an unknown load.
TEST(CrankCommand, TellsEverythingThatIsWrong) {
  const Ran ran = run_for_errors("--set battery.charge=1.5 --set ambient_C=warm --load heavy --for -1 --tooth-phase 2");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.printed, HasSubstr("battery.charge=1.5"));
  EXPECT_THAT(ran.printed, HasSubstr("0 to 1"));
  EXPECT_THAT(ran.printed, HasSubstr("ambient_C=warm"));
  EXPECT_THAT(ran.printed, HasSubstr("--load heavy"));
  EXPECT_THAT(ran.printed, HasSubstr("--for"));
  EXPECT_THAT(ran.printed, HasSubstr("--tooth-phase"));
}

TEST(CrankCommand, RefusesAScenarioThatIsNotThere) {
  const Ran ran = run_for_errors("no_such_scenario.toml");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.printed, HasSubstr("no_such_scenario.toml"));
}

TEST(CrankCommand, WritesTheSignalsAsCsv) {
  const std::filesystem::path csv = scratch_file("signals.csv");
  ASSERT_EQ(run("--for 0.5 --csv '" + csv.string() + "'").exit_code, 0);
  std::istringstream lines(text_of(csv));
  std::string header, line;
  std::getline(lines, header);
  EXPECT_THAT(header, StartsWith("time_s,loop_A,crank_rpm"));
  const auto columns = std::count(header.begin(), header.end(), ',');
  int rows = 0;
  while (std::getline(lines, line)) {
    ++rows;
    EXPECT_EQ(std::count(line.begin(), line.end(), ','), columns);
  }
  EXPECT_NEAR(rows, 500, 2);  // a line every millisecond
  std::filesystem::remove(csv);
}

TEST(CrankCommand, WritesJsonToAFile) {
  const std::filesystem::path file = scratch_file("result.json");
  ASSERT_EQ(run("--for 0.5 --json '" + file.string() + "'").exit_code, 0);
  EXPECT_TRUE(Json::parse(text_of(file)).contains("settled"));
  std::filesystem::remove(file);
  EXPECT_NE(run("--for 0.5 --json /no/such/folder/result.json 2>/dev/null").exit_code, 0);
}

TEST(CrankCommand, RepeatsItselfToTheLastDigit) {
  EXPECT_EQ(run("--for 0.6 --json -").printed, run("--for 0.6 --json -").printed);
}

TEST(CrankCommand, PrintsAShortSummary) {
  const Ran ran = run("--for 1");
  EXPECT_EQ(ran.exit_code, 0);
  for (const char* words : {"cranking", "battery posts", "starter", "loop", "crank", "relay closed   1 times"}) {
    EXPECT_THAT(ran.printed, HasSubstr(words));
  }
}

}  // namespace
}  // namespace voltfall
