#include "desktop/style/type.h"

#include <array>
#include <filesystem>

namespace voltfall {
namespace {

struct Face {
  const char* path;
  const char* package;
};

constexpr Face inter{"/usr/share/fonts/opentype/inter/Inter-Regular.otf", "fonts-inter"};
constexpr Face inter_bold{"/usr/share/fonts/opentype/inter/Inter-SemiBold.otf", "fonts-inter"};
constexpr Face mono{"/usr/share/fonts/opentype/b612/B612Mono-Regular.otf", "fonts-b612"};
constexpr Face b612_bold{"/usr/share/fonts/opentype/b612/B612-Bold.otf", "fonts-b612"};

struct Role {
  Face face;
  float pixels;
};

// ImGui scales a font by ascent less descent, so the size asked for is larger than the em: these figures give a
// 15 px em for body and 13 px for small (Inter's line is 1.21 em, B612's 1.29 em).
constexpr std::array<Role, 11> roles{{{inter, 18.2F},
                                      {inter_bold, 18.2F},
                                      {inter, 15.8F},
                                      {inter_bold, 15.8F},
                                      {inter_bold, 22.0F},
                                      {inter_bold, 34.0F},
                                      {mono, 19.3F},
                                      {mono, 16.8F},
                                      {mono, 38.0F},
                                      {mono, 66.0F},
                                      {b612_bold, 15.5F}}};

// Latin with accents, Greek (Ω, µ), dashes and quotes, bullet, ellipsis, arrows, minus and nearly-equal, tick.
constexpr std::array<ImWchar, 17> glyphs{0x0020, 0x00FF, 0x0391, 0x03C9, 0x2010, 0x2027, 0x2126, 0x2126, 0x2190,
                                         0x2193, 0x2212, 0x2212, 0x2248, 0x2265, 0x2713, 0x2713, 0};

}  // namespace

std::optional<std::string> load_type(ImFontAtlas& atlas) {
  for (const Role& role : roles) {
    if (!std::filesystem::exists(role.face.path)) {
      return std::string("The font ") + role.face.path + " is missing. On Debian: apt-get install " + role.face.package;
    }
    ImFontConfig config;
    config.OversampleH = 2;
    config.OversampleV = 2;
    config.GlyphRanges = glyphs.data();
    if (atlas.AddFontFromFileTTF(role.face.path, role.pixels, &config) == nullptr) {
      return std::string("The font ") + role.face.path + " can't be read. Reinstall the package " + role.face.package;
    }
  }
  return std::nullopt;
}

ImFont* font(Type type) {
  return ImGui::GetIO().Fonts->Fonts[static_cast<int>(type)];
}

float line_height(Type type) {
  return font(type)->FontSize;
}

float text_width(Type type, std::string_view text) {
  const ImFont* face = font(type);
  return face->CalcTextSizeA(face->FontSize, 1.0e9F, 0.0F, text.data(), text.data() + text.size()).x;
}

}  // namespace voltfall
