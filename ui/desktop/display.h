#pragma once

namespace voltfall {

/// True when there is a display that a window can be opened on.
bool has_display();

}  // namespace voltfall
