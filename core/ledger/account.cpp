#include "core/ledger/account.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::size_t kLongestName = 200;

constexpr std::array<std::pair<std::string_view, AccountKind>, 8> kKinds = {
    {{"cylinder", AccountKind::cylinder},
     {"system", AccountKind::system},
     {"supplier", AccountKind::supplier},
     {"reclaimer", AccountKind::reclaimer},
     {"destroyer", AccountKind::destroyer},
     {"atmosphere", AccountKind::atmosphere},
     {"variance", AccountKind::variance},
     {"opening", AccountKind::opening}}};

bool hasName(AccountKind kind) {
    return kind != AccountKind::atmosphere && kind != AccountKind::variance && kind != AccountKind::opening;
}

/// What no program ever let into an account. Drafts are asked for more (controlIn(), entry validation);
/// journals of earlier programs may hold the rest, and are read.
bool hasByteControl(std::string_view text) {
    return std::any_of(text.begin(), text.end(), [](char character) {
        const auto byte = static_cast<unsigned char>(character);
        return byte < 32U || byte == 127U;
    });
}

Error unreadable(std::string_view text) {
    return {fmt::format("{} is no account", tarebook::quoted(text)),
            "write cylinder:SERIAL, system:SITE/TAG, supplier:NAME, reclaimer:NAME, atmosphere or opening"};
}

} // namespace

Result<Account> Account::parse(std::string_view text) {
    const std::string_view whole = trimmed(text);
    const std::size_t colon = whole.find(':');
    const std::string word = lowered(trimmed(whole.substr(0, colon)));
    const std::string_view name =
        colon == std::string_view::npos ? std::string_view() : trimmed(whole.substr(colon + 1));
    for (const auto& [kindWord, kind] : kKinds) {
        if (word != kindWord) {
            continue;
        }
        if (name.empty() == hasName(kind) || name.size() > kLongestName || hasByteControl(name)) {
            return unreadable(text);
        }
        const std::size_t slash = name.find('/');
        if (kind == AccountKind::system &&
            (slash == std::string::npos || slash == 0 || slash + 1 == name.size())) {
            return Error{fmt::format("{} names no system", tarebook::quoted(text)), "write system:SITE/TAG"};
        }
        return Account{kind, std::string(name)};
    }
    return unreadable(text);
}

std::string Account::text() const {
    for (const auto& [word, itsKind] : kKinds) {
        if (kind == itsKind) {
            return hasName(kind) ? std::string(word) + ':' + name : std::string(word);
        }
    }
    return "variance";
}

} // namespace tarebook
