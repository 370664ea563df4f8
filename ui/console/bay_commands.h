#pragma once

#include <span>
#include <string>
#include <string_view>

namespace voltfall {

class TextBay;

using TypedWords = std::span<const std::string>;

/// One word a learner can type, how it is used, and what it does with the words after it.
struct TextCommand {
  std::string_view word, usage, meaning;
  void (*carry_out)(TextBay& bay, TypedWords rest);
};

/// Every command but `leave`, in the order a job meets them.
std::span<const TextCommand> all_text_commands();

}  // namespace voltfall
