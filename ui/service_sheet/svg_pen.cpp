#include "service_sheet/svg_pen.h"

#include <fmt/format.h>

#include <array>

namespace voltfall {
namespace {

std::string_view colour_of(Tone tone) {
  constexpr std::array<std::string_view, 4> colours{"#ffffff", "#1f2a32", "#58544a", "#8a4413"};
  return colours.at(static_cast<std::size_t>(tone));
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    if (c == '&') {
      safe += "&amp;";
    } else if (c == '<') {
      safe += "&lt;";
    } else if (c == '>') {
      safe += "&gt;";
    } else if (c == '"') {
      safe += "&quot;";
    } else {
      safe += c;
    }
  }
  return safe;
}

SvgPen::SvgPen(float width, float height)
    : svg_(fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:g} {:g}\" "
                       "font-family=\"Inter, Helvetica, Arial, sans-serif\" font-size=\"12\">\n",
                       width, height)) {}

void SvgPen::line(Spot from, Spot to, float width, Tone tone) {
  svg_ += fmt::format(
      "<line x1=\"{:g}\" y1=\"{:g}\" x2=\"{:g}\" y2=\"{:g}\" stroke=\"{}\" stroke-width=\"{:g}\" "
      "stroke-linecap=\"square\"/>\n",
      from.x, from.y, to.x, to.y, colour_of(tone), width);
}

void SvgPen::box(Spot corner, Spot size, Tone fill, float edge_width) {
  svg_ += fmt::format(
      "<rect x=\"{:g}\" y=\"{:g}\" width=\"{:g}\" height=\"{:g}\" fill=\"{}\" stroke=\"{}\" stroke-width=\"{:g}\"/>\n",
      corner.x, corner.y, size.x, size.y, colour_of(fill), colour_of(Tone::ink), edge_width);
}

void SvgPen::disc(Spot centre, float radius, Tone fill, float edge_width) {
  svg_ += fmt::format("<circle cx=\"{:g}\" cy=\"{:g}\" r=\"{:g}\" fill=\"{}\" stroke=\"{}\" stroke-width=\"{:g}\"/>\n",
                      centre.x, centre.y, radius, colour_of(fill), colour_of(Tone::ink), edge_width);
}

void SvgPen::words(Spot centre, std::string_view text, Tone tone, bool bold) {
  constexpr float baseline_below_middle = 4;
  svg_ +=
      fmt::format("<text x=\"{:g}\" y=\"{:g}\" fill=\"{}\" text-anchor=\"middle\"{}>{}</text>\n", centre.x,
                  centre.y + baseline_below_middle, colour_of(tone), bold ? " font-weight=\"600\"" : "", escaped(text));
}

std::string SvgPen::element() const {
  return svg_ + "</svg>\n";
}

}  // namespace voltfall
