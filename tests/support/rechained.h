#pragma once

#include <sstream>
#include <string>

#include "sealing/line_chain.h"

namespace voltfall::test {

/// Those lines in a whole chain again, as only the program itself could write them: for what lies behind the chain.
inline std::string rechained(const std::string& lines) {
  LineChain chain = LineChain::begun();
  std::istringstream in(lines);
  std::string line, text;
  while (std::getline(in, line)) {
    auto json = nlohmann::ordered_json::parse(line);
    for (const char* own : {"n", "record_id", "mark"}) json.erase(own);
    text += chain.next_line(std::move(json)) + "\n";
  }
  return text;
}

}  // namespace voltfall::test
