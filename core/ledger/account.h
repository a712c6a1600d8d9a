#pragma once

#include <compare>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace tarebook {

/// What can hold refrigerant in the books.
enum class AccountKind {
    cylinder,   // name: the serial
    system,     // a customer's equipment; name: SITE/TAG
    supplier,   // name
    reclaimer,  // name
    destroyer,  // name
    atmosphere, // releases; no name
    variance,   // what the scale and the books disagree about; no name
    opening,    // what was there when the books began; no name
};

/// One account of the books, written `cylinder:A101`, `system:HARBOR/DOCK-1`, `atmosphere`.
struct Account {
    AccountKind kind = AccountKind::variance;
    std::string name;

    [[nodiscard]] static Account cylinder(std::string serial) {
        return {AccountKind::cylinder, std::move(serial)};
    }
    [[nodiscard]] static Account variance() { return {AccountKind::variance, {}}; }
    /// Error: no such kind of account, a name where none belongs or none where one does, a system without
    /// SITE/TAG, a name above 200 bytes or with control characters.
    [[nodiscard]] static Result<Account> parse(std::string_view text);
    [[nodiscard]] std::string text() const;

    auto operator<=>(const Account&) const = default;
};

} // namespace tarebook
