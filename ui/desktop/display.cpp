#include "desktop/display.h"

#include <X11/Xlib.h>

#include <memory>

namespace voltfall {

bool has_display() {
  // SFML ends the program when it finds no X server, so ask first. The connection stays: a server whose only client
  // leaves begins anew, and would not be there when the window asks a moment later.
  static const std::unique_ptr<Display, int (*)(Display*)> asked(
      XOpenDisplay(nullptr), [](Display* display) { return display != nullptr ? XCloseDisplay(display) : 0; });
  return asked != nullptr;
}

}  // namespace voltfall
