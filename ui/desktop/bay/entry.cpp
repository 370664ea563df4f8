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
  if (state.typed != Pick::clamp) {
    if (key_pressed(ImGuiKey_RightArrow) || key_pressed(ImGuiKey_DownArrow)) {
      walk_lead(session, state, wishes, state.typed, 1);
    }
    if (key_pressed(ImGuiKey_LeftArrow) || key_pressed(ImGuiKey_UpArrow)) {
      walk_lead(session, state, wishes, state.typed, -1);
    }
  }
  const bool enter = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Enter), false);
  if (enter) {
    if (state.typed != Pick::clamp) state.walking = state.typed;
    land(words, state, wishes);
  }
  if (enter || ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false)) {
    state.typed = Pick::nothing;
    state.typed_words.clear();
  }
}

std::string entry_text(const Wording& words, const BayState& state) {
  const std::string& typed = state.typed_words;
  const std::string lead = state.typed == Pick::red ? "Red +" : state.typed == Pick::black ? "Black COM" : "Clamp";
  std::string meant;
  if (typed.empty()) {
    meant = state.typed == Pick::clamp ? "type a cable's name, then Enter" : "type a number or a name, then Enter";
  } else if (typed == "off" || typed == "0") {
    meant = "off";
  } else if (state.typed == Pick::clamp) {
    const auto cables = cables_meant(words, typed);
    meant = cables.empty() ? "no such cable" : std::string(words.cable(cables.front()));
  } else {
    const auto points = points_meant(words, typed);
    meant = points.empty() ? "no such point (1 to 30)"
                           : fmt::format("{} {}", number_of(points.front()), words.point(points.front()));
  }
  return fmt::format("{} to: {}_   {}", lead, typed, meant);
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
