#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "core/ledger/body_text.h"
#include "core/shop/books.h"
#include "core/shop/entries_between.h"
#include "core/shop/held_then.h"
#include "core/shop/question_answers.h"
#include "core/shop/register.h"

namespace tarebook {

namespace {

std::string dayCell(const Shop& shop, const Entry& entry) {
    return shop.zone().dateOf(entry.occurred).text();
}

std::string whose(const std::string& owner) {
    return owner.empty() ? "the shop" : owner;
}

/// Milligrams by the place where gas of one refrigerant is now.
struct Whereabouts {
    std::int64_t mass = 0;
    std::int64_t equipment = 0;
    std::int64_t stock = 0;
    std::int64_t sent = 0;
    std::int64_t air = 0;
    std::int64_t scale = 0;

    void add(const ForwardTrace& trace) {
        mass += trace.lot.content.total().milligrams();
        for (const ForwardPart& part : trace.parts) {
            switch (part.account.kind) {
            case AccountKind::system:
                equipment += part.mass.milligrams();
                break;
            case AccountKind::cylinder:
                stock += part.mass.milligrams();
                break;
            case AccountKind::atmosphere:
                air += part.mass.milligrams();
                break;
            case AccountKind::variance:
            case AccountKind::opening:
                scale += part.mass.milligrams();
                break;
            default:
                sent += part.mass.milligrams();
            }
        }
    }
    void addCells(std::vector<std::string>& row) const {
        for (const std::int64_t part : {mass, equipment, stock, sent, air, scale}) {
            row.push_back(kilogramCell(part));
        }
    }
};

/// Legs by which the scale found gas of the same refrigerants again, in the cylinders in which it had found
/// some of this missing, later than that: a wrong tare or a slip that was mended. Of all that such a cylinder
/// held, for what is found says not whose loss it mends.
Result<std::map<std::pair<Sequence, int>, std::int64_t>> foundAgain(Shop& shop, LegReader& reader,
                                                                    const ForwardTrace& trace) {
    std::map<std::pair<Sequence, int>, std::int64_t> found;
    const auto lost = std::any_of(trace.parts.begin(), trace.parts.end(), [](const ForwardPart& part) {
        return part.account.kind == AccountKind::variance;
    });
    if (!lost) {
        return found;
    }
    std::map<Account, Moment> since; // the first loss in each cylinder
    for (const Sequence seq : trace.entries) {
        const auto legs = reader.ofEntry(seq);
        if (!legs) {
            return legs.error();
        }
        for (const Leg& leg : legs.value()) {
            if (leg.source.kind == AccountKind::cylinder && leg.target.kind == AccountKind::variance) {
                Moment& first = since.emplace(leg.source, leg.moment).first->second;
                first = std::min(first, leg.moment);
            }
        }
    }
    constexpr int kAllLegs = 1'000'000;
    const auto refrigerants = trace.lot.content.byRefrigerant();
    for (const auto& [cylinder, first] : since) {
        const auto legs = shop.store().legsAbout(cylinder, kAllLegs);
        if (!legs) {
            return legs.error();
        }
        for (const Leg& leg : legs.value()) {
            if (leg.source.kind != AccountKind::variance || leg.moment <= first) {
                continue;
            }
            for (const auto& [gas, milligrams] : leg.moved.parts()) {
                if (refrigerants.contains(gas.refrigerant)) {
                    found[{leg.moment.seq, leg.number}] += milligrams;
                }
            }
        }
    }
    return found;
}

/// Traces every such entry of the period: a row each, and the sum.
Result<QuestionAnswer> traced(Shop& shop, const QuestionInput& input, const std::vector<Entry>& entries,
                              const char* from) {
    QuestionAnswer told;
    told.table.columns = {"entry",           "day",      from,      "refrigerant", "mass_kg",
                          "in_equipment_kg", "stock_kg", "sent_kg", "to_air_kg",   "lost_to_scale_kg",
                          "found_again_kg"};
    Whereabouts sum;
    std::map<std::pair<Sequence, int>, std::int64_t> found; // once, whichever rows it stands in
    const auto reader = shop.store().legReader();
    for (const Entry& entry : entries) {
        const auto its = traceEntry(shop, entry.seq);
        if (!its) {
            return its.error();
        }
        Whereabouts one;
        one.add(*its.value().forward);
        sum.add(*its.value().forward);
        std::vector<std::string> row{
            std::to_string(entry.seq), dayCell(shop, entry),
            bodyText(entry.body, "from").substr(bodyText(entry.body, "from").find(':') + 1),
            bodyText(entry.body, "refrigerant")};
        one.addCells(row);
        const auto again = foundAgain(shop, *reader, *its.value().forward);
        if (!again) {
            return again.error();
        }
        std::int64_t here = 0;
        for (const auto& [leg, milligrams] : again.value()) {
            here += milligrams;
            found[leg] = milligrams;
            told.entries.push_back(leg.first);
        }
        row.push_back(kilogramCell(here));
        told.table.rows.push_back(std::move(row));
        for (const HistoryLine& line : its.value().entries) {
            told.entries.push_back(line.entry);
        }
    }
    std::int64_t again = 0;
    for (const auto& [leg, milligrams] : found) {
        again += milligrams;
    }
    const Display display = shop.display();
    const auto shown = [&](std::int64_t mass) { return display.mass(Mass::fromMilligrams(mass)); };
    told.sentence =
        fmt::format("Of {} from {} to {}: {} in equipment, {} in cylinders, {} sent on, {} "
                    "released, {} missing by the scale, which later found {} of such gas again in "
                    "the same cylinders.",
                    shown(sum.mass), input.from.text(), input.to.text(), shown(sum.equipment),
                    shown(sum.stock), shown(sum.sent), shown(sum.air), shown(sum.scale), shown(again));
    return told;
}

} // namespace

Result<QuestionAnswer> answerBought(Shop& shop, const QuestionInput& input) {
    const auto entries = entriesBetween(shop, input.from, input.to, {EntryKind::bought});
    if (!entries) {
        return entries.error();
    }
    QuestionAnswer told;
    told.table.columns = {"entry", "day", "from", "refrigerant", "state", "mass_kg", "into"};
    std::map<std::string, std::int64_t> sums;
    for (const Entry& entry : entries.value()) {
        const std::int64_t mass = bodyMass(entry, "mass_mg").milligrams();
        sums[bodyText(entry.body, "refrigerant")] += mass;
        told.table.rows.push_back({std::to_string(entry.seq), dayCell(shop, entry),
                                   bodyText(entry.body, "from"), bodyText(entry.body, "refrigerant"),
                                   bodyText(entry.body, "state"), kilogramCell(mass),
                                   bodyText(entry.body, "to")});
        told.entries.push_back(entry.seq);
    }
    std::string list;
    for (const auto& [refrigerant, mass] : sums) {
        fmt::format_to(std::back_inserter(list), "{}{} of {}", list.empty() ? "" : ", ",
                       shop.display().mass(Mass::fromMilligrams(mass)), refrigerant);
    }
    told.sentence = fmt::format("From {} to {}: {}.", input.from.text(), input.to.text(),
                                list.empty() ? "nothing was bought" : list);
    return told;
}

Result<QuestionAnswer> answerWhereWent(Shop& shop, const QuestionInput& input) {
    const auto entries = entriesBetween(shop, input.from, input.to, {EntryKind::bought});
    return entries ? traced(shop, input, entries.value(), "supplier")
                   : Result<QuestionAnswer>(entries.error());
}

Result<QuestionAnswer> answerEndOfRemoved(Shop& shop, const QuestionInput& input) {
    auto entries = entriesBetween(shop, input.from, input.to, {EntryKind::recovered});
    if (!entries) {
        return entries.error();
    }
    std::vector<Entry> theirs = std::move(entries).value();
    std::erase_if(theirs, [&](const Entry& entry) {
        const auto system = systemNamed(shop, bodyAccount(entry, "from", AccountKind::system));
        return !system || system->customer != input.subject;
    });
    return traced(shop, input, theirs, "system");
}

Result<QuestionAnswer> answerOtherOwners(Shop& shop, const QuestionInput& input) {
    const auto entries = entriesBetween(shop, input.from, input.to, {EntryKind::charged});
    if (!entries) {
        return entries.error();
    }
    QuestionAnswer told;
    told.table.columns = {"entry", "day", "into", "customer", "refrigerant", "gas_of", "state", "mass_kg"};
    const auto reader = shop.store().legReader();
    for (const Entry& entry : entries.value()) {
        const auto system = systemNamed(shop, bodyAccount(entry, "to", AccountKind::system));
        const auto legs = reader->ofEntry(entry.seq);
        if (!legs) {
            return legs.error();
        }
        for (const Leg& leg : legs.value()) {
            for (const auto& [gas, milligrams] : leg.moved.parts()) {
                const bool used = gas.state == GasState::recovered || gas.state == GasState::recycled;
                if (leg.target.kind == AccountKind::system && used && system &&
                    gas.owner != system->customer) {
                    told.table.rows.push_back({std::to_string(entry.seq), dayCell(shop, entry),
                                               leg.target.name, system->customer, gas.refrigerant,
                                               whose(gas.owner), gasStateWord(gas.state),
                                               kilogramCell(milligrams)});
                    told.entries.push_back(entry.seq);
                }
            }
        }
    }
    const std::set<Sequence> charges(told.entries.begin(), told.entries.end());
    told.sentence = fmt::format("Of {} charges from {} to {}, {} put used gas of somebody else into a "
                                "customer's equipment.",
                                entries.value().size(), input.from.text(), input.to.text(), charges.size());
    return told;
}

Result<QuestionAnswer> answerReclaimed(Shop& shop, const QuestionInput& input) {
    auto bought = answerBought(shop, input);
    if (!bought) {
        return bought;
    }
    QuestionAnswer told = std::move(bought).value();
    constexpr std::size_t kState = 4;
    std::erase_if(told.table.rows, [](const std::vector<std::string>& row) {
        return row[kState] != "reclaimed" && row[kState] != "recycled";
    });
    told.entries.clear();
    std::map<std::string, std::string> numbers;
    for (const char* kind : {"supplier", "reclaimer"}) {
        for (const Party& party : parties(shop, kind)) {
            numbers[party.kind + ":" + party.name] =
                party.address + (party.number.empty() ? "" : ", ") + party.number;
        }
    }
    told.table.columns.emplace_back("address_and_number");
    for (auto& row : told.table.rows) {
        told.entries.push_back(std::stoll(row.front()));
        row.push_back(numbers[row[2]]);
    }
    told.sentence = fmt::format("{} deliveries of reclaimed or recycled gas from {} to {}.",
                                told.table.rows.size(), input.from.text(), input.to.text());
    return told;
}

Result<QuestionAnswer> answerWeighed(Shop& shop, const QuestionInput& input) {
    const auto entries = entriesBetween(shop, input.from, input.to, {EntryKind::recovered});
    if (!entries) {
        return entries.error();
    }
    QuestionAnswer told;
    told.table.columns = {"entry", "day", "from", "mass_kg", "gross_before_kg", "gross_after_kg", "weighed"};
    int weighed = 0;
    for (const Entry& entry : entries.value()) {
        const auto gross = [&](const char* key) {
            return entry.body.contains(key) ? kilogramCell(bodyMass(entry, key).milligrams()) : std::string();
        };
        const std::string before = gross("gross_before_mg");
        const std::string after = gross("gross_after_mg");
        const bool both = !before.empty() && !after.empty();
        weighed += both ? 1 : 0;
        told.table.rows.push_back(
            {std::to_string(entry.seq), dayCell(shop, entry), bodyText(entry.body, "from"),
             kilogramCell(bodyMass(entry, "mass_mg").milligrams()), before, after, both ? "yes" : "no"});
        told.entries.push_back(entry.seq);
    }
    told.sentence = fmt::format("{} of {} recoveries from {} to {} were weighed before and after; of the "
                                "others the books have only the mass as entered.",
                                weighed, entries.value().size(), input.from.text(), input.to.text());
    return told;
}

} // namespace tarebook
