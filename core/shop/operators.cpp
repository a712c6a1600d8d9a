#include "core/shop/operators.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/names.h"

namespace tarebook {

namespace {

Recorded set(Shop& shop, const std::string& name, std::string_view role, const std::string& passphrase) {
    nlohmann::json body{{"name", name}, {"role", role}};
    if (!passphrase.empty()) {
        body["passphrase"] = kPassphraseSet;
    }
    Recorded recorded;
    if (const auto ready = shop.ensureSignedIn(); !ready) {
        return notRecorded(ready.error());
    }
    const AppendAnswer answer =
        shop.store().appendOperator(shop.draft(EntryKind::operatorSet, body), passphrase);
    recorded.outcome = answer.outcome;
    recorded.entries = answer.entries;
    recorded.error = answer.error;
    return recorded;
}

Result<Operator> named(Shop& shop, const std::string& name) {
    const auto all = shop.store().operators();
    if (!all) {
        return all.error();
    }
    for (const Operator& one : all.value()) {
        if (one.name == name) {
            return one;
        }
    }
    return Error{fmt::format("{} does not sign in to this shop", tarebook::quoted(name)),
                 all.value().empty() ? "nobody does yet: add a manager first"
                                     : "the list of operators has the names"};
}

/// Nothing when the passphrase may be written and is not blank.
std::optional<Error> blank(const std::string& passphrase) {
    return passphrase.empty()
               ? std::optional<Error>(Error{"the passphrase is empty", "type one of 8 characters at least"})
               : std::nullopt;
}

} // namespace

Recorded addOperator(Shop& shop, const std::string& name, Role role, const std::string& passphrase) {
    const std::string tidy = tidied(name);
    if (tidy.empty()) {
        return notRecorded({"the operator has no name", "write it as it shall stand in the books"});
    }
    if (named(shop, tidy)) {
        return notRecorded({fmt::format("{} signs in already", tidy), "change role or passphrase instead"});
    }
    if (auto error = blank(passphrase)) {
        return notRecorded(*error);
    }
    return set(shop, tidy, roleWord(role), passphrase);
}

Recorded changeRole(Shop& shop, const std::string& name, Role role) {
    const auto its = named(shop, name);
    return its ? set(shop, name, roleWord(role), {}) : notRecorded(its.error());
}

Recorded changePassphrase(Shop& shop, const std::string& name, const std::string& passphrase) {
    const auto its = named(shop, name);
    if (!its) {
        return notRecorded(its.error());
    }
    if (auto error = blank(passphrase)) {
        return notRecorded(*error);
    }
    return set(shop, name, roleWord(its.value().role), passphrase);
}

Recorded removeOperator(Shop& shop, const std::string& name) {
    const auto its = named(shop, name);
    return its ? set(shop, name, kNoRole, {}) : notRecorded(its.error());
}

Result<SignedIn> signIn(Shop& shop, const std::string& name, const std::string& passphrase, Instant now) {
    auto signedIn = shop.store().signIn(name, passphrase, now);
    if (signedIn) {
        shop.setOperator(name);
    }
    return signedIn;
}

bool may(Shop& shop, EntryKind kind) {
    const auto writer = shop.store().signedIn();
    return writer ? leaveOf(writer->role, kind) != Leave::none : !shop.store().needsSignIn();
}

} // namespace tarebook
