#include "core/store/passphrase.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <sodium.h>

namespace tarebook {

namespace {

constexpr std::ptrdiff_t kFewestCharacters = 8;
constexpr std::size_t kMostBytes = 1'000;
constexpr auto kPasses = crypto_pwhash_argon2id_OPSLIMIT_INTERACTIVE;
constexpr std::size_t kMemory = crypto_pwhash_argon2id_MEMLIMIT_INTERACTIVE;
constexpr std::size_t kMebibyte = 1'048'576;

bool ready() {
    static const bool kReady = sodium_init() >= 0;
    return kReady;
}

Error noMemory() {
    return {"there is not enough memory to check a passphrase",
            fmt::format("close other programs: it takes {} MiB", kMemory / kMebibyte)};
}

} // namespace

Result<bool> acceptablePassphrase(const std::string& passphrase) {
    // Bytes that go on with a character of UTF-8 are not counted.
    const auto characters = std::count_if(passphrase.begin(), passphrase.end(), [](char byte) {
        return (static_cast<unsigned char>(byte) & 0xc0U) != 0x80U;
    });
    if (characters < kFewestCharacters || passphrase.size() > kMostBytes ||
        passphrase.find('\0') != std::string::npos) {
        return Error{
            fmt::format("the passphrase is shorter than {} characters, longer than {} bytes or holds a NUL",
                        kFewestCharacters, kMostBytes),
            "several words that nobody would guess together are good"};
    }
    return true;
}

Result<std::string> verifierOf(const std::string& passphrase) {
    if (auto acceptable = acceptablePassphrase(passphrase); !acceptable) {
        return acceptable.error();
    }
    std::array<char, crypto_pwhash_argon2id_STRBYTES> verifier{};
    if (!ready() || crypto_pwhash_argon2id_str(verifier.data(), passphrase.data(), passphrase.size(), kPasses,
                                               kMemory) != 0) {
        return noMemory();
    }
    return std::string(verifier.data());
}

Result<bool> verifies(const std::string& verifier, const std::string& passphrase) {
    if (!ready()) {
        return noMemory();
    }
    if (verifier.size() < crypto_pwhash_argon2id_STRBYTES &&
        crypto_pwhash_argon2id_str_verify(verifier.c_str(), passphrase.data(), passphrase.size()) == 0) {
        return true;
    }
    void* room = sodium_malloc(kMemory);
    if (room == nullptr) {
        return noMemory();
    }
    sodium_free(room);
    return false;
}

bool isOutdated(const std::string& verifier) {
    return ready() && crypto_pwhash_argon2id_str_needs_rehash(verifier.c_str(), kPasses, kMemory) != 0;
}

void wipe(std::string& secret) {
    sodium_memzero(secret.data(), secret.size());
    secret.clear();
}

} // namespace tarebook
