#include <charconv>
#include <cmath>

#include "job/findings.h"

// What a record says a display showed, put in place of what a replay made of it.

namespace voltfall {
namespace {

std::string_view base_unit(const MeterDisplay& display) {
  if (display.unit == "mV") return "V";
  if (display.unit == "kohm" || display.unit == "Mohm") return "ohm";
  return display.unit;
}

/// The last digit's worth, in the base unit.
double count_of(const MeterDisplay& display) {
  MeterDisplay one = display;
  one.value = std::pow(10.0, -display.decimals);
  return one.base_value();
}

/// `11.02 V` as a display; empty for anything that is no figure.
std::optional<MeterDisplay> figure_in(std::string_view words) {
  MeterDisplay display;
  display.kind = MeterDisplay::Kind::value;
  const std::size_t space = words.find(' ');
  const std::string_view number = words.substr(0, space);
  if (space != std::string_view::npos) display.unit = words.substr(space + 1);
  const auto [end, failed] = std::from_chars(number.data(), number.data() + number.size(), display.value);
  if (failed != std::errc() || end != number.data() + number.size() || !std::isfinite(display.value)) {
    return std::nullopt;
  }
  const std::size_t point = number.find('.');
  display.decimals = point == std::string_view::npos ? 0 : static_cast<int>(number.size() - point - 1);
  return display;
}

/// What is to stand in place of `own`, and how many counts away it is.
struct Taken {
  MeterDisplay display;
  double counts = 0.0;
};
std::optional<Taken> taken(const MeterDisplay& own, std::string_view words) {
  if (own.text_with_unit() == words) return Taken{own, 0.0};
  const std::optional<MeterDisplay> recorded = figure_in(words);
  if (!recorded || own.kind != MeterDisplay::Kind::value || base_unit(own) != base_unit(*recorded)) return std::nullopt;
  const double off = std::abs(recorded->base_value() - own.base_value());
  return Taken{*recorded, off / std::max(count_of(own), count_of(*recorded))};
}

}  // namespace

std::optional<double> set_displayed(Finding& finding, std::string_view words) {
  if (shown_words(finding) == words) return 0.0;
  constexpr std::string_view between = " / ";
  const std::size_t second = words.find(between);
  const bool two = second != std::string_view::npos;
  if (two != (finding.also_shown.kind != MeterDisplay::Kind::no_lead)) return std::nullopt;
  const std::optional<Taken> first = taken(finding.shown, words.substr(0, second));
  const std::optional<Taken> other =
      two ? taken(finding.also_shown, words.substr(second + between.size())) : Taken{finding.also_shown, 0.0};
  if (!first || !other) return std::nullopt;
  finding.shown = first->display;
  finding.also_shown = other->display;
  return std::max(first->counts, other->counts);
}

}  // namespace voltfall
