#include "console/key_file.h"

#include <fmt/format.h>

#include <cstdio>

namespace voltfall {

ReadKey read_key(const std::filesystem::path& file) {
  constexpr std::size_t largest_bytes = std::size_t{1} << 20;
  constexpr std::string_view kind = "an instructor's key (.vfkey), as voltfall key makes it";
  const ReadText read = read_small_file(file, largest_bytes, kind);
  if (read.problem) return {std::nullopt, {*read.problem}};
  std::optional<InstructorKey> key = InstructorKey::in_text(read.text);
  if (key) return {std::move(key), {}};
  return {std::nullopt, {{file.string(), 0, 0, fmt::format("is no instructor's key; allowed: {}", kind)}}};
}

SealOpener opener_with(const std::filesystem::path& key) {
  if (key.empty()) return by_no_key();
  ReadKey read = read_key(key);
  if (read.key) return by_key(std::move(*read.key));
  explain(read.problems);
  return {};
}

ReadScenario read_job_to_show(const std::filesystem::path& file, const std::filesystem::path& key) {
  if (key.empty()) return read_job(file, by_no_key());
  ReadKey read = read_key(key);
  if (!read.key) return {std::nullopt, std::move(read.problems)};
  return read_job(file, by_key(std::move(*read.key)));
}

int explain(const std::vector<Problem>& problems) {
  for (const Problem& problem : problems) fmt::print(stderr, "{}\n", problem.text());
  return 2;
}

}  // namespace voltfall
