#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

namespace voltfall {

/// The text under that key; empty when there is none, or something else.
inline std::string text_in(const nlohmann::json& json, std::string_view key) {
  const auto found = json.is_object() ? json.find(key) : json.end();
  return found != json.end() && found->is_string() ? found->get<std::string>() : std::string();
}

/// The whole number under that key; `otherwise` when there is none.
inline std::int64_t whole_in(const nlohmann::json& json, std::string_view key, std::int64_t otherwise) {
  const auto found = json.is_object() ? json.find(key) : json.end();
  return found != json.end() && found->is_number_integer() ? found->get<std::int64_t>() : otherwise;
}

}  // namespace voltfall
