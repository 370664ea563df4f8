#include "recording/tape_store.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <stdexcept>
#include <system_error>

namespace voltfall {
namespace {

std::string reason(int error) {
  return std::generic_category().message(error);
}

}  // namespace

TapeFile::TapeFile(const std::filesystem::path& path)
    : path_(path), descriptor_(open(path.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR)) {
  if (descriptor_ < 0) {
    throw std::runtime_error(fmt::format("the tape's file {} can't be made: {}", path.string(), reason(errno)));
  }
  unlink(path.c_str());
}

TapeFile::~TapeFile() {
  close(descriptor_);
}

std::optional<std::string> TapeFile::write(std::uint64_t offset, std::span<const std::byte> bytes) {
  while (!bytes.empty()) {
    const ssize_t written = pwrite(descriptor_, bytes.data(), bytes.size(), static_cast<off_t>(offset));
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) {
      return fmt::format("the tape's file in {} can't be written: {}", path_.parent_path().string(),
                         reason(written < 0 ? errno : ENOSPC));
    }
    offset += static_cast<std::uint64_t>(written);
    bytes = bytes.subspan(static_cast<std::size_t>(written));
  }
  return std::nullopt;
}

bool TapeFile::read(std::uint64_t offset, std::span<std::byte> into) const {
  while (!into.empty()) {
    const ssize_t got = pread(descriptor_, into.data(), into.size(), static_cast<off_t>(offset));
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return false;
    offset += static_cast<std::uint64_t>(got);
    into = into.subspan(static_cast<std::size_t>(got));
  }
  return true;
}

}  // namespace voltfall
