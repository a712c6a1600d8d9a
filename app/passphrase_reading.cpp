#include "app/passphrase_reading.h"

#include <cstdlib>
#include <fstream>
#include <iostream>

#include <fmt/format.h>
#include <termios.h>
#include <unistd.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

std::string variableOf(const PassphraseSource& source) {
    const char* value = std::getenv(source.variable);
    return value == nullptr ? std::string() : std::string(value);
}

Result<std::string> firstLineOf(const PassphraseSource& source) {
    std::ifstream stream(source.file, std::ios::binary);
    std::string line;
    if (!std::getline(stream, line)) {
        return Error{
            fmt::format("{}: {} cannot be read or is empty", source.option, tarebook::quoted(source.file)),
            "name a file whose first line is the passphrase, readable to you alone"};
    }
    if (line.ends_with('\r')) {
        line.pop_back();
    }
    return line;
}

/// The terminal without echo, as it was before when the object goes.
class Quiet {
public:
    Quiet() : m_set(tcgetattr(STDIN_FILENO, &m_before) == 0) {
        termios quiet = m_before;
        quiet.c_lflag &= ~static_cast<tcflag_t>(ECHO);
        m_set = m_set && tcsetattr(STDIN_FILENO, TCSAFLUSH, &quiet) == 0;
    }
    Quiet(const Quiet&) = delete;
    Quiet& operator=(const Quiet&) = delete;
    ~Quiet() {
        if (m_set) {
            tcsetattr(STDIN_FILENO, TCSAFLUSH, &m_before);
        }
    }
    [[nodiscard]] bool ok() const { return m_set; }

private:
    termios m_before{};
    bool m_set;
};

Result<std::string> typed(const std::string& prompt) {
    fmt::print(stderr, "{}: ", prompt);
    std::string line;
    {
        const Quiet quiet;
        if (!quiet.ok() || !std::getline(std::cin, line)) {
            return Error{"the terminal cannot be read without showing what is typed", "use a file"};
        }
    }
    fmt::print(stderr, "\n");
    return line;
}

} // namespace

bool isGiven(const PassphraseSource& source) {
    return !source.file.empty() || !variableOf(source).empty();
}

Result<std::string> readPassphrase(const PassphraseSource& source, const std::string& prompt, bool twice) {
    if (!source.file.empty()) {
        return firstLineOf(source);
    }
    if (std::string value = variableOf(source); !value.empty()) {
        return value;
    }
    if (isatty(STDIN_FILENO) == 0) {
        return Error{fmt::format("{}: none was given, and there is nobody at a terminal to ask", prompt),
                     fmt::format("name a file with {}, or set {}", source.option, source.variable)};
    }
    auto first = typed(prompt);
    if (!first || !twice) {
        return first;
    }
    const auto second = typed("The same again");
    if (second && second.value() != first.value()) {
        return Error{"the two passphrases differ", "type the same twice"};
    }
    return second ? first : second;
}

} // namespace tarebook
