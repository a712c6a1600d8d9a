#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/shop/entries_between.h"
#include "core/shop/equipment.h"
#include "core/shop/gauge_reading.h"
#include "core/shop/held_then.h"
#include "core/shop/question_answers.h"
#include "core/shop/van.h"

namespace tarebook {

namespace {

void addFindings(QuestionAnswer& told, const std::vector<Finding>& findings) {
    told.findings.insert(told.findings.end(), findings.begin(), findings.end());
}

/// What a row says in a word: over its limit, within it, or why nobody can tell.
std::string leakVerdict(const SystemLeaks& its) {
    if (std::any_of(its.findings.begin(), its.findings.end(), [](const Finding& one) {
            return one.rule == "leak.rate" || one.rule == "leak.chronic";
        })) {
        return "over a limit";
    }
    if (!its.threshold) {
        return "no limit of the rulebook";
    }
    return its.annualized || its.rolling ? "within" : "not told";
}

Result<std::set<std::string>> holders(Shop& shop) {
    std::set<std::string> names;
    const auto rows = shop.store().fleet({});
    if (!rows) {
        return rows.error();
    }
    for (const FleetRow& row : rows.value()) {
        if (!row.holder.empty()) {
            names.insert(row.holder);
        }
    }
    return names;
}

/// Limit and margin: by gross mass, or by points where the rulebook counts those.
std::pair<std::string, std::string> limitOf(const VehicleLoad& load) {
    if (load.limit) {
        return {fmt::format("{} kg", kilogramCell(load.limit->milligrams())),
                fmt::format("{} kg", kilogramCell(load.limit->milligrams() - load.gross.milligrams()))};
    }
    if (load.mostPoints) {
        return {fmt::format("{:g} points", *load.mostPoints),
                fmt::format("{:.1f} points", *load.mostPoints - load.points)};
    }
    return {"none", ""};
}

constexpr double kSecondsInHour = 3'600;

} // namespace

Result<QuestionAnswer> answerLeakRates(Shop& shop, const QuestionInput&) {
    const auto all = leaks(shop, shop.today());
    if (!all) {
        return all.error();
    }
    QuestionAnswer told;
    told.table.columns = {"system",   "customer", "refrigerant", "full_charge_kg", "use",     "last_added",
                          "added_kg", "a_year",   "in_365_days", "limit",          "verdict", "why_no_rate"};
    int over = 0;
    Date first = shop.today();
    for (const SystemLeaks& one : all.value()) {
        const System& system = one.system;
        first = one.additions.empty() ? first : std::min(first, one.additions.front().day);
        const std::string verdict = leakVerdict(one);
        over += verdict == "over a limit" ? 1 : 0;
        told.table.rows.push_back(
            {system.key(), system.customer, system.refrigerant,
             system.nominalCharge ? kilogramCell(system.nominalCharge->milligrams()) : std::string(),
             system.equipment, one.additions.empty() ? std::string() : one.additions.back().day.text(),
             one.additions.empty() ? std::string() : kilogramCell(one.additions.back().mass.milligrams()),
             one.annualized ? one.annualized->text() : std::string(),
             one.rolling ? one.rolling->text() : std::string(),
             one.threshold ? fmt::format("{} %", one.threshold->percent) : std::string(), verdict,
             one.problem});
        addFindings(told, one.findings);
    }
    const auto charged = entriesBetween(shop, first, shop.today(), {EntryKind::charged});
    if (!charged) {
        return charged.error();
    }
    for (const Entry& entry : charged.value()) {
        if (!bodyAccount(entry, "to", AccountKind::system).empty()) {
            told.entries.push_back(entry.seq);
        }
    }
    told.sentence = fmt::format(
        "{} systems were charged by the books; {} are over a limit of the rulebook. A year: annualizing "
        "method "
        "at the newest addition; 365 days: rolling average (40 CFR 82.152). Every addition counts.",
        all.value().size(), over);
    return told;
}

Result<QuestionAnswer> answerVans(Shop& shop, const QuestionInput&) {
    QuestionAnswer told;
    told.table.columns = {"technician", "cylinders", "gross_kg", "limit", "margin", "small_load", "serials"};
    int within = 0;
    const auto people = holders(shop);
    if (!people) {
        return people.error();
    }
    for (const std::string& person : people.value()) {
        const auto van = vanLoad(shop, person);
        if (!van) {
            return van.error();
        }
        const VehicleLoad& load = van.value().load;
        std::string serials;
        for (const LoadedCylinder& one : van.value().cylinders) {
            serials += (serials.empty() ? "" : ", ") + one.name;
        }
        const auto [limit, margin] = limitOf(load);
        told.table.rows.push_back({person, std::to_string(van.value().cylinders.size()),
                                   kilogramCell(load.gross.milligrams()), limit, margin,
                                   load.relieved ? "yes" : "no", serials});
        within += load.relieved ? 1 : 0;
        std::vector<Finding> findings = load.findings;
        for (Finding& finding : findings) {
            finding.subject = "person:" + person;
        }
        addFindings(told, findings);
    }
    told.sentence = fmt::format("{} technicians have cylinders; {} of their loads travel as a small load. "
                                "Evacuated empties are left out: nothing is in them.",
                                people.value().size(), within);
    return told;
}

Result<QuestionAnswer> answerPressures(Shop& shop, const QuestionInput& input) {
    using enum EntryKind;
    const auto entries = entriesBetween(
        shop, input.from, input.to,
        {weighed, returned, locationChanged, opened, bought, recovered, charged, decanted, released});
    if (!entries) {
        return entries.error();
    }
    const Display display = shop.display();
    QuestionAnswer told;
    told.table.columns = {"entry",         "day",         "cylinder", "gauge",  "at",
                          "hours_at_rest", "liquid_left", "expected", "verdict"};
    int consistent = 0;
    for (const Entry& entry : entries.value()) {
        const auto reading = readingOf(entry);
        if (!reading) {
            continue;
        }
        consistent += reading->verdict == verdictWord(IdentityVerdict::consistent) ? 1 : 0;
        told.table.rows.push_back(
            {std::to_string(entry.seq), shop.zone().dateOf(entry.occurred).text(), reading->serial,
             display.pressure(reading->pressure), display.temperature(reading->temperature),
             reading->secondsAtRest
                 ? fmt::format("{:g}", static_cast<double>(*reading->secondsAtRest) / kSecondsInHour)
                 : "not said",
             !reading->liquid   ? "not said"
             : *reading->liquid ? "yes"
                                : "no",
             reading->expected ? display.pressure(*reading->expected) : "",
             reading->verdict.empty() ? "not kept" : reading->verdict});
        told.entries.push_back(entry.seq);
    }
    told.sentence = fmt::format("{} pressures were read from {} to {}; {} agree with what the tag says. A "
                                "pressure identifies nothing: only an analysis tells what is inside.",
                                told.table.rows.size(), input.from.text(), input.to.text(), consistent);
    return told;
}

} // namespace tarebook
