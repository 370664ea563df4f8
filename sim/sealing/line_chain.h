#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltfall {

/// How far a chain of lines has come: enough to go on with it, and to tell that it was taken back.
struct ChainPlace {
  std::string record;  ///< id of the record, 32 hexadecimal digits
  int lines = 0;       ///< written so far
  std::string head;    ///< mark under the last of them
};

/// Puts lines into a chain: each carries its number, the record it belongs to and a mark over itself and all before
/// it, so that a line that was changed, left out, moved or taken from another record shows.
class LineChain {
 public:
  /// A new record, its id from the system's source of chance.
  static LineChain begun();
  explicit LineChain(ChainPlace from) : place_(std::move(from)) {}

  /// The line as it is to be written, without its end of line.
  std::string next_line(nlohmann::ordered_json line);
  const ChainPlace& place() const { return place_; }

 private:
  ChainPlace place_;
};

/// Where a chain is broken.
struct ChainBreak {
  int line;          ///< from 1
  std::string what;  ///< what was done to it, a whole sentence
};

struct CheckedChain {
  std::optional<ChainBreak> broken;  ///< the first place that is
  ChainPlace place;                  ///< up to there
};

/// Follows the lines of a record.
CheckedChain check_chain(std::string_view text);

}  // namespace voltfall
