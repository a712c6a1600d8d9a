#include "core/shop/disposals.h"

#include <algorithm>
#include <tuple>

#include <fmt/format.h>

#include "core/rules/disposal_record.h"
#include "core/rules/rule_cells.h"
#include "core/shop/register.h"
#include "core/shop/returns.h"

namespace tarebook {

namespace {

/// Gathers one month.
class Gatherer {
public:
    Gatherer(Shop& shop, MonthYear month, const DisposalScope& scope)
        : m_shop(shop), m_scope(scope), m_found{month, {}, {}, {}, {}} {}

    Result<DisposalMonth> gather(const Rulebook& book) {
        const auto read = readRecoveries();
        if (!read) {
            return read.error();
        }
        const auto sent = readTransfers();
        if (!sent) {
            return sent.error();
        }
        judge(book);
        return std::move(m_found);
    }

private:
    [[nodiscard]] bool inMonth(Date day) const { return day.month() == m_found.month; }

    Result<bool> readRecoveries() {
        const auto entries = m_shop.store().entries(1, m_shop.store().headSeq(), {EntryKind::recovered});
        if (!entries) {
            return entries.error();
        }
        for (const Entry& entry : entries.value()) {
            const auto purpose = entry.body.find("purpose");
            if (purpose == entry.body.end() || *purpose != "disposal" ||
                !inMonth(m_shop.zone().dateOf(entry.occurred)) || m_shop.store().reversedBy(entry.seq)) {
                continue;
            }
            take(entry);
        }
        std::stable_sort(m_found.appliances.begin(), m_found.appliances.end(),
                         [](const DisposedAppliance& one, const DisposedAppliance& other) {
                             return std::tie(one.day, one.system, one.refrigerant) <
                                    std::tie(other.day, other.system, other.refrigerant);
                         });
        return true;
    }

    void take(const Entry& entry) {
        const auto from = Account::parse(entry.body.value("from", std::string()));
        if (!from || from.value().kind != AccountKind::system) {
            return;
        }
        DisposedAppliance its;
        its.system = from.value().name;
        its.day = m_shop.zone().dateOf(entry.occurred);
        its.refrigerant = entry.body.value("refrigerant", std::string("unknown"));
        const auto same = [&](const DisposedAppliance& other) {
            return std::tie(other.system, other.day, other.refrigerant) ==
                   std::tie(its.system, its.day, its.refrigerant);
        };
        auto place = std::find_if(m_found.appliances.begin(), m_found.appliances.end(), same);
        if (place == m_found.appliances.end()) {
            if (const auto system = systemNamed(m_shop, its.system)) {
                its.customer = system->customer;
                its.fullCharge = system->nominalCharge;
            }
            its.counted = its.fullCharge && m_scope.contains(*its.fullCharge);
            place = m_found.appliances.insert(m_found.appliances.end(), std::move(its));
        }
        place->recovered = plus(place->recovered, entry.body.value("mass_mg", std::int64_t{0}));
        place->entries.push_back(entry.seq);
        if (place->counted) {
            Mass& total = m_found.totals[place->refrigerant];
            total = plus(total, entry.body.value("mass_mg", std::int64_t{0}));
        }
    }

    static Mass plus(Mass mass, std::int64_t milligrams) {
        return Mass::fromMilligrams(mass.milligrams() + milligrams);
    }

    Result<bool> readTransfers() {
        const auto all = batches(m_shop);
        if (!all) {
            return all.error();
        }
        for (const Batch& batch : all.value()) {
            if (!batch.shipped || !inMonth(m_shop.zone().dateOf(*batch.shipped))) {
                continue;
            }
            for (const BatchLine& line : batch.lines) {
                const auto same = [&](const DisposalTransfer& one) {
                    return one.batch == batch.name && one.refrigerant == line.content;
                };
                auto place = std::find_if(m_found.transfers.begin(), m_found.transfers.end(), same);
                if (place == m_found.transfers.end()) {
                    place = m_found.transfers.insert(m_found.transfers.end(),
                                                     {line.content, Mass(), batch.reclaimer,
                                                      m_shop.zone().dateOf(*batch.shipped), batch.name});
                }
                place->mass = plus(place->mass, line.net.milligrams());
            }
        }
        return true;
    }

    void judge(const Rulebook& book) {
        for (const DisposedAppliance& its : m_found.appliances) {
            if (its.fullCharge) {
                continue;
            }
            Finding finding = findingOf(book, m_scope.records.front(), "disposal.charge", Severity::caution,
                                        fmt::format("The full charge of {} is not on file: nobody can tell "
                                                    "whether it counts.",
                                                    its.system));
            finding.subject = "system:" + its.system;
            finding.remedy = "Enter its full charge.";
            m_found.findings.push_back(std::move(finding));
        }
        Finding finding = findingOf(
            book, m_scope.records.front(), "disposal.records", Severity::note,
            fmt::format("Records of appliances above {} and below {} that were disposed of, kept {} years.",
                        m_shop.display().mass(m_scope.over), m_shop.display().mass(m_scope.below),
                        m_scope.records.front().cell("keep_years")));
        for (const RuleRow& row : m_scope.records) {
            finding.working.push_back(fmt::format("per {}: {}", row.cell("per"), row.cell("fields")));
            if (!row.cell("remark").empty()) {
                finding.working.push_back(row.cell("remark"));
            }
        }
        finding.remedy = "Whoever evacuated the appliance keeps them, not the owner of the building.";
        m_found.findings.push_back(std::move(finding));
    }

    Shop& m_shop;
    const DisposalScope& m_scope;
    DisposalMonth m_found;
};

} // namespace

Result<DisposalMonth> disposals(Shop& shop, MonthYear month) {
    const Rulebook& book = shop.rulebookOn(Date::lastOf(month));
    const auto scope = disposalScope(book);
    if (!scope) {
        return scope.error();
    }
    if (!scope.value()) {
        return withoutTable(book, "records of disposed appliances in " + month.text());
    }
    return Gatherer(shop, month, *scope.value()).gather(book);
}

} // namespace tarebook
