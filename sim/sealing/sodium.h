#pragma once

// The one door to libsodium: whoever comes through it finds the library ready.

#include <sodium.h>

#include <stdexcept>
#include <string_view>

namespace voltfall {

inline void ready_sodium() {
  static const bool ready = sodium_init() >= 0;
  if (!ready) throw std::runtime_error("libsodium can't be started on this machine");
}

inline const unsigned char* octets(std::string_view bytes) {
  return reinterpret_cast<const unsigned char*>(bytes.data());
}

inline unsigned char* octets(std::string& bytes) {
  return reinterpret_cast<unsigned char*>(bytes.data());
}

}  // namespace voltfall
