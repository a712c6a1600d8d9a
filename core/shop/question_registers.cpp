#include <map>
#include <set>

#include <fmt/format.h>

#include "core/ledger/body_text.h"
#include "core/shop/books.h"
#include "core/shop/entries_between.h"
#include "core/shop/equipment.h"
#include "core/shop/held_then.h"
#include "core/shop/machines.h"
#include "core/shop/open_releases.h"
#include "core/shop/out_of_use.h"
#include "core/shop/question_answers.h"
#include "core/shop/record_keeping.h"
#include "core/shop/today.h"

namespace tarebook {

namespace {

std::string optionalMassCell(const std::optional<Mass>& mass) {
    return mass ? kilogramCell(mass->milligrams()) : std::string();
}

/// What the rulebook asks of a system, charged or not; never blank, as a blank could be anything.
std::string askedOf(const SystemLeaks& leaks) {
    std::string text;
    if (leaks.threshold) {
        text = fmt::format("leak limit {} %", leaks.threshold->percent);
    }
    for (const Finding& finding : leaks.findings) {
        text += text.empty() ? "" : "; ";
        text += finding.headline;
    }
    if (text.empty()) {
        text = leaks.system.nominalCharge ? "nothing by this rulebook"
                                          : "not told: its full charge is not on file";
    }
    return text;
}

} // namespace

Result<QuestionAnswer> answerTechnicians(Shop& shop, const QuestionInput& input) {
    const auto work = entriesBetween(shop, input.from, input.to, {EntryKind::recovered, EntryKind::charged});
    if (!work) {
        return work.error();
    }
    struct Handled {
        int times = 0;
        int late = 0; // on a day after the certificate ran out
        std::int64_t mass = 0;
    };
    std::map<std::string, Person> known;
    for (Person& person : people(shop)) {
        known.emplace(person.name, person);
    }
    std::map<std::string, Handled> by;
    for (const Entry& entry : work.value()) {
        Handled& its = by[bodyText(entry.body, "person")];
        ++its.times;
        its.mass += bodyMass(entry, "mass_mg").milligrams();
        const auto person = known.find(bodyText(entry.body, "person"));
        its.late +=
            person != known.end() && person->second.hadRunOut(shop.zone().dateOf(entry.occurred)) ? 1 : 0;
    }
    QuestionAnswer told;
    told.table.columns = {"person", "times", "mass_kg", "certificate", "runs_out", "times_after_that"};
    int without = 0;
    int late = 0;
    for (const auto& [name, its] : by) {
        const auto person = known.find(name);
        const bool certified = person != known.end() && !person->second.certificate.empty();
        without += certified && namesNumber(person->second.certificate) ? 0 : 1;
        late += its.late;
        told.table.rows.push_back({name.empty() ? "nobody named" : name, std::to_string(its.times),
                                   kilogramCell(its.mass), certified ? person->second.certificate : "",
                                   person != known.end() && person->second.certificateExpires
                                       ? person->second.certificateExpires->text()
                                       : "",
                                   std::to_string(its.late)});
    }
    for (const Entry& entry : work.value()) {
        told.entries.push_back(entry.seq);
    }
    told.sentence = fmt::format("{} recovered or charged from {} to {}; {} of them without a certificate "
                                "number on file (a type, as Type II, is none); {} times after the "
                                "certificate on file had run out.",
                                by.size(), input.from.text(), input.to.text(), without, late);
    return told;
}

Result<QuestionAnswer> answerMachines(Shop& shop, const QuestionInput&) {
    QuestionAnswer told;
    told.table.columns = {"machine",       "makers_serial", "made",  "certification",
                          "certified_for", "flammable",     "in_use"};
    const auto all = machines(shop);
    for (const Machine& machine : all) {
        told.table.rows.push_back({machine.name, machine.makerSerial,
                                   machine.made ? machine.made->text() : "", machine.certification,
                                   fmt::format("{}", fmt::join(machine.certifiedFor, ", ")),
                                   !machine.flammableRated   ? "not known"
                                   : *machine.flammableRated ? "yes"
                                                             : "no",
                                   machine.active ? "yes" : "no"});
    }
    told.sentence = fmt::format("{} recovery machines are on file.", all.size());
    return told;
}

Result<QuestionAnswer> answerAdditions(Shop& shop, const QuestionInput& input) {
    const auto its = leaks(shop, shop.today(), input.subject);
    if (!its) {
        return its.error();
    }
    const SystemLeaks& found = its.value().front();
    QuestionAnswer told;
    told.table.columns = {"day", "added_kg", "not_counted_kg"};
    std::map<Date, std::pair<std::int64_t, std::int64_t>>
        days; // milligrams added, and charged without counting
    for (const Addition& one : found.additions) {
        days[one.day].first = one.mass.milligrams();
    }
    for (const Addition& one : found.notCounted) {
        days[one.day].second = one.mass.milligrams();
    }
    for (const auto& [day, masses] : days) {
        told.table.rows.push_back({day.text(), kilogramCell(masses.first), kilogramCell(masses.second)});
    }
    const auto entries = shop.store().entriesAbout("system:" + input.subject);
    for (const Entry& entry : entries ? entries.value() : std::vector<Entry>()) {
        if (!shop.store().reversedBy(entry.seq) && entry.kind == EntryKind::charged) {
            told.entries.push_back(entry.seq);
        }
    }
    told.sentence = fmt::format(
        "{}: full charge {}; {} additions by the books; leak rate {} (annualizing method); 365 days {}.",
        input.subject,
        found.system.nominalCharge ? shop.display().mass(*found.system.nominalCharge) : "not on file",
        found.additions.size(), found.annualized ? found.annualized->text() : "not told: " + found.problem,
        found.rolling ? found.rolling->text() : "not told");
    if (!found.notCounted.empty()) {
        told.sentence +=
            " What was put back or was the first charge of an installation or a retrofit does not count.";
    }
    return told;
}

Result<QuestionAnswer> answerChronic(Shop& shop, const QuestionInput& input) {
    constexpr std::int64_t kChronic = 12'500; // hundredths of a percent: 40 CFR 82.157(j), 84.106
    const auto all = leaks(shop, input.to);
    if (!all) {
        return all.error();
    }
    QuestionAnswer told;
    told.table.columns = {"year",     "system",  "customer", "full_charge_kg",
                          "added_kg", "percent", "chronic",  "law_asks"};
    int chronic = 0;
    int asked = 0;
    int unknown = 0;
    for (const SystemLeaks& one : all.value()) {
        if (!one.system.nominalCharge) {
            ++unknown;
            continue;
        }
        for (int year = input.from.month().year(); year <= input.to.month().year(); ++year) {
            const auto last = MonthYear::of(year, 12);
            if (!last) {
                return last.error();
            }
            const Date until = std::min(input.to, Date::lastOf(last.value()));
            const auto rate = calendarYearLeakRate(one.additions, *one.system.nominalCharge, until);
            if (!rate || rate.value().added.milligrams() == 0) {
                continue;
            }
            const bool is = rate.value().hundredthsOfPercent() >= kChronic;
            const auto asks = isAskedOfChronic(shop, one.system, until);
            chronic += is ? 1 : 0;
            asked += is && asks.value_or(true) ? 1 : 0;
            told.table.rows.push_back({std::to_string(year), one.system.key(), one.system.customer,
                                       kilogramCell(one.system.nominalCharge->milligrams()),
                                       kilogramCell(rate.value().added.milligrams()), rate.value().text(),
                                       is ? "yes" : "no",
                                       !asks   ? "not known"
                                       : *asks ? "yes"
                                               : "no"});
        }
    }
    told.sentence = fmt::format("{} times an appliance took 125 % or more of its charge in a calendar year "
                                "from {} to {}, {} of them one of which the law asks (by its gas, full "
                                "charge and use, and the rulebook of that year) or may ask; of {} the full "
                                "charge is not on file. Of what was added everything counts here, a new "
                                "installation or a retrofit too.",
                                chronic, input.from.text(), input.to.text(), asked, unknown);
    return told;
}

Result<QuestionAnswer> answerUnits(Shop& shop, const QuestionInput&) {
    const auto all = leaksOfEverySystem(shop, shop.today());
    if (!all) {
        return all.error();
    }
    QuestionAnswer told;
    told.table.columns = {"system", "customer", "refrigerant", "full_charge_kg",
                          "use",    "asked",    "out_of_use"};
    int notTold = 0;
    for (const SystemLeaks& one : all.value()) {
        const System& system = one.system;
        const auto gone = outOfUse(shop, system);
        if (!gone) {
            return gone.error();
        }
        notTold += system.nominalCharge ? 0 : 1;
        told.table.rows.push_back({system.key(), system.customer, system.refrigerant,
                                   optionalMassCell(system.nominalCharge), system.equipment, askedOf(one),
                                   gone.value() ? gone.value()->since.text() : std::string()});
    }
    told.sentence =
        fmt::format("{} units are on file. What is asked of each goes by its gas, full charge and "
                    "use, and by rulebook {}; of {} the full charge is not on file.",
                    all.value().size(), shop.rulebook().edition(), notTold);
    return told;
}

Result<QuestionAnswer> answerCylinder(Shop& shop, const QuestionInput& input) {
    const auto its = traceCylinder(shop, input.subject);
    if (!its) {
        return its.error();
    }
    QuestionAnswer told;
    told.sentence = its.value().sentence;
    told.table.columns = {"since_entry", "day", "came_from", "refrigerant", "owner", "state", "mass_kg"};
    for (const BackwardPart& part : its.value().backward->parts) {
        told.table.rows.push_back({std::to_string(part.lot.entry),
                                   shop.zone().dateOf(part.lot.occurred).text(), part.lot.source.text(),
                                   part.gas.refrigerant, part.gas.owner.empty() ? "the shop" : part.gas.owner,
                                   gasStateWord(part.gas.state), kilogramCell(part.mass.milligrams())});
    }
    for (const HistoryLine& line : its.value().entries) {
        told.entries.push_back(line.entry);
    }
    return told;
}

Result<QuestionAnswer> answerHolders(Shop& shop, const QuestionInput& input) {
    const auto its = card(shop, input.subject);
    if (!its) {
        return its.error();
    }
    QuestionAnswer told;
    told.table.columns = {"person", "job", "from", "until", "entry"};
    for (const Custody& one : its.value().custody) {
        told.table.rows.push_back({one.person, one.job, shop.zone().localText(one.from),
                                   one.until ? shop.zone().localText(*one.until) : "still",
                                   std::to_string(one.entry)});
        told.entries.push_back(one.entry);
    }
    told.sentence = fmt::format("{} was out {} times.", input.subject, told.table.rows.size());
    return told;
}

Result<QuestionAnswer> answerLost(Shop& shop, const QuestionInput&) {
    const auto rows = shop.store().fleet({{}, std::string(conditionWord(Condition::lost))});
    if (!rows) {
        return rows.error();
    }
    QuestionAnswer told;
    told.table.columns = {"serial", "refrigerant", "owner", "mass_kg", "last_with", "last_place"};
    for (const FleetRow& row : rows.value()) {
        const auto state = shop.store().cylinder(row.serial);
        if (!state) {
            return state.error();
        }
        if (!state.value()) {
            continue;
        }
        told.entries.push_back(state.value()->lastEntry);
        const auto& parts = state.value()->content.parts();
        if (parts.empty()) {
            told.table.rows.push_back({row.serial, "", "", kilogramCell(0), row.holder, row.place});
        }
        for (const auto& [gas, milligrams] : parts) {
            told.table.rows.push_back({row.serial, gas.refrigerant,
                                       gas.owner.empty() ? "the shop" : gas.owner, kilogramCell(milligrams),
                                       row.holder, row.place});
        }
    }
    told.sentence = fmt::format(
        "{} cylinders are lost; what was in them is still on the books, and told here.", rows.value().size());
    return told;
}

Result<QuestionAnswer> answerNonconforming(Shop& shop, const QuestionInput&) {
    QuestionAnswer told;
    told.table.columns = {"severity", "about", "rule", "what", "next_step"};
    const auto serials = everySerial(shop);
    if (!serials) {
        return serials.error();
    }
    const auto released = openReleases(shop);
    if (!released) {
        return released.error();
    }
    std::set<std::string> cylinders;
    for (const std::string& serial : serials.value()) {
        const auto state = shop.store().cylinder(serial);
        const auto out = released.value().find(serial);
        const bool vented = out != released.value().end();
        if (!state || !state.value() || (state.value()->condition == Condition::retired && !vented)) {
            continue;
        }
        std::vector<Finding> findings = findingsOf(shop, *state.value(), shop.today());
        if (vented) {
            findings.push_back(out->second);
        }
        for (const Finding& finding : findings) {
            if (finding.severity >= Severity::caution) {
                cylinders.insert(serial);
                told.table.rows.push_back({severityWord(finding.severity), "cylinder:" + serial, finding.rule,
                                           finding.headline, finding.remedy});
            }
        }
    }
    told.sentence = fmt::format("{} of {} cylinders have something open that is more than a note.",
                                cylinders.size(), serials.value().size());
    return told;
}

Result<QuestionAnswer> answerOverruled(Shop& shop, const QuestionInput& input) {
    const auto entries = entriesBetween(shop, input.from, input.to, {EntryKind::findingOverruled});
    if (!entries) {
        return entries.error();
    }
    QuestionAnswer told;
    told.table.columns = {"entry", "day", "rule", "about", "reason", "by"};
    for (const Entry& entry : entries.value()) {
        told.table.rows.push_back({std::to_string(entry.seq), shop.zone().dateOf(entry.occurred).text(),
                                   bodyText(entry.body, "rule"), bodyText(entry.body, "subject"),
                                   bodyText(entry.body, "reason"), entry.operatorName});
        told.entries.push_back(entry.seq);
    }
    told.sentence = fmt::format("{} findings were overruled from {} to {}.", entries.value().size(),
                                input.from.text(), input.to.text());
    return told;
}

Result<QuestionAnswer> answerRecords(Shop& shop, const QuestionInput& input) {
    const auto all = recordsKept(shop, input.from, input.to);
    if (!all) {
        return all.error();
    }
    QuestionAnswer told;
    told.table.columns = {"record", "verdict", "about", "entry", "missing", "kept_by", "for", "law"};
    int complete = 0;
    int lacking = 0;
    int none = 0;
    for (const RecordKept& one : all.value()) {
        none += one.inTheseBooks && one.asked == 0 ? 1 : 0;
        complete += one.asked > 0 && one.gaps.empty() ? 1 : 0;
        lacking += one.gaps.empty() ? 0 : 1;
        if (one.gaps.empty()) {
            told.table.rows.push_back({one.record, one.verdict(), "", "", "", one.keeper, one.retention,
                                       one.jurisdiction + ", " + one.status});
        }
        for (const RecordGap& gap : one.gaps) {
            told.table.rows.push_back({one.record, one.verdict(), gap.subject,
                                       gap.entry == 0 ? "" : std::to_string(gap.entry), gap.missing,
                                       one.keeper, one.retention, one.jurisdiction + ", " + one.status});
            if (gap.entry != 0) {
                told.entries.push_back(gap.entry);
            }
        }
    }
    told.sentence =
        fmt::format("Of the records that the law or good practice asks for, from {} to {}, {} are "
                    "complete in these books, {} lack something, of {} nothing in the period asks, {} are "
                    "kept elsewhere.",
                    input.from.text(), input.to.text(), complete, lacking, none,
                    std::ssize(all.value()) - complete - lacking - none);
    return told;
}

} // namespace tarebook
