#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "sealing/bytes.h"

namespace voltfall {

/// The half of an instructor's key that anybody may see: what a job is sealed to, and what tells that a job or a
/// release is this instructor's own.
struct InstructorName {
  Bytes box, sign;  ///< 32 bytes each

  bool operator==(const InstructorName&) const = default;
};

/// What opens sealed jobs and signs them. Made once by an instructor and kept from everybody else.
class InstructorKey {
 public:
  /// From the system's own source of chance.
  static InstructorKey made();
  /// What `text` gave; empty for anything else.
  static std::optional<InstructorKey> in_text(std::string_view text);

  /// As a key file holds it: JSON, with a line that says what it is.
  std::string text() const;
  const InstructorName& name() const { return name_; }

  /// Ed25519.
  Bytes signature_of(std::string_view message) const;
  /// What was sealed to this key's name; empty when it was not, or has been changed.
  std::optional<Bytes> opened(std::string_view sealed) const;

 private:
  explicit InstructorKey(Bytes seed);

  Bytes seed_, box_secret_, sign_secret_;
  InstructorName name_;
};

bool is_signed(const InstructorName& by, std::string_view message, std::string_view signature);

/// Sealed box (X25519, XSalsa20, Poly1305): only the holder of the other half of `box` reads it.
Bytes sealed_to(std::string_view box, std::string_view message);
/// Empty when it was not sealed to this pair, or has been changed.
std::optional<Bytes> unsealed(std::string_view sealed, std::string_view box, std::string_view box_secret);

}  // namespace voltfall
