#include "desktop/bay/entry.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <sstream>

namespace voltfall {
namespace {

std::string lower(std::string_view text) {
  std::string made(text);
  std::transform(made.begin(), made.end(), made.begin(), [](unsigned char c) { return std::tolower(c); });
  return made;
}

/// Every word of `typed` begins a word of `name`.
bool meant_by(std::string_view typed, std::string_view name) {
  std::istringstream wanted(lower(typed));
  const std::string whole = " " + lower(name);
  for (std::string word; wanted >> word;) {
    if (whole.find(" " + word) == std::string::npos) return false;
  }
  return true;
}

std::optional<int> number_in(std::string_view typed) {
  int number = 0;
  const auto [end, error] = std::from_chars(typed.data(), typed.data() + typed.size(), number);
  if (error != std::errc{} || end != typed.data() + typed.size()) return std::nullopt;
  return number;
}

bool key_pressed(ImGuiKey key) {
  return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key), true);
}

void take_letters(std::string& typed) {
  for (const ImWchar letter : ImGui::GetIO().InputQueueCharacters) {
    if (letter < 128 && (std::isalnum(letter) != 0 || letter == ' ' || letter == '-')) {
      typed += static_cast<char>(letter);
    }
  }
  if (key_pressed(ImGuiKey_Backspace) && !typed.empty()) typed.pop_back();
}

void close_entry(BayState& state) {
  state.typed = Pick::nothing;
  state.typed_words.clear();
  state.first_point.reset();
}

/// A recorder channel may be clamped round a cable in place of two points.
bool land_on_cable(const Wording& words, BayState& state, Wishes& wishes) {
  if (state.typed != Pick::channel || state.first_point || number_in(state.typed_words)) return false;
  const auto cables = cables_meant(words, state.typed_words);
  if (state.typed_words.size() < 3 || cables.empty()) return false;
  wishes.act(PutRecorderChannel{state.recorder.channel, std::nullopt, std::nullopt, cables.front()});
  close_entry(state);
  return true;
}

void land_kit(const Wording& words, BayState& state, Wishes& wishes) {
  const std::string& typed = state.typed_words;
  if (typed == "off" || typed == "0") {
    if (state.typed == Pick::thermometer) wishes.act(AimThermometer{});
    if (state.typed == Pick::device) wishes.act(TakeDeviceOff{state.to_hang});
    if (state.typed == Pick::channel) wishes.act(PutRecorderChannel{state.recorder.channel, {}, {}, {}});
    return close_entry(state);
  }
  if (land_on_cable(words, state, wishes)) return;
  const auto points = points_meant(words, typed);
  if (!typed.empty() && !points.empty()) land_on(state, wishes, points.front());
}

void land(const Wording& words, BayState& state, Wishes& wishes) {
  const std::string& typed = state.typed_words;
  const bool lift = typed == "off" || typed == "0";
  if (state.typed == Pick::clamp) {
    const auto cables = cables_meant(words, typed);
    if (lift)
      wishes.act(PutClamp{});
    else if (!typed.empty() && !cables.empty())
      wishes.act(PutClamp{cables.front()});
    return;
  }
  const auto points = points_meant(words, typed);
  if (lift) {
    wishes.act(PutProbe{state.typed == Pick::red, std::nullopt});
  } else if (!typed.empty() && !points.empty()) {
    wishes.act(PutProbe{state.typed == Pick::red, points.front()});
    state.chosen = points.front();
  }
}

}  // namespace

std::vector<TestPoint> points_meant(const Wording& words, std::string_view typed) {
  std::vector<TestPoint> meant;
  if (const auto number = number_in(typed)) {
    if (const auto point = test_point_numbered(*number)) meant.push_back(*point);
    return meant;
  }
  for (const TestPoint point : all_test_points()) {
    if (meant_by(typed, words.point(point))) meant.push_back(point);
  }
  return meant;
}

std::vector<HeavyCable> cables_meant(const Wording& words, std::string_view typed) {
  std::vector<HeavyCable> meant;
  for (std::size_t i = 0; i < heavy_cable_count; ++i) {
    const auto cable = static_cast<HeavyCable>(i);
    if (meant_by(typed, words.cable(cable))) meant.push_back(cable);
  }
  return meant;
}

void handle_entry(const Session& session, const Wording& words, BayState& state, Wishes& wishes) {
  if (state.typed == Pick::nothing) return;
  take_letters(state.typed_words);
  if (state.typed == Pick::red || state.typed == Pick::black) {
    if (key_pressed(ImGuiKey_RightArrow) || key_pressed(ImGuiKey_DownArrow)) {
      walk_lead(session, state, wishes, state.typed, 1);
    }
    if (key_pressed(ImGuiKey_LeftArrow) || key_pressed(ImGuiKey_UpArrow)) {
      walk_lead(session, state, wishes, state.typed, -1);
    }
  }
  const bool enter = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Enter), false);
  const bool escaped = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
  if (enter && aiming_kit(state)) {
    land_kit(words, state, wishes);
  } else if (enter) {
    if (state.typed != Pick::clamp) state.walking = state.typed;
    land(words, state, wishes);
    close_entry(state);
  }
  if (escaped) close_entry(state);
}

bool aiming_kit(const BayState& state) {
  return state.typed == Pick::device || state.typed == Pick::thermometer || state.typed == Pick::channel;
}

void land_on(BayState& state, Wishes& wishes, TestPoint point) {
  state.typed_words.clear();
  if (state.typed == Pick::thermometer) {
    wishes.act(AimThermometer{point});
    return close_entry(state);
  }
  if (!state.first_point) {
    state.first_point = point;
    return;
  }
  if (*state.first_point == point) return;
  if (state.typed == Pick::device) wishes.act(HangDevice{{state.to_hang, *state.first_point, point}});
  if (state.typed == Pick::channel) {
    wishes.act(PutRecorderChannel{state.recorder.channel, state.first_point, point, std::nullopt});
  }
  close_entry(state);
}

std::string entry_subject(const Wording& words, const BayState& state) {
  const bool second = state.first_point.has_value();
  switch (state.typed) {
    case Pick::red:
      return "Red +";
    case Pick::black:
      return "Black COM";
    case Pick::device:
      return fmt::format("{}, {} end", words.device(state.to_hang), second ? "last" : "first");
    case Pick::thermometer:
      return "Thermometer";
    case Pick::channel:
      return fmt::format("Channel {} {}", state.recorder.channel, second ? "black" : "red");
    case Pick::clamp:
    case Pick::nothing:
      break;
  }
  return "Clamp";
}

namespace {

std::string entry_hint(const BayState& state) {
  if (state.typed == Pick::clamp) return "type a cable's name, then Enter";
  if (state.typed == Pick::channel && !state.first_point) return "click or type a point, or a cable's name";
  return aiming_kit(state) ? "click or type a number" : "type a number or a name, then Enter";
}

}  // namespace

std::string entry_text(const Wording& words, const BayState& state) {
  const std::string& typed = state.typed_words;
  const bool cable_allowed = state.typed == Pick::clamp || (state.typed == Pick::channel && !state.first_point);
  const auto cables = cable_allowed && !number_in(typed) ? cables_meant(words, typed) : std::vector<HeavyCable>{};
  const auto points = state.typed == Pick::clamp ? std::vector<TestPoint>{} : points_meant(words, typed);
  std::string meant = state.typed == Pick::clamp ? "no such cable" : "no such point (1 to 30)";
  if (typed.empty()) {
    meant = entry_hint(state);
  } else if (typed == "off" || typed == "0") {
    meant = "off";
  } else if (!cables.empty()) {
    meant = words.cable(cables.front());
  } else if (!points.empty()) {
    meant = fmt::format("{} {}", number_of(points.front()), words.point(points.front()));
  }
  return fmt::format("{} to: {}_   {}", entry_subject(words, state), typed, meant);
}

void walk_lead(const Session& session, BayState& state, Wishes& wishes, Pick lead, int direction) {
  const bool red = lead != Pick::black;
  const auto now = red ? session.meter().red() : session.meter().black();
  constexpr int count = static_cast<int>(test_point_count);
  int number = direction > 0 ? 1 : count;
  if (now) number = (number_of(*now) - 1 + direction + count) % count + 1;
  const auto point = test_point_numbered(number);
  wishes.act(PutProbe{red, point});
  state.chosen = point;
}

}  // namespace voltfall
