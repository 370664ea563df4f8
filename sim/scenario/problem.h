#pragma once

#include <string>

namespace voltfall {

/// One mistake in a person's file, said so that they can mend it.
struct Problem {
  std::string file;
  int line = 0, column = 0;  ///< 1-based; 0 when the file as a whole is meant
  std::string what;          ///< what is wrong; what is allowed; nearest valid name

  /// `FILE:LINE:COLUMN: what`
  std::string text() const;
};

}  // namespace voltfall
