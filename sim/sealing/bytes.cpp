#include "sealing/bytes.h"

#include "sealing/sodium.h"

namespace voltfall {

std::string base64(std::string_view bytes) {
  ready_sodium();
  std::string text(sodium_base64_ENCODED_LEN(bytes.size(), sodium_base64_VARIANT_ORIGINAL), '\0');
  sodium_bin2base64(text.data(), text.size(), octets(bytes), bytes.size(), sodium_base64_VARIANT_ORIGINAL);
  text.pop_back();  // the closing zero
  return text;
}

std::optional<Bytes> from_base64(std::string_view text) {
  ready_sodium();
  Bytes bytes(text.size(), '\0');
  std::size_t count = 0;
  const int wrong = sodium_base642bin(octets(bytes), bytes.size(), text.data(), text.size(), nullptr, &count, nullptr,
                                      sodium_base64_VARIANT_ORIGINAL);
  if (wrong != 0) return std::nullopt;
  bytes.resize(count);
  return bytes;
}

std::string hex(std::string_view bytes) {
  std::string text(2 * bytes.size() + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), octets(bytes), bytes.size());
  text.pop_back();
  return text;
}

Bytes digest(std::string_view bytes) {
  ready_sodium();
  Bytes result(crypto_generichash_BYTES, '\0');
  crypto_generichash(octets(result), result.size(), octets(bytes), bytes.size(), nullptr, 0);
  return result;
}

Bytes random_bytes(std::size_t count) {
  ready_sodium();
  Bytes bytes(count, '\0');
  randombytes_buf(bytes.data(), bytes.size());
  return bytes;
}

}  // namespace voltfall
