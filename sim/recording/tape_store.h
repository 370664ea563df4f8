#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>

namespace voltfall {

/// Where tape goes that is too old for memory.
class TapeStore {
 public:
  virtual ~TapeStore() = default;
  /// Empty when the bytes are kept, else what went wrong, as a whole sentence without its full stop.
  virtual std::optional<std::string> write(std::uint64_t offset, std::span<const std::byte> bytes) = 0;
  /// False when the bytes can't be had.
  virtual bool read(std::uint64_t offset, std::span<std::byte> into) const = 0;
};

/// A temporary file that is gone when the store is, even if the program is killed: it has no name after the start.
class TapeFile : public TapeStore {
 public:
  /// Makes the file. Throws std::runtime_error, with path and reason, if it can't or if something is there already.
  explicit TapeFile(const std::filesystem::path& path);
  ~TapeFile() override;
  TapeFile(const TapeFile&) = delete;
  TapeFile& operator=(const TapeFile&) = delete;

  std::optional<std::string> write(std::uint64_t offset, std::span<const std::byte> bytes) override;
  bool read(std::uint64_t offset, std::span<std::byte> into) const override;

 private:
  std::filesystem::path path_;
  int descriptor_;
};

}  // namespace voltfall
