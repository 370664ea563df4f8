#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace voltfall {

/// Bytes that need not be text.
using Bytes = std::string;

/// Base64 with padding, RFC 4648 section 4.
std::string base64(std::string_view bytes);
/// Empty for what is no base64.
std::optional<Bytes> from_base64(std::string_view text);

/// Lower-case hexadecimal digits.
std::string hex(std::string_view bytes);

/// BLAKE2b of 32 bytes (libsodium's crypto_generichash).
Bytes digest(std::string_view bytes);

/// So many from the system's own source of chance.
Bytes random_bytes(std::size_t count);

}  // namespace voltfall
