#include "core/shop/system_findings.h"

#include <algorithm>

#include "core/shop/charge_contents.h"
#include "core/shop/charge_owner.h"
#include "core/shop/recovery_contents.h"

namespace tarebook {

namespace {

constexpr int kMovementsLookedAt = 256;

} // namespace

Sequence newestOverruling(const Shop& shop, const std::string& subject, const std::string& rule) {
    const auto entries = shop.store().entriesAbout(subject);
    Sequence newest = 0;
    for (const Entry& entry : entries ? entries.value() : std::vector<Entry>()) {
        if (entry.kind == EntryKind::findingOverruled && entry.body.value("rule", std::string()) == rule &&
            !shop.store().reversedBy(entry.seq)) {
            newest = std::max(newest, entry.seq);
        }
    }
    return newest;
}

Result<std::vector<Finding>> openOnSystem(Shop& shop, const System& system) {
    SystemThen its(shop, system);
    const auto legs = shop.store().legsAbout(its.account(), kMovementsLookedAt);
    if (!legs) {
        return legs.error();
    }
    std::vector<Finding> findings;
    if (auto charge = openCharge(shop, its, legs.value())) {
        findings.push_back(std::move(*charge));
    }
    for (const auto& judge : {&openRecovery, &openOwner}) {
        auto open = judge(shop, its, legs.value(), 0);
        if (open) { // only then is it worth a question whether it is settled
            open = judge(shop, its, legs.value(), newestOverruling(shop, its.account().text(), open->rule));
        }
        if (open) {
            findings.push_back(std::move(*open));
        }
    }
    return findings;
}

Result<std::vector<Finding>> openOnSystems(Shop& shop) {
    std::vector<Finding> findings;
    for (const System& system : systems(shop)) {
        auto its = openOnSystem(shop, system);
        if (!its) {
            return its;
        }
        for (Finding& finding : std::move(its).value()) {
            findings.push_back(std::move(finding));
        }
    }
    return findings;
}

} // namespace tarebook
