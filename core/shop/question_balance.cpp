#include <algorithm>
#include <array>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/rules/gas_kinds.h"
#include "core/shop/books.h"
#include "core/shop/evidence.h"
#include "core/shop/held_then.h"
#include "core/shop/question_answers.h"
#include "core/shop/register.h"

namespace tarebook {

namespace {

constexpr std::array<std::int64_t PeriodSum::*, 9> kSumColumns = {
    &PeriodSum::opening,   &PeriodSum::opened,   &PeriodSum::bought,
    &PeriodSum::recovered, &PeriodSum::charged,  &PeriodSum::returned,
    &PeriodSum::released,  &PeriodSum::variance, &PeriodSum::closing};

std::vector<std::string> sumColumnNames(const char* first) {
    return {first,        "opening_kg",  "opened_kg",   "bought_kg",   "recovered_kg",
            "charged_kg", "returned_kg", "released_kg", "variance_kg", "closing_kg"};
}

std::vector<std::string> sumRow(std::string first, const PeriodSum& sum) {
    std::vector<std::string> row{std::move(first)};
    row.reserve(kSumColumns.size() + 1);
    for (const auto member : kSumColumns) {
        row.push_back(kilogramCell(sum.*member));
    }
    return row;
}

const RefrigerantFacts* factsOf(const Shop& shop, const std::string& refrigerant) {
    return shop.catalogue().facts(refrigerant);
}

std::string potentialCell(const SourcedNumber* number) {
    return number == nullptr ? "not known" : fmt::format("{:.5g}", number->value);
}

/// What was lost of a gas in a month, each in its own way.
struct Losses {
    std::int64_t released = 0;
    std::int64_t byScale = 0; // missing by a scale; below zero: found
    std::int64_t evacuated = 0;
    std::int64_t overdrawn = 0; // taken out beyond what the books had
    std::int64_t settled = 0;   // received by a reclaimer less than was shipped; below zero: more

    [[nodiscard]] bool none() const {
        return released == 0 && byScale == 0 && evacuated == 0 && overdrawn == 0 && settled == 0;
    }
};
struct LossesFound {
    std::map<std::pair<std::string, std::string>, Losses> months; // by month (`2026-11`) and refrigerant
    std::set<Sequence> entries;
};

/// Of a leg to or from variance, which is no account for what a cylinder lost where no cylinder has part in
/// it: that is what a reclaimer settled.
void addVariance(const Leg& leg, std::int64_t milligrams, Losses& its) {
    const bool out = leg.target == Account::variance();
    if (leg.cause == LegCause::overWithdrawal) {
        its.overdrawn += milligrams;
    } else if (leg.cause == LegCause::evacuation) {
        its.evacuated += milligrams;
    } else if ((out ? leg.source : leg.target).kind == AccountKind::cylinder) {
        its.byScale += out ? milligrams : -milligrams;
    } else {
        its.settled += out ? milligrams : -milligrams;
    }
}

/// Of the days from the one to the other, both included, what touches the account; the newest legs first, a
/// page at a time.
Result<bool> gatherLosses(Shop& shop, const Account& account, Date from, Date to, LossesFound& found) {
    constexpr int kPage = 1'000;
    const Instant start = shop.zone().startOf(from);
    Moment before{shop.zone().startOf(to.plusDays(1)), 0};
    int number = 0;
    const auto reader = shop.store().legReader();
    while (true) {
        const auto legs = reader->before(account, before, number, kPage);
        if (!legs) {
            return legs.error();
        }
        for (const Leg& leg : legs.value()) {
            if (leg.moment.occurred < start) {
                return true;
            }
            before = leg.moment;
            number = leg.number;
            found.entries.insert(leg.moment.seq);
            const std::string month = shop.zone().dateOf(leg.moment.occurred).month().text();
            for (const auto& [refrigerant, milligrams] : leg.moved.byRefrigerant()) {
                Losses& its = found.months[{month, refrigerant}];
                if (account == Account::variance()) {
                    addVariance(leg, milligrams, its);
                } else {
                    its.released += milligrams;
                }
            }
        }
        if (std::ssize(legs.value()) < kPage) {
            return true;
        }
    }
}

} // namespace

Result<QuestionAnswer> answerMassBalance(Shop& shop, const QuestionInput& input) {
    const auto sums = balance(shop, input.from, input.to);
    if (!sums) {
        return sums.error();
    }
    QuestionAnswer told;
    told.table.columns = sumColumnNames("refrigerant");
    for (const PeriodSum& sum : sums.value()) {
        told.table.rows.push_back(sumRow(sum.refrigerant, sum));
    }
    told.sentence =
        fmt::format("{} refrigerants from {} to {}: opening + opened + bought + recovered - charged - "
                    "returned - released + variance = closing, exactly. The books follow what is "
                    "in cylinders; a change in the capacity of equipment is not among it.",
                    sums.value().size(), input.from.text(), input.to.text());
    return told;
}

Result<QuestionAnswer> answerByClass(Shop& shop, const QuestionInput& input) {
    const auto sums = balance(shop, input.from, input.to);
    if (!sums) {
        return sums.error();
    }
    std::map<std::string, PeriodSum> classes;
    for (const PeriodSum& sum : sums.value()) {
        const RefrigerantFacts* facts = factsOf(shop, sum.refrigerant);
        PeriodSum& its = classes[facts == nullptr ? "not known" : facts->refrigerantClass];
        for (const auto member : kSumColumns) {
            its.*member += sum.*member;
        }
        its.refrigerant += (its.refrigerant.empty() ? "" : ", ") + sum.refrigerant;
    }
    QuestionAnswer told;
    told.table.columns = sumColumnNames("class");
    told.table.columns.emplace_back("refrigerants");
    int depleting = 0;
    for (const auto& [name, sum] : classes) {
        auto row = sumRow(name, sum);
        row.push_back(sum.refrigerant);
        told.table.rows.push_back(std::move(row));
        depleting += name == "CFC" || name == "HCFC" || name == "halon" ? 1 : 0;
    }
    told.sentence = fmt::format("From {} to {} the books have {} classes, {} of them ozone-depleting, each "
                                "apart; a blend stands in the most ozone-depleting class of its parts.",
                                input.from.text(), input.to.text(), classes.size(), depleting);
    return told;
}

Result<QuestionAnswer> answerPotentials(Shop& shop, const QuestionInput& input) {
    const auto sums = balance(shop, input.from, input.to);
    if (!sums) {
        return sums.error();
    }
    QuestionAnswer told;
    told.table.columns = {"refrigerant", "released_kg", "lost_to_scale_kg", "gwp_ar4", "gwp_ar5", "gwp_ar6"};
    for (const PeriodSum& sum : sums.value()) {
        const RefrigerantFacts* facts = factsOf(shop, sum.refrigerant);
        std::vector<std::string> row{sum.refrigerant, kilogramCell(sum.released),
                                     kilogramCell(-sum.variance)};
        for (const GwpSet set : {GwpSet::ar4, GwpSet::ar5, GwpSet::ar6}) {
            row.push_back(potentialCell(facts == nullptr ? nullptr : facts->gwp(set)));
        }
        told.table.rows.push_back(std::move(row));
    }
    told.sentence =
        fmt::format("Warming potentials over 100 years of what was moved or held from {} to {}, by the "
                    "three sets; the report names the set it uses, the same as in its base year.",
                    input.from.text(), input.to.text());
    return told;
}

Result<QuestionAnswer> answerLosses(Shop& shop, const QuestionInput& input) {
    LossesFound found;
    for (const Account& account : {Account{AccountKind::atmosphere, ""}, Account::variance()}) {
        const auto read = gatherLosses(shop, account, input.from, input.to, found);
        if (!read) {
            return read.error();
        }
    }
    QuestionAnswer told;
    told.table.columns = {"month",        "refrigerant",  "released_kg",     "lost_to_scale_kg",
                          "evacuated_kg", "overdrawn_kg", "settled_short_kg"};
    Losses all;
    for (const auto& [which, its] : found.months) {
        all.released += its.released;
        all.byScale += its.byScale;
        all.evacuated += its.evacuated;
        all.overdrawn += its.overdrawn;
        all.settled += its.settled;
        if (!its.none()) {
            told.table.rows.push_back({which.first, which.second, kilogramCell(its.released),
                                       kilogramCell(its.byScale), kilogramCell(its.evacuated),
                                       kilogramCell(its.overdrawn), kilogramCell(its.settled)});
        }
    }
    told.entries.assign(found.entries.begin(), found.entries.end());
    const auto shown = [&](std::int64_t mass) { return shop.display().mass(Mass::fromMilligrams(mass)); };
    told.sentence =
        fmt::format("From {} to {}: {} released as entered, {} missing by the scale (below zero: "
                    "found), {} gone in evacuations that nobody said where to, {} taken out beyond what the "
                    "books had; reclaimers received {} less than was shipped to them (below zero: more). "
                    "Months without a loss are left out.",
                    input.from.text(), input.to.text(), shown(all.released), shown(all.byScale),
                    shown(all.evacuated), shown(all.overdrawn), shown(all.settled));
    return told;
}

Result<QuestionAnswer> answerCustomerYear(Shop& shop, const QuestionInput& input) {
    const auto its = evidence(shop, {input.from, input.to, input.subject});
    if (!its) {
        return its.error();
    }
    struct Year {
        std::int64_t charged = 0;
        std::int64_t recovered = 0;
        std::int64_t putBack = 0; // their own gas, into a system of theirs
        std::int64_t sent = 0;
    };
    std::map<std::string, Year> years;
    QuestionAnswer told;
    std::map<std::string, bool> theirs;
    for (const System& system : systems(shop)) {
        theirs["system:" + system.key()] = system.customer == input.subject;
    }
    const auto reader = shop.store().legReader();
    for (const Entry& entry : its.value().entries) {
        const auto legs = reader->ofEntry(entry.seq);
        if (!legs) {
            return legs.error();
        }
        for (const Leg& leg : legs.value()) {
            for (const auto& [gas, milligrams] : leg.moved.parts()) {
                Year& year = years[gas.refrigerant];
                const bool own = gas.owner == input.subject;
                const bool into = theirs[leg.target.text()];
                year.charged += into ? milligrams : 0;
                year.putBack += into && own && gas.state != GasState::unused ? milligrams : 0;
                year.recovered += theirs[leg.source.text()] ? milligrams : 0;
                year.sent += own && (leg.target.kind == AccountKind::reclaimer ||
                                     leg.target.kind == AccountKind::destroyer)
                                 ? milligrams
                                 : 0;
            }
        }
        if (!legs.value().empty()) {
            told.entries.push_back(entry.seq);
        }
    }
    told.table.columns = {"refrigerant", "charged_kg", "of_it_their_own_kg", "recovered_kg", "sent_off_kg"};
    for (const auto& [refrigerant, year] : years) {
        if (year.charged + year.recovered + year.putBack + year.sent != 0) {
            told.table.rows.push_back({refrigerant, kilogramCell(year.charged), kilogramCell(year.putBack),
                                       kilogramCell(year.recovered), kilogramCell(year.sent)});
        }
    }
    told.sentence =
        fmt::format("{}, {} to {}: what went into their systems, how much of it was gas of theirs "
                    "put back, what was recovered, and what of theirs went to a reclaimer or "
                    "destroyer.",
                    input.subject, input.from.text(), input.to.text());
    return told;
}

} // namespace tarebook
