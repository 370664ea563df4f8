// Sealed jobs, keys and releases come as files from strangers. The first byte chooses which reader it is for. A sealed
// job's contents are sealed anew, for nothing behind a seal is reached by chance.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "sealing/program_key.h"
#include "sealing/release.h"
#include "sealing/sealed_job.h"

namespace {

const voltfall::InstructorKey& key() {
  static const voltfall::InstructorKey made = voltfall::InstructorKey::made();
  return made;
}

void read_what_was_sealed(std::string_view text) {
  const std::string sealed = voltfall::sealed_job_text("fuzz", text, "A-1", key());
  const voltfall::ReadScenario read = voltfall::by_program()(sealed, "fuzz.vfjob");
  const voltfall::ReadScenario opened = voltfall::by_key(key())(sealed, "fuzz.vfjob");
  if (read.scenario.has_value() != opened.scenario.has_value()) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  if (count == 0) return 0;
  const std::string_view text(reinterpret_cast<const char*>(bytes) + 1, count - 1);
  switch (bytes[0] % 4) {
    case 0:
      voltfall::by_program()(text, "fuzz.vfjob");
      voltfall::by_key(key())(text, "fuzz.vfjob");
      break;
    case 1:
      voltfall::InstructorKey::in_text(text);
      break;
    case 2:
      voltfall::release_in(text);
      break;
    default:
      read_what_was_sealed(text);
  }
  return 0;
}
