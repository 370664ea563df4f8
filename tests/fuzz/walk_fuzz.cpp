// Whatever bytes somebody calls a walk, or keeps as the progress through them: read or refused with a reason, never
// more.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "walks/read_walk.h"
#include "walks/walk_progress.h"

namespace {

// Those whose progress is kept; only their names matter.
const std::vector<voltfall::BenchWalk>& walks() {
  static const std::vector<voltfall::BenchWalk> all = [] {
    std::vector<voltfall::BenchWalk> made(2);
    made[0].id = "one";
    made[1].id = "two";
    return made;
  }();
  return all;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  const std::string_view text(reinterpret_cast<const char*>(bytes), count);
  const voltfall::ReadWalk read = voltfall::read_walk_text(text, "fuzz.toml");
  if (read.walk.has_value() == !read.problems.empty()) std::abort();
  const voltfall::ReadWalkProgress kept = voltfall::walk_progress_in(text, walks());
  // What was read is written and read again without a loss.
  if (kept.message.empty() && voltfall::walk_progress_in(kept.progress.to_json(), walks()).progress != kept.progress) {
    std::abort();
  }
  return 0;
}
