#include "desktop/desktop.h"

#include <fmt/format.h>

#include <cstdio>

#include "console/commands.h"
#include "desktop/app_window.h"
#include "desktop/display.h"
#include "desktop/start/start_page.h"

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

}  // namespace voltfall
