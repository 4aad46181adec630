// The one file that names Nettle.
#include <nettle/sha2.h>

#include <array>

#include "teetally/store.h"

namespace teetally {

std::string content_hash(std::string_view bytes) {
  sha256_ctx context;
  nettle_sha256_init(&context);
  nettle_sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
  nettle_sha256_digest(&context, digest.size(), digest.data());
  static const char* const kHex = "0123456789abcdef";
  std::string text;
  for (const std::uint8_t byte : digest) text += {kHex[byte >> 4], kHex[byte & 15]};
  return text;
}

}  // namespace teetally
