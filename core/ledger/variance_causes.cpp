#include "core/ledger/variance_causes.h"

#include <cstdlib>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "core/ledger/facts.h"
#include "core/ledger/unit_slip.h"

namespace tarebook {

namespace {

Mass massOf(std::int64_t milligrams) {
    return Mass::fromMilligrams(milligrams);
}

/// The one movement of an entry; nothing where it is none, or a batch of several.
std::optional<Movement> movementOf(const Entry& entry) {
    const auto facts = massFactsOf(entry);
    if (!facts || facts.value().movements.size() != 1 || !entry.body.contains("mass_mg")) {
        return std::nullopt;
    }
    return facts.value().movements.front();
}

/// What it changed in the cylinder: in is above zero, out below; 0 where it is about another.
std::int64_t changeOf(const Movement& movement, const std::string& serial) {
    const Account self = Account::cylinder(serial);
    return movement.target == self   ? movement.mass.milligrams()
           : movement.source == self ? -movement.mass.milligrams()
                                     : 0;
}

Draft reversalOf(const StocktakeLine& line, const Entry& entry, std::string reason) {
    return draftOf(line, EntryKind::entryReversed, {{"entry", entry.seq}, {"reason", std::move(reason)}});
}

Draft againOf(const Entry& entry) {
    Draft again = entry;
    again.id.clear();
    return again;
}

/// A figure of an entry that makes the book gross of the cylinder, one milligram a milligram.
struct Figure {
    const char* key = "";
    std::int64_t written = 0;
    int sign = 1; // of what it changes in the book gross
};

std::optional<Figure> figureOf(const Entry& entry, const std::string& serial) {
    const auto read = [&](const char* key, int sign) -> std::optional<Figure> {
        const auto field = entry.body.find(key);
        return field != entry.body.end() && field->is_number_integer()
                   ? std::optional(Figure{key, field->get<std::int64_t>(), sign})
                   : std::nullopt;
    };
    switch (entry.kind) {
    case EntryKind::weighed:
        return read("gross_mg", 1);
    case EntryKind::cylinderRegistered:
    case EntryKind::marksRestated:
    case EntryKind::retested:
        return read("tare_mg", 1);
    default:
        break;
    }
    const auto movement = movementOf(entry);
    const std::int64_t change = movement ? changeOf(*movement, serial) : 0;
    if (change == 0) {
        return std::nullopt;
    }
    // Where it was weighed afterwards, the mass follows from that weight and not the reverse.
    if (entry.body.value("cylinder", std::string()) == serial && entry.body.contains("gross_after_mg")) {
        return read("gross_after_mg", 1);
    }
    return read("mass_mg", change > 0 ? 1 : -1);
}

/// The entry with the figure set right; nothing where no such entry could have been.
std::optional<Draft> mended(const Entry& entry, const std::string& serial, const Figure& figure,
                            std::int64_t right, UnitSlip slip) {
    Draft again = againOf(entry);
    again.body[figure.key] = right;
    if (std::string_view(figure.key) != "gross_after_mg") {
        return right > 0 ? std::optional(std::move(again)) : std::nullopt;
    }
    const std::int64_t written = entry.body["mass_mg"].get<std::int64_t>();
    const auto movement = movementOf(entry);
    const int sign = movement && changeOf(*movement, serial) < 0 ? -1 : 1;
    std::int64_t mass = written + sign * (right - figure.written);
    if (mass <= 0 && entry.body.contains("gross_before_mg")) {
        // Both weights of the entry slipped.
        const auto before = withoutSlip(entry.body["gross_before_mg"].get<std::int64_t>(), slip);
        if (before) {
            again.body["gross_before_mg"] = *before;
            mass = sign * (right - *before);
        }
    }
    again.body["mass_mg"] = mass;
    return mass > 0 ? std::optional(std::move(again)) : std::nullopt;
}

/// What an entry that named one cylinder says when it names another. Its weights were those of the wrong one.
Draft movedTo(const Entry& entry, const std::string& from, const std::string& to) {
    Draft again = againOf(entry);
    for (const char* key : {"from", "to"}) {
        if (again.body[key] == Account::cylinder(from).text()) {
            again.body[key] = Account::cylinder(to).text();
        }
    }
    for (const char* key : {"gross_before_mg", "gross_after_mg", "tare_mg", "tolerance_mg", "cylinder"}) {
        again.body.erase(key);
    }
    return again;
}

/// `change`: what the entry does to the line's cylinder once it names the right one.
Explanation otherCylinder(const StocktakeLine& line, const Entry& entry, const std::string& from,
                          const std::string& to, std::int64_t change, const EvidenceWords& words) {
    const bool own = from == line.serial;
    const Mass mass = massOf(entry.body.value("mass_mg", std::int64_t{0}));
    return {DifferenceCause::otherCylinder,
            fmt::format("entry {} of {}: its {} is what {} is off by, and {} is off by the reverse",
                        entry.seq, from, words.mass(mass), line.serial, own ? to : from),
            {reversalOf(line, entry, fmt::format("it happened to {}, not {}", to, from)),
             movedTo(entry, from, to)},
            2,
            misfitOf(line, change)};
}

} // namespace

void explainSlip(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found) {
    for (const Entry& entry : line.movements) {
        const auto figure = figureOf(entry, line.serial);
        if (!figure || figure->written < 0) {
            continue;
        }
        for (const UnitSlip slip : kUnitSlips) {
            const auto right = withoutSlip(figure->written, slip);
            const std::int64_t change = right ? figure->sign * (*right - figure->written) : 0;
            if (near(change, 0, line) || !near(change, differenceOf(line), line)) {
                continue;
            }
            auto again = mended(entry, line.serial, *figure, *right, slip);
            if (!again) {
                continue;
            }
            const std::string words(unitSlipWords(slip));
            Explanation one{DifferenceCause::unitSlip,
                            fmt::format("entry {} says {}: {} make it {}", entry.seq,
                                        all.words.mass(massOf(figure->written)), words,
                                        all.words.mass(massOf(*right))),
                            {},
                            1,
                            misfitOf(line, change)};
            if (std::string_view(figure->key) == "tare_mg") {
                one.mend = {draftOf(line, EntryKind::marksRestated,
                                    {{"serial", line.serial}, {"tare_mg", *right}, {"reason", words}})};
            } else {
                one.mend = {reversalOf(line, entry, words), std::move(*again)};
            }
            found.push_back(std::move(one));
        }
    }
}

void explainTwice(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found) {
    for (std::size_t later = 0; later < line.movements.size(); ++later) {
        const Entry& entry = line.movements[later];
        const auto movement = movementOf(entry);
        const std::int64_t change = movement ? changeOf(*movement, line.serial) : 0;
        if (change == 0 || !near(-change, differenceOf(line), line)) {
            continue;
        }
        for (std::size_t earlier = later + 1; earlier < line.movements.size(); ++earlier) {
            const Entry& twin = line.movements[earlier];
            if (twin.kind != entry.kind || movementOf(twin) != movement) {
                continue;
            }
            const Entry& second = entry.seq > twin.seq ? entry : twin;
            const Entry& first = entry.seq > twin.seq ? twin : entry;
            found.push_back(
                {DifferenceCause::enteredTwice,
                 fmt::format("entries {} and {} both move {} from {} to {}", first.seq, second.seq,
                             all.words.mass(movement->mass), movement->source.text(),
                             movement->target.text()),
                 {reversalOf(line, second, fmt::format("entered twice: entry {} is the same", first.seq))},
                 2,
                 misfitOf(line, -change)});
            return;
        }
    }
}

void explainOtherCylinder(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found) {
    // An entry of its own that another should have: the other is off by the reverse.
    for (const Entry& entry : line.movements) {
        const auto movement = movementOf(entry);
        const std::int64_t change = movement ? changeOf(*movement, line.serial) : 0;
        if (change == 0 || !near(-change, differenceOf(line), line)) {
            continue;
        }
        for (const StocktakeLine* other : all.beyond.withDifference(change, line)) {
            if (changeOf(*movement, other->serial) == 0) {
                found.push_back(otherCylinder(line, entry, line.serial, other->serial, -change, all.words));
            }
        }
    }
    // An entry of another that it should have itself.
    for (const StocktakeLine* other : all.beyond.withDifference(-differenceOf(line), line)) {
        for (const Entry& entry : other->movements) {
            const auto movement = movementOf(entry);
            const std::int64_t change = movement ? changeOf(*movement, other->serial) : 0;
            if (change != 0 && near(change, differenceOf(line), line) &&
                changeOf(*movement, line.serial) == 0) {
                found.push_back(otherCylinder(line, entry, other->serial, line.serial, change, all.words));
            }
        }
    }
    for (const Entry& entry : line.elsewhere) {
        const auto movement = movementOf(entry);
        const bool otherGas = movement && !movement->refrigerant.empty() && !line.refrigerant.empty() &&
                              movement->refrigerant != line.refrigerant;
        if (!movement || otherGas || changeOf(*movement, line.serial) != 0) {
            continue;
        }
        for (const Account* account : {&movement->target, &movement->source}) {
            const std::int64_t change =
                account->kind == AccountKind::cylinder && !all.weighed.contains(account->name)
                    ? changeOf(*movement, account->name)
                    : 0;
            if (change != 0 && near(change, differenceOf(line), line)) {
                Explanation one = otherCylinder(line, entry, account->name, line.serial, change, all.words);
                one.evidence =
                    fmt::format("entry {} of {}: its {} is what {} is off by; {} was not weighed", entry.seq,
                                account->name, all.words.mass(movement->mass), line.serial, account->name);
                one.figures = 1;
                found.push_back(std::move(one));
            }
        }
    }
}

void explainReversed(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found) {
    for (const Entry& entry : line.reversed) {
        const auto movement = movementOf(entry);
        const std::int64_t change = movement ? changeOf(*movement, line.serial) : 0;
        if (change != 0 && near(change, differenceOf(line), line)) {
            found.push_back({DifferenceCause::jobMass,
                             fmt::format("entry {}, {}, was reversed and not entered again", entry.seq,
                                         all.words.mass(movement->mass)),
                             {againOf(entry)},
                             1,
                             misfitOf(line, change)});
        }
    }
}

void explainJob(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found) {
    for (const OpenJob& job : all.jobs) {
        const std::int64_t change = job.recovered ? job.mass.milligrams() : -job.mass.milligrams();
        const auto system = Account::parse(job.system);
        if (!system || near(change, 0, line) || !near(change, differenceOf(line), line) ||
            (!job.serial.empty() && job.serial != line.serial)) {
            continue;
        }
        const Account self = Account::cylinder(line.serial);
        const Mass mass = massOf(std::abs(differenceOf(line)));
        nlohmann::json body =
            movementBody({job.recovered ? system.value() : self, job.recovered ? self : system.value(), mass,
                          job.refrigerant, job.recovered ? job.owner : std::string(), GasState::recovered});
        if (!job.job.empty()) {
            body["job"] = job.job;
        }
        found.push_back(
            {DifferenceCause::jobMass,
             fmt::format("{} {} {}{} and has no entry",
                         job.job.empty() ? "a job at " + job.system : "job " + job.job,
                         job.recovered ? "recovered" : "charged", all.words.mass(job.mass),
                         job.origin.empty() ? "" : ", " + job.origin + ","),
             {draftOf(line, job.recovered ? EntryKind::recovered : EntryKind::charged, std::move(body))},
             1,
             misfitOf(line, change)});
    }
}

} // namespace tarebook
