#include "core/base/sha256.h"

#include <array>
#include <memory>
#include <new>

#include <openssl/evp.h>

namespace tarebook {

namespace {

/// Looked up and made once a thread: doing it for every text costs as much as hashing a short one.
class Hasher {
public:
    [[nodiscard]] std::array<unsigned char, 32> hash(std::string_view bytes) {
        std::array<unsigned char, 32> digest{};
        if (m_method == nullptr) { // memory may have run out the last time
            m_method.reset(EVP_MD_fetch(nullptr, "SHA256", nullptr));
        }
        if (m_context == nullptr) {
            m_context.reset(EVP_MD_CTX_new());
        }
        if (m_method == nullptr || m_context == nullptr ||
            EVP_DigestInit_ex2(m_context.get(), m_method.get(), nullptr) != 1 ||
            EVP_DigestUpdate(m_context.get(), bytes.data(), bytes.size()) != 1 ||
            EVP_DigestFinal_ex(m_context.get(), digest.data(), nullptr) != 1) {
            throw std::bad_alloc(); // the only way in which it can fail
        }
        return digest;
    }

private:
    std::unique_ptr<EVP_MD, decltype(&EVP_MD_free)> m_method{nullptr, &EVP_MD_free};
    std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> m_context{nullptr, &EVP_MD_CTX_free};
};

} // namespace

std::string sha256Hex(std::string_view bytes) {
    thread_local Hasher hasher;
    const std::array<unsigned char, 32> digest = hasher.hash(bytes);
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
