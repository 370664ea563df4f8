#pragma once

#include <imgui.h>

#include <optional>
#include <string>
#include <string_view>

namespace voltfall {

/// What a piece of text is for; each role has one face and size.
enum class Type {
  body,           ///< 15 px
  body_bold,      ///< 15 px
  small,          ///< 13 px, the smallest on the sheet
  small_bold,     ///< 13 px
  heading,        ///< 18 px
  title,          ///< 28 px, the start page
  figures,        ///< 15 px, one width per digit
  figures_small,  ///< 13 px
  digits_clamp,   ///< 30 px
  digits_meter,   ///< 52 px
  callout,        ///< numbers in the discs
};

/// Puts every role into an empty atlas, in the order of `Type`. Returns what to tell the person when a font is not
/// installed (which file, which Debian package), else nothing.
std::optional<std::string> load_type(ImFontAtlas& atlas);

/// The role's font in the current ImGui context. Needs `load_type` on that context's atlas.
ImFont* font(Type type);

float line_height(Type type);
float text_width(Type type, std::string_view text);

}  // namespace voltfall
