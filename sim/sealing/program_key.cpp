#include "sealing/program_key.h"

#include "sealing/instructor_key.h"
#include "sealing/sodium.h"

namespace voltfall {
namespace {

struct ProgramKey {
  Bytes box = Bytes(crypto_box_PUBLICKEYBYTES, '\0');
  Bytes box_secret = Bytes(crypto_box_SECRETKEYBYTES, '\0');
  Bytes mark = digest("voltfall: what the program puts under the lines of a record, 1");

  ProgramKey() {
    const Bytes seed = digest("voltfall: what the program opens sealed jobs with, 1");
    crypto_box_seed_keypair(octets(box), octets(box_secret), octets(seed));
  }
};

const ProgramKey& program_key() {
  ready_sodium();
  static const ProgramKey key;
  return key;
}

}  // namespace

std::string_view program_box() {
  return program_key().box;
}

std::optional<Bytes> opened_by_program(std::string_view sealed) {
  return unsealed(sealed, program_key().box, program_key().box_secret);
}

Bytes program_mark(std::string_view message) {
  constexpr std::size_t mark_bytes = 16;
  static_assert(mark_bytes >= crypto_generichash_BYTES_MIN);
  Bytes mark(mark_bytes, '\0');
  const Bytes& key = program_key().mark;
  crypto_generichash(octets(mark), mark.size(), octets(message), message.size(), octets(key), key.size());
  return mark;
}

}  // namespace voltfall
