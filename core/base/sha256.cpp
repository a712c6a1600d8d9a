#include "core/base/sha256.h"

#include <array>
#include <memory>
#include <new>

#include <openssl/evp.h>

namespace tarebook {

std::string sha256Hex(std::string_view bytes) {
    // Looked up once: SHA256() does it at every call.
    static const std::unique_ptr<EVP_MD, decltype(&EVP_MD_free)> kMethod(
        EVP_MD_fetch(nullptr, "SHA256", nullptr), &EVP_MD_free);
    std::array<unsigned char, 32> digest{};
    if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), nullptr, kMethod.get(), nullptr) != 1) {
        throw std::bad_alloc(); // the only way in which it can fail
    }
    static constexpr std::string_view kDigits = "0123456789abcdef";
    std::string hex;
    hex.reserve(2 * digest.size());
    for (const unsigned char byte : digest) {
        hex += kDigits[byte >> 4U];
        hex += kDigits[byte & 15U];
    }
    return hex;
}

} // namespace tarebook
