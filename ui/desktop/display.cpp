#include "desktop/display.h"

#include <X11/Xlib.h>

namespace voltfall {

bool has_display() {
  // SFML ends the program when it finds no X server, so ask first.
  Display* display = XOpenDisplay(nullptr);
  if (display == nullptr) return false;
  XCloseDisplay(display);
  return true;
}

}  // namespace voltfall
