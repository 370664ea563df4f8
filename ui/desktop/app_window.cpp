#include "desktop/app_window.h"

#include <GL/gl.h>

#include <SFML/System/Clock.hpp>
#include <SFML/System/Sleep.hpp>
#include <algorithm>
#include <cstdlib>
#include <utility>

#include "desktop/layout.h"

namespace voltfall {
namespace {

constexpr unsigned frames_per_s = 60;

/// As large as the screen allows, at most 1600 x 1000 and at least the smallest sheet.
sf::VideoMode mode_for_screen() {
  const sf::VideoMode desktop = sf::VideoMode::getDesktopMode();
  return {std::clamp(desktop.width, static_cast<unsigned>(smallest_width), 1600U),
          std::clamp(desktop.height, static_cast<unsigned>(smallest_height), 1000U)};
}

}  // namespace

AppWindow::AppWindow() {
  sf::ContextSettings settings;
  settings.majorVersion = 3;
  settings.minorVersion = 0;
  const sf::VideoMode mode = mode_for_screen(), desktop = sf::VideoMode::getDesktopMode();
  window_.create(mode, "Voltfall", sf::Style::Default, settings);
  // SFML 2.5 takes the screen's width for its height here when it centres a window by itself.
  window_.setPosition({static_cast<int>(desktop.width - std::min(desktop.width, mode.width)) / 2,
                       static_cast<int>(desktop.height - std::min(desktop.height, mode.height)) / 2});
  window_.setFramerateLimit(frames_per_s);
  window_.setKeyRepeatEnabled(true);
  if (window_.isOpen()) imgui_.emplace(window_);
  if (const char* file = std::getenv("VOLTFALL_FRAME_TIMES")) frame_times_.open(file);
}

std::optional<std::string> AppWindow::problem() const {
  if (!imgui_) return "no window can be opened on this display";
  return imgui_->problem();
}

bool AppWindow::take_events(Screen& screen) {
  bool any = false;
  sf::Event event{};
  while (window_.pollEvent(event)) {
    any = true;
    if (event.type == sf::Event::Closed) screen.next.emplace(nullptr);
    if (event.type == sf::Event::LostFocus) screen.let_go();
    imgui_->take(event);
  }
  return any;
}

void AppWindow::draw_frame(Screen& screen, double frame_s) {
  const sf::Clock spent;
  imgui_->begin_frame(frame_s);
  screen.frame(frame_s, ImGui::GetIO().DisplaySize);
  imgui_->end_frame();
  if (const auto wanted = std::exchange(screen.picture_wanted, std::nullopt)) {
    screen.saved(*wanted, imgui_->save_picture(wanted->zone, wanted->file));
  }
  if (!frame_times_.is_open()) return;
  glFinish();  // the picture is drawn when this returns, not only asked for
  frame_times_ << spent.getElapsedTime().asSeconds() * 1000.0F << std::endl;
}

int AppWindow::run(std::unique_ptr<Screen> screen) {
  sf::Clock wall, since_touched;
  while (screen) {
    if (take_events(*screen)) since_touched.restart();
    // A sheet on which nothing moves and nobody does anything need not cost a processor's whole time: it is drawn a few
    // times a second, and looks for what somebody does far more often.
    constexpr int naps = 12;
    const bool nobody = screen->is_still() && since_touched.getElapsedTime() > sf::seconds(1.0F);
    for (int nap = 0; nobody && nap < naps; ++nap) {
      sf::sleep(sf::milliseconds(20));
      if (!take_events(*screen)) continue;
      since_touched.restart();
      break;
    }
    const double frame_s = std::max(1.0e-4, static_cast<double>(wall.restart().asSeconds()));
    draw_frame(*screen, frame_s);
    window_.display();
    if (screen->next) {
      std::unique_ptr<Screen> next = std::move(*screen->next);
      screen = std::move(next);
    }
  }
  return 0;
}

}  // namespace voltfall
