#include "core/shop/out_of_use.h"

#include <fmt/format.h>

#include "core/shop/charge_purpose.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

namespace {

std::string wordIn(const Entry& entry, const char* key) {
    const auto field = entry.body.find(key);
    return field != entry.body.end() && field->is_string() ? field->get<std::string>() : std::string();
}

} // namespace

Result<std::optional<OutOfUse>> outOfUse(Shop& shop, const System& system) {
    const std::string self = Account{AccountKind::system, system.key()}.text();
    const auto entries = shop.store().entriesAbout(self);
    if (!entries) {
        return entries.error();
    }
    std::optional<OutOfUse> out;
    for (const Entry& entry : entries.value()) {
        const std::string purpose = wordIn(entry, "purpose");
        if (purpose.empty() || shop.store().reversedBy(entry.seq)) {
            continue;
        }
        if (entry.kind == EntryKind::recovered && purpose == "disposal" && wordIn(entry, "from") == self) {
            out = OutOfUse{shop.zone().dateOf(entry.occurred), entry.seq};
        } else if (entry.kind == EntryKind::charged && wordIn(entry, "to") == self &&
                   chargePurposeFrom(purpose) == ChargePurpose::installation) {
            out.reset();
        }
    }
    return out;
}

std::optional<Finding> outOfUseFinding(Shop& shop, const System& system, const char* rule) {
    const auto out = outOfUse(shop, system);
    if (!out || !out.value()) {
        return std::nullopt;
    }
    Finding finding = planFinding(
        "system:" + system.key(), rule, Severity::caution,
        fmt::format("{} was taken out of use for good on {}: is it another system?", system.key(),
                    out.value()->since.text()),
        "Look at its plate. Where new equipment has its name, enter its first charge as that of an "
        "installation; where it was not taken out of use, reverse the recovery for disposal and enter it "
        "anew.");
    finding.working = {fmt::format("recovered for disposal by entry {}", out.value()->entry)};
    return finding;
}

} // namespace tarebook
