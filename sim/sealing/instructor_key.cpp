#include "sealing/instructor_key.h"

#include "sealing/json_fields.h"
#include "sealing/sodium.h"

namespace voltfall {
namespace {

constexpr int key_format = 1;
constexpr std::string_view kind = "instructor's key";

/// One secret for each use, so that what signs never also opens.
Bytes drawn_from(const Bytes& seed, std::uint64_t use, std::size_t count) {
  Bytes drawn(count, '\0');
  crypto_kdf_derive_from_key(octets(drawn), drawn.size(), use, "voltfall", octets(seed));
  return drawn;
}

}  // namespace

InstructorKey::InstructorKey(Bytes seed) : seed_(std::move(seed)) {
  const Bytes box_seed = drawn_from(seed_, 1, crypto_box_SEEDBYTES);
  const Bytes sign_seed = drawn_from(seed_, 2, crypto_sign_SEEDBYTES);
  name_.box.resize(crypto_box_PUBLICKEYBYTES);
  box_secret_.resize(crypto_box_SECRETKEYBYTES);
  name_.sign.resize(crypto_sign_PUBLICKEYBYTES);
  sign_secret_.resize(crypto_sign_SECRETKEYBYTES);
  crypto_box_seed_keypair(octets(name_.box), octets(box_secret_), octets(box_seed));
  crypto_sign_seed_keypair(octets(name_.sign), octets(sign_secret_), octets(sign_seed));
}

InstructorKey InstructorKey::made() {
  return InstructorKey(random_bytes(crypto_kdf_KEYBYTES));
}

std::optional<InstructorKey> InstructorKey::in_text(std::string_view text) {
  const auto json = nlohmann::json::parse(text, nullptr, false);
  if (text_in(json, "voltfall") != kind || whole_in(json, "v", 0) != key_format) return std::nullopt;
  std::optional<Bytes> seed = from_base64(text_in(json, "secret"));
  if (!seed || seed->size() != crypto_kdf_KEYBYTES) return std::nullopt;
  return InstructorKey(std::move(*seed));
}

std::string InstructorKey::text() const {
  nlohmann::ordered_json json;
  json["v"] = key_format;
  json["voltfall"] = kind;
  json["keep"] =
      "Whoever has this file reads the answers of every job sealed with it. Keep a copy; it can't be made again.";
  json["secret"] = base64(seed_);
  return json.dump(2) + "\n";
}

Bytes InstructorKey::signature_of(std::string_view message) const {
  Bytes signature(crypto_sign_BYTES, '\0');
  crypto_sign_detached(octets(signature), nullptr, octets(message), message.size(), octets(sign_secret_));
  return signature;
}

std::optional<Bytes> InstructorKey::opened(std::string_view sealed) const {
  return unsealed(sealed, name_.box, box_secret_);
}

bool is_signed(const InstructorName& by, std::string_view message, std::string_view signature) {
  ready_sodium();
  if (by.sign.size() != crypto_sign_PUBLICKEYBYTES || signature.size() != crypto_sign_BYTES) return false;
  return crypto_sign_verify_detached(octets(signature), octets(message), message.size(), octets(by.sign)) == 0;
}

Bytes sealed_to(std::string_view box, std::string_view message) {
  ready_sodium();
  if (box.size() != crypto_box_PUBLICKEYBYTES) throw std::invalid_argument("a key to seal to has 32 bytes");
  Bytes sealed(message.size() + crypto_box_SEALBYTES, '\0');
  crypto_box_seal(octets(sealed), octets(message), message.size(), octets(box));
  return sealed;
}

std::optional<Bytes> unsealed(std::string_view sealed, std::string_view box, std::string_view box_secret) {
  ready_sodium();
  if (sealed.size() < crypto_box_SEALBYTES) return std::nullopt;
  Bytes message(sealed.size() - crypto_box_SEALBYTES, '\0');
  const int wrong =
      crypto_box_seal_open(octets(message), octets(sealed), sealed.size(), octets(box), octets(box_secret));
  return wrong == 0 ? std::optional(std::move(message)) : std::nullopt;
}

}  // namespace voltfall
