#include "core/shop/open_releases.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/shop/plan_rules.h"
#include "core/shop/release_duties.h"
#include "core/shop/system_findings.h"

namespace tarebook {

namespace {

constexpr int kReleasesLookedAt = 1'024;
constexpr const char* kVenting = "release.venting";

/// Of one cylinder, newest first.
std::optional<Finding> ventedBy(const Shop& shop, const std::string& subject, const std::vector<Leg>& legs,
                                Sequence settled) {
    Holding gone;
    std::set<std::string> owners;
    std::vector<std::string> entries;
    for (const Leg& leg : legs) {
        Finding asked;
        if (leg.moment.seq <= settled || !citeDuty(shop, leg.moved, "venting", asked)) {
            continue;
        }
        gone.add(leg.moved);
        for (const auto& [gas, milligrams] : leg.moved.parts()) {
            owners.insert(gas.owner.empty() ? "the shop" : gas.owner);
        }
        entries.push_back(
            fmt::format("{} of {}", leg.moment.seq, shop.zone().dateOf(leg.moment.occurred).text()));
    }
    if (gone.empty()) {
        return std::nullopt;
    }
    std::reverse(entries.begin(), entries.end());
    Finding finding = planFinding(
        subject, kVenting, Severity::refusal,
        fmt::format("{} of {} of {} went to the air.", shop.display().mass(gone.total()), contentName(gone),
                    fmt::join(owners, ", ")),
        "Tell the owner, and settle it with the cause; knowing release of refrigerant is prohibited. Reverse "
        "the entry if it went somewhere else.");
    (void)citeDuty(shop, gone, "venting", finding);
    finding.working.push_back(
        fmt::format("{} {}", entries.size() == 1 ? "entry" : "entries", fmt::join(entries, ", ")));
    finding.overrulable = true;
    return finding;
}

} // namespace

Result<std::map<std::string, Finding>> openReleases(Shop& shop, const std::string& serial) {
    const auto legs = shop.store().legsAbout(Account{AccountKind::atmosphere, {}}, kReleasesLookedAt);
    if (!legs) {
        return legs.error();
    }
    std::map<std::string, std::vector<Leg>> bySerial;
    for (const Leg& leg : legs.value()) {
        if (leg.source.kind == AccountKind::cylinder && (serial.empty() || leg.source.name == serial)) {
            bySerial[leg.source.name].push_back(leg);
        }
    }
    std::map<std::string, Finding> open;
    for (const auto& [name, its] : bySerial) {
        const std::string subject = Account::cylinder(name).text();
        auto finding = ventedBy(shop, subject, its, 0);
        if (finding) { // only then is it worth a question whether it is settled
            finding = ventedBy(shop, subject, its, newestOverruling(shop, subject, kVenting));
        }
        if (finding) {
            open.emplace(name, std::move(*finding));
        }
    }
    return open;
}

} // namespace tarebook
