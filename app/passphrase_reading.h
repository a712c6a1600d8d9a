#pragma once

#include <string>

#include "core/base/result.h"

namespace tarebook {

/// Where a passphrase may come from besides the terminal. It never stands in an argument, where other users
/// of the machine would see it.
struct PassphraseSource {
    std::string file;     // its first line; empty: none was named
    const char* option;   // the option that names the file, for messages
    const char* variable; // of the environment, looked at where no file is named
};
inline constexpr const char* kPassphraseVariable = "TAREBOOK_PASSPHRASE";
inline constexpr const char* kNewPassphraseVariable = "TAREBOOK_NEW_PASSPHRASE";

/// A file is named or the variable is set.
[[nodiscard]] bool isGiven(const PassphraseSource& source);
/// From the file, the variable, or a person at the terminal, without echo; `twice` asks them to type it
/// again. Error: the file cannot be read or its first line is empty, the two differ, or there is nobody to
/// ask.
[[nodiscard]] Result<std::string> readPassphrase(const PassphraseSource& source, const std::string& prompt,
                                                 bool twice = false);

} // namespace tarebook
