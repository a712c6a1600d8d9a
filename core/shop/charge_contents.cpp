#include "core/shop/charge_contents.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/rules/contents_on_top.h"
#include "core/shop/findings.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"

namespace tarebook {

namespace {

constexpr int kMovementsLookedAt = 256;

/// The designation of what a system is for, whichever way it was written; empty where nobody knows.
std::string designationFor(const Shop& shop, const std::string& refrigerant) {
    const auto known =
        refrigerant.empty() ? Result<std::string>(std::string()) : designationOf(shop, refrigerant);
    return !known || known.value() == kUnknownGas ? std::string() : known.value();
}

bool belongs(const Shop& shop, const std::string& meant, const Holding& moved) {
    const auto parts = moved.byRefrigerant();
    const auto its = parts.find(meant);
    // A trace that the rulebook does not count as a mixture is not held against it.
    return moved.empty() || (its != parts.end() && its->second * 2 > moved.total().milligrams() &&
                             (parts.size() == 1 || !isMixed(shop, moved)));
}

bool burns(const Shop& shop, const std::string& text) {
    const auto contents = shop.catalogue().contents(text);
    return contents && asksForRated(shop.limitSource().contentsRules(), shop.catalogue(), contents.value());
}

std::string nameOf(const Holding& moved) {
    return moved.byRefrigerant().contains(std::string(kUnknownGas)) ? "gas that nobody has analysed"
                                                                    : contentName(moved);
}

/// The newest 256 movements of a system, and what of its charges is still open.
class SystemCharges {
public:
    SystemCharges(Shop& shop, const System& system)
        : m_shop(shop), m_system(system),
          m_meant(designationFor(shop, system.refrigerant)), m_self{AccountKind::system, system.key()} {}

    Result<std::optional<Finding>> finding() {
        const auto legs = m_shop.store().legsAbout(m_self, kMovementsLookedAt);
        if (!legs) {
            return legs.error();
        }
        std::int64_t recovered = 0; // since the charge that is looked at, and not used up by a later one
        for (const Leg& leg : legs.value()) {
            if (leg.source == m_self) {
                recovered += leg.moved.total().milligrams();
            } else if (!fits(leg)) {
                const std::int64_t mass = leg.moved.total().milligrams();
                if (recovered >= mass) {
                    recovered -= mass;
                } else {
                    m_open.add(leg.moved);
                    m_entries.push_back(leg.moment.seq);
                }
            }
        }
        auto found = m_open.empty() ? std::nullopt : chargeFinding(m_shop, m_system, m_open);
        if (found) {
            std::sort(m_entries.begin(), m_entries.end());
            found->working.push_back(
                fmt::format("entry {}: not as much was recovered from it since", fmt::join(m_entries, ", ")));
        }
        return found;
    }

private:
    [[nodiscard]] bool fits(const Leg& leg) {
        return belongs(m_shop, m_meant, leg.moved) ||
               belongs(m_shop, meantOn(leg.moment.occurred), leg.moved);
    }

    /// What the register said then: after a retrofit the charges from before it were right.
    [[nodiscard]] std::string meantOn(Instant moment) {
        if (!m_history) {
            auto entries = m_shop.store().entriesAbout(m_self.text());
            m_history = entries ? std::move(entries).value() : std::vector<Entry>();
            std::erase_if(*m_history, [&](const Entry& entry) {
                return entry.kind != EntryKind::systemSet || m_shop.store().reversedBy(entry.seq);
            });
        }
        std::string meant;
        for (const Entry& entry : *m_history) {
            if (entry.occurred <= moment || meant.empty()) {
                const auto text = entry.body.find("refrigerant");
                meant = text != entry.body.end() && text->is_string()
                            ? designationFor(m_shop, text->get<std::string>())
                            : meant;
            }
        }
        return meant;
    }

    Shop& m_shop;
    const System& m_system;
    std::string m_meant;
    Account m_self;
    Holding m_open;
    std::vector<Sequence> m_entries;
    std::optional<std::vector<Entry>> m_history; // read once something does not fit
};

} // namespace

std::optional<Finding> chargeFinding(const Shop& shop, const System& system, const Holding& moved) {
    const std::string meant = designationFor(shop, system.refrigerant);
    if (meant.empty() || belongs(shop, meant, moved)) {
        return std::nullopt;
    }
    const std::string mass = shop.display().mass(moved.total());
    Finding finding = planFinding(
        "system:" + system.key(), "charge.contents", Severity::danger,
        fmt::format("{} of {} went into {}, which is for {}: pressures, oil and safety devices do not fit.",
                    mass, nameOf(moved), system.key(), meant),
        "Switch it off and do not run it. Recover all of it into a cylinder for mixed gas, evacuate, charge "
        "anew, and tell the owner.");
    for (const auto& [refrigerant, milligrams] : moved.byRefrigerant()) {
        finding.working.push_back(
            fmt::format("{} of {}", shop.display().mass(Mass::fromMilligrams(milligrams)), refrigerant));
    }
    finding.working.push_back(fmt::format("{} is for {} (the register)", system.key(), meant));
    const std::string text = contentsText(moved);
    const bool unknown = text.find(kUnknownGas) != std::string::npos;
    if (!burns(shop, meant) && (unknown || burns(shop, text))) {
        finding.headline = fmt::format("{} {} {}", unknown ? "It may burn:" : "It burns:", finding.headline,
                                       "Nothing in it is made for flammable gas.");
        finding.remedy = "No flame, no spark, no switch: ventilate and keep people away. " + finding.remedy;
    }
    return finding;
}

std::optional<Finding> recoveryFinding(const Shop& shop, const System& system,
                                       const std::string& refrigerant) {
    const std::string meant = designationFor(shop, system.refrigerant);
    if (meant.empty() || refrigerant == meant) {
        return std::nullopt;
    }
    return planFinding(
        "system:" + system.key(), "recovery.contents", Severity::caution,
        refrigerant == kUnknownGas
            ? fmt::format("What came out of {} is not known; it is for {}.", system.key(), meant)
            : fmt::format("{} came out of {}, which is for {}.", refrigerant, system.key(), meant),
        "Look at the system's plate. Was it charged with another gas or retrofitted? Have what "
        "came out analysed, and do not run the system until it is known.");
}

Result<std::vector<Finding>> openCharges(Shop& shop) {
    std::vector<Finding> findings;
    for (const System& system : systems(shop)) {
        auto its = SystemCharges(shop, system).finding();
        if (!its) {
            return its.error();
        }
        if (its.value()) {
            findings.push_back(*std::move(its).value());
        }
    }
    return findings;
}

} // namespace tarebook
