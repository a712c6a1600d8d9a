#include "core/shop/disposals.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "core/rules/disposal_record.h"
#include "core/rules/rule_cells.h"
#include "core/shop/register.h"
#include "core/shop/returns.h"

namespace tarebook {

namespace {

/// What every month is gathered from: reading it takes long in old books.
struct DisposalSources {
    std::map<MonthYear, std::vector<Entry>> recovered; // for disposal, not reversed
    std::vector<Batch> batches;
    std::map<std::string, System> systems; // by SITE/TAG

    static Result<DisposalSources> of(Shop& shop) {
        DisposalSources sources;
        auto read = shop.store().entries(1, shop.store().headSeq(), {EntryKind::recovered});
        if (!read) {
            return read.error();
        }
        std::vector<Entry> entries = std::move(read).value();
        for (Entry& entry : entries) {
            const auto purpose = entry.body.find("purpose");
            if (purpose != entry.body.end() && *purpose == "disposal" &&
                !shop.store().reversedBy(entry.seq)) {
                sources.recovered[shop.zone().dateOf(entry.occurred).month()].push_back(std::move(entry));
            }
        }
        auto all = tarebook::batches(shop);
        if (!all) {
            return all.error();
        }
        sources.batches = std::move(all).value();
        for (System& system : tarebook::systems(shop)) {
            sources.systems.emplace(system.key(), std::move(system));
        }
        return sources;
    }
};

/// Gathers one month.
class Gatherer {
public:
    Gatherer(Shop& shop, const DisposalSources& sources, MonthYear month, const DisposalScope& scope)
        : m_shop(shop), m_sources(sources), m_scope(scope), m_found{month, {}, {}, {}, {}} {}

    DisposalMonth gather(const Rulebook& book) {
        readRecoveries();
        readTransfers();
        judge(book);
        return std::move(m_found);
    }

private:
    [[nodiscard]] bool inMonth(Date day) const { return day.month() == m_found.month; }

    void readRecoveries() {
        const auto its = m_sources.recovered.find(m_found.month);
        if (its == m_sources.recovered.end()) {
            return;
        }
        for (const Entry& entry : its->second) {
            take(entry);
        }
        std::stable_sort(m_found.appliances.begin(), m_found.appliances.end(),
                         [](const DisposedAppliance& one, const DisposedAppliance& other) {
                             return std::tie(one.day, one.system, one.refrigerant) <
                                    std::tie(other.day, other.system, other.refrigerant);
                         });
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
            if (const auto system = m_sources.systems.find(its.system); system != m_sources.systems.end()) {
                its.customer = system->second.customer;
                its.address = system->second.address;
                its.fullCharge = system->second.nominalCharge;
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

    void readTransfers() {
        for (const Batch& batch : m_sources.batches) {
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
    }

    /// The code of a site is the shop's own: an inspector finds no place by it.
    void judgeLocations(const Rulebook& book) {
        std::set<std::string> told; // sites
        for (const DisposedAppliance& its : m_found.appliances) {
            const std::string site = its.system.substr(0, its.system.find('/'));
            if (!its.address.empty() || (its.fullCharge && !its.counted) || !told.insert(site).second) {
                continue;
            }
            Finding finding = findingOf(book, m_scope.records.front(), "disposal.location", Severity::caution,
                                        fmt::format("The address of site {} is not on file: the record of {} "
                                                    "does not say where it was.",
                                                    site, its.system));
            finding.subject = "system:" + its.system;
            finding.remedy = "Enter the address of the site.";
            m_found.findings.push_back(std::move(finding));
        }
    }

    void judge(const Rulebook& book) {
        judgeLocations(book);
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
    const DisposalSources& m_sources;
    const DisposalScope& m_scope;
    DisposalMonth m_found;
};

} // namespace

Result<std::vector<DisposalMonth>> disposals(Shop& shop, const std::vector<MonthYear>& months) {
    if (months.empty()) {
        return std::vector<DisposalMonth>();
    }
    const auto sources = DisposalSources::of(shop);
    if (!sources) {
        return sources.error();
    }
    std::vector<DisposalMonth> found;
    found.reserve(months.size());
    for (const MonthYear month : months) {
        const Rulebook& book = shop.rulebookOn(Date::lastOf(month));
        const auto scope = disposalScope(book);
        if (!scope) {
            return scope.error();
        }
        if (!scope.value()) {
            return withoutTable(book, "records of disposed appliances in " + month.text());
        }
        found.push_back(Gatherer(shop, sources.value(), month, *scope.value()).gather(book));
    }
    return found;
}

Result<DisposalMonth> disposals(Shop& shop, MonthYear month) {
    auto its = disposals(shop, std::vector{month});
    if (!its) {
        return its.error();
    }
    return std::move(its).value().front();
}

} // namespace tarebook
