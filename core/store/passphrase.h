#pragma once

#include <string>

#include "core/base/result.h"

namespace tarebook {

/// What is asked of a passphrase: 8 characters at least (NIST SP 800-63B, 5.1.1.2, which asks for length and
/// no mixture of signs), 1000 bytes at most, no NUL. Error never repeats it.
[[nodiscard]] Result<bool> acceptablePassphrase(const std::string& passphrase);
/// A verifier as Argon2id writes it (RFC 9106, `$argon2id$v=19$...`), with libsodium's limits for work at a
/// terminal: 64 MiB, two passes, a fresh salt. Error: not acceptable, or not enough memory.
[[nodiscard]] Result<std::string> verifierOf(const std::string& passphrase);
/// Error: the verifier cannot be computed for want of memory, which libsodium does not tell from a wrong
/// passphrase; so it is tried whether that much memory is to be had.
[[nodiscard]] Result<bool> verifies(const std::string& verifier, const std::string& passphrase);
/// The verifier was made with other limits than those of today.
[[nodiscard]] bool isOutdated(const std::string& verifier);
/// Overwrites the characters; the text is empty then.
void wipe(std::string& secret);

} // namespace tarebook
