#include "desktop/desktop.h"

#include <fmt/format.h>

#include <cstdio>

#include "console/commands.h"
#include "console/key_file.h"
#include "desktop/app_window.h"
#include "desktop/bench/bench_screen.h"
#include "desktop/desk/desk_screen.h"
#include "desktop/display.h"
#include "desktop/start/start_page.h"
#include "sealing/sealed_job.h"

namespace voltfall {
namespace {

int show(std::unique_ptr<Screen> screen, AppWindow& window) {
  if (const auto problem = window.problem()) {
    fmt::print(stderr, "voltfall: {}\n", *problem);
    return 1;
  }
  return window.run(std::move(screen));
}

}  // namespace

int start_page() {
  if (!has_display()) {
    fmt::print(stderr, "voltfall: there is no display to open a window on; playing the demonstration job here.\n");
    return demonstration_command();
  }
  AppWindow window;
  return show(std::make_unique<StartPage>(english()), window);
}

int bay_on_screen(const std::filesystem::path& scenario, const std::filesystem::path& record) {
  if (!has_display()) {
    fmt::print(
        stderr,
        "voltfall: there is no display to open a window on. The same job in the terminal: voltfall bay {} --text\n",
        scenario.string());
    return 1;
  }
  OpenedJob opened = open_job(scenario, record);
  if (!opened.session) {
    for (const Problem& problem : opened.problems) fmt::print(stderr, "{}\n", problem.text());
    return 2;
  }
  AppWindow window;
  return show(bay_for(std::move(opened), english()), window);
}

int bench_on_screen(const std::filesystem::path& scenario, const std::filesystem::path& key) {
  if (!has_display()) {
    fmt::print(stderr,
               "voltfall: there is no display to open a window on. One crank in the terminal: voltfall crank {}\n",
               scenario.empty() ? "--set PATH=VALUE" : scenario.string());
    return 1;
  }
  BenchSubject subject = subject_of(all_vehicle_types().front());
  if (!scenario.empty()) {
    const ReadScenario read = read_job_to_show(scenario, key);
    if (!read.scenario) return explain(read.problems);
    subject = subject_of(*read.scenario);
  }
  AppWindow window;
  const auto start = [] { return std::make_unique<StartPage>(english()); };
  return show(std::make_unique<BenchScreen>(std::move(subject), english(), start), window);
}

int desk_on_screen(const std::filesystem::path& scenario) {
  if (!has_display()) {
    fmt::print(stderr, "voltfall: there is no display to open a window on. The same in the terminal: voltfall vet {}\n",
               scenario.string());
    return 1;
  }
  const ReadText read = read_small_file(scenario, std::size_t{1} << 20U, "a scenario file (.toml)");
  if (read.problem || is_sealed_job(read.text)) {
    const std::string problem =
        read.problem ? read.problem->text() : scenario.string() + ": is a sealed job; allowed: the scenario itself";
    fmt::print(stderr, "{}\n", problem);
    return 2;
  }
  AppWindow window;
  const auto start = [] { return std::make_unique<StartPage>(english()); };
  return show(std::make_unique<DeskScreen>(scenario, english(), start), window);
}

}  // namespace voltfall
