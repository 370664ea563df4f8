#include <algorithm>
#include <cctype>

#include "faults/catalogue.h"
#include "wording/wording.h"

namespace voltfall {
namespace {

constexpr std::size_t fewest_letters = 3;

/// Lower case, anything but letters and digits as single spaces. Bytes above ASCII count as letters.
std::string plain(std::string_view text) {
  std::string words;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool letter = byte >= 0x80 || std::isalnum(byte) != 0;
    if (letter) {
      words += static_cast<char>(byte < 0x80 ? std::tolower(byte) : byte);
    } else if (!words.empty() && words.back() != ' ') {
      words += ' ';
    }
  }
  if (!words.empty() && words.back() == ' ') words.pop_back();
  return words;
}

std::vector<std::string> words_of(const std::string& plain_text) {
  std::vector<std::string> words;
  for (std::size_t start = 0; start < plain_text.size();) {
    const std::size_t end = std::min(plain_text.find(' ', start), plain_text.size());
    words.push_back(plain_text.substr(start, end - start));
    start = end + 1;
  }
  return words;
}

bool begins_a_word_of(const std::string& spelling, const std::string& typed) {
  return (" " + spelling).find(" " + typed) != std::string::npos;
}

bool holds_all(const std::string& spelling, const std::vector<std::string>& typed) {
  return std::all_of(typed.begin(), typed.end(),
                     [&](const std::string& word) { return begins_a_word_of(spelling, word); });
}

}  // namespace

std::vector<std::string> Wording::spellings(const Nameable& choice) const {
  std::vector<std::string> all{plain(choice.name)};
  for (const char* section : {"fault.", "decoy."}) {
    for (const std::string_view also : list(section + choice.id + ".also")) all.push_back(plain(also));
  }
  return all;
}

std::vector<Nameable> Wording::namings() const {
  std::vector<Nameable> all{{"nothing_found", fault("nothing_found")}};
  for (const Fault& known : all_faults()) all.push_back({std::string(known.id), fault(known.id)});
  for (const std::string_view decoy : list("decoy.list")) all.push_back({std::string(decoy), fault(decoy)});
  std::sort(all.begin(), all.end(), [](const Nameable& a, const Nameable& b) { return plain(a.name) < plain(b.name); });
  return all;
}

std::vector<Nameable> Wording::complete(std::string_view typed) const {
  const std::string sought = plain(typed);
  if (sought.size() < fewest_letters) return {};
  const std::vector<std::string> words = words_of(sought);
  std::vector<Nameable> matching;
  for (const Nameable& choice : namings()) {
    const std::vector<std::string> all = spellings(choice);
    const auto holds = [&](const std::string& spelling) { return holds_all(spelling, words); };
    if (std::any_of(all.begin(), all.end(), holds)) matching.push_back(choice);
  }
  return matching;
}

std::optional<std::string> Wording::meant_by(std::string_view typed) const {
  const std::string sought = plain(typed);
  for (const Nameable& choice : namings()) {
    const std::vector<std::string> all = spellings(choice);
    if (!sought.empty() && std::find(all.begin(), all.end(), sought) != all.end()) return choice.id;
  }
  return std::nullopt;
}

}  // namespace voltfall
