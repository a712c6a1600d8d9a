#include "core/ledger/reconcile.h"

#include <cstdlib>
#include <utility>

#include <fmt/format.h>

#include "core/ledger/facts.h"

namespace tarebook {

namespace {

constexpr std::int64_t kPoundTimes100 = 45'359'237; // milligrams in 100 lb
__extension__ using Wide = __int128;

Mass massOf(std::int64_t milligrams) {
    return Mass::fromMilligrams(milligrams);
}

std::int64_t bookGross(const StocktakeLine& line) {
    return line.tare.milligrams() + line.bookNet.milligrams();
}

std::int64_t differenceOf(const StocktakeLine& line) {
    return line.gross.milligrams() - bookGross(line);
}

bool near(std::int64_t one, std::int64_t other, const StocktakeLine& line) {
    return std::abs(one - other) <= line.tolerance.milligrams();
}

Draft draftOf(const StocktakeLine& line, EntryKind kind, nlohmann::json body) {
    Draft draft;
    draft.occurred = line.occurred;
    draft.kind = kind;
    draft.body = std::move(body);
    return draft;
}

Draft weighedDraft(const StocktakeLine& line, Mass gross) {
    return draftOf(line, EntryKind::weighed,
                   {{"serial", line.serial},
                    {"gross_mg", gross.milligrams()},
                    {"tare_mg", line.tare.milligrams()},
                    {"tolerance_mg", line.tolerance.milligrams()}});
}

void explainSwap(const StocktakeLine& line, const std::vector<StocktakeLine>& lines,
                 const std::vector<StocktakeLine>& others, std::vector<Explanation>& found) {
    for (const StocktakeLine& other : lines) {
        if (other.serial != line.serial && near(line.gross.milligrams(), bookGross(other), line) &&
            near(other.gross.milligrams(), bookGross(line), line)) {
            found.push_back({DifferenceCause::swapped,
                             fmt::format("{} weighs what {} should ({}), and the reverse", line.serial,
                                         other.serial, massOf(bookGross(other)).kilogramsText()),
                             {weighedDraft(line, other.gross), weighedDraft(other, line.gross)}});
        }
    }
    for (const StocktakeLine& other : others) {
        if (other.serial != line.serial && near(line.gross.milligrams(), bookGross(other), line)) {
            found.push_back({DifferenceCause::swapped,
                             fmt::format("{} weighs what {} should ({}), which was not weighed", line.serial,
                                         other.serial, massOf(bookGross(other)).kilogramsText()),
                             {weighedDraft(other, line.gross)}});
        }
    }
}

/// At least two weighings, this one among them, are off by the same amount, and none since the first of them
/// is not.
void explainTare(const StocktakeLine& line, std::vector<Explanation>& found) {
    const std::int64_t off =
        line.gross.milligrams() - line.tare.milligrams() - line.netByMovements.milligrams();
    std::optional<Instant> since;
    int weighings = 1;
    for (auto earlier = line.history.rbegin(); earlier != line.history.rend(); ++earlier) {
        const std::int64_t itsOff =
            earlier->gross.milligrams() - line.tare.milligrams() - earlier->netByMovements.milligrams();
        if (!near(itsOff, off, line)) {
            break;
        }
        since = earlier->occurred;
        ++weighings;
    }
    const std::int64_t tare = line.tare.milligrams() + off;
    if (!since || near(off, 0, line) || tare < 0) {
        return;
    }
    found.push_back(
        {DifferenceCause::tareChanged,
         fmt::format("{} weighings since {} are all off by {}", weighings, since->text(),
                     massOf(off).kilogramsText()),
         {draftOf(line, EntryKind::marksRestated,
                  {{"serial", line.serial},
                   {"tare_mg", tare},
                   {"reason", "every weighing since " + since->text() + " is off by the same amount"}})}});
}

struct Slip {
    std::int64_t right = 0;
    const char* words = "";
};

/// What the mass would have been if somebody slipped in its unit. A mass in milligrams is x lb with
/// x = mass / 453592.37.
std::vector<Slip> slipsOf(std::int64_t mass) {
    std::vector<Slip> slips{
        {static_cast<std::int64_t>((static_cast<Wide>(mass) * 100'000'000 + kPoundTimes100 / 2) /
                                   kPoundTimes100),
         "pounds that were kilograms"},
        {static_cast<std::int64_t>((static_cast<Wide>(mass) * kPoundTimes100 + 50'000'000) / 100'000'000),
         "kilograms that were pounds"}};
    // 61 lb 4 oz written as 61.4 lb, 61 lb 14 oz as 61.14 lb; the decimals of the pound, to the nearest.
    const auto hundredths =
        static_cast<std::int64_t>((static_cast<Wide>(mass) * 10'000 + kPoundTimes100 / 2) / kPoundTimes100);
    const std::int64_t pounds = hundredths / 100;
    const std::int64_t decimals = hundredths % 100;
    for (const std::int64_t ounces : {decimals % 10 == 0 ? decimals / 10 : 0, decimals}) {
        if (ounces > 0 && ounces < 16) {
            slips.push_back({(pounds * 16 + ounces) * kPoundTimes100 / 1'600,
                             "ounces that were written as decimals of a pound"});
        }
    }
    return slips;
}

void explainSlip(const StocktakeLine& line, std::vector<Explanation>& found) {
    const std::string self = "cylinder:" + line.serial;
    for (const Entry& entry : line.movements) {
        const auto facts = massFactsOf(entry);
        if (!facts || facts.value().movements.size() != 1 || !entry.body.contains("mass_mg")) {
            continue;
        }
        const Movement& movement = facts.value().movements.front();
        const bool inward = movement.target.text() == self;
        if (!inward && movement.source.text() != self) {
            continue;
        }
        const std::int64_t written = movement.mass.milligrams();
        for (const Slip& slip : slipsOf(written)) {
            const std::int64_t more = slip.right - written;
            if (slip.right <= 0 || near(more, 0, line) ||
                !near(inward ? more : -more, differenceOf(line), line)) {
                continue;
            }
            Draft reversal =
                draftOf(line, EntryKind::entryReversed, {{"entry", entry.seq}, {"reason", slip.words}});
            Draft again = entry;
            again.id.clear();
            again.body["mass_mg"] = slip.right;
            found.push_back(
                {DifferenceCause::unitSlip,
                 fmt::format("entry {} says {}: {} make it {}", entry.seq, movement.mass.kilogramsText(),
                             slip.words, massOf(slip.right).kilogramsText()),
                 {std::move(reversal), std::move(again)}});
        }
    }
}

void explainJob(const StocktakeLine& line, const std::vector<OpenJob>& jobs,
                std::vector<Explanation>& found) {
    for (const OpenJob& job : jobs) {
        const std::int64_t change = job.recovered ? job.mass.milligrams() : -job.mass.milligrams();
        const auto system = Account::parse(job.system);
        if (!system || near(change, 0, line) || !near(change, differenceOf(line), line)) {
            continue;
        }
        const Account self = Account::cylinder(line.serial);
        const Mass mass = massOf(std::abs(differenceOf(line)));
        nlohmann::json body = movementBody({job.recovered ? system.value() : self,
                                            job.recovered ? self : system.value(),
                                            mass,
                                            job.refrigerant,
                                            {},
                                            GasState::recovered});
        body["job"] = job.job;
        found.push_back(
            {DifferenceCause::jobMass,
             fmt::format("job {} {} {} and has no entry", job.job, job.recovered ? "recovered" : "charged",
                         job.mass.kilogramsText()),
             {draftOf(line, job.recovered ? EntryKind::recovered : EntryKind::charged, std::move(body))}});
    }
}

} // namespace

std::string_view differenceCauseWord(DifferenceCause cause) {
    switch (cause) {
    case DifferenceCause::swapped:
        return "swapped";
    case DifferenceCause::tareChanged:
        return "tare changed";
    case DifferenceCause::unitSlip:
        return "unit slip";
    case DifferenceCause::jobMass:
        return "job without an entry";
    case DifferenceCause::release:
        return "release";
    case DifferenceCause::unrecordedRecovery:
        return "unrecorded recovery";
    }
    return "release";
}

std::vector<Variance> reconciled(const std::vector<StocktakeLine>& lines, const std::vector<OpenJob>& jobs,
                                 const std::vector<StocktakeLine>& others) {
    std::vector<Variance> variances;
    for (const StocktakeLine& line : lines) {
        const std::int64_t difference = differenceOf(line);
        Variance variance{line.serial, massOf(difference), !near(difference, 0, line), {}};
        if (variance.beyond) {
            explainSwap(line, lines, others, variance.explanations);
            explainTare(line, variance.explanations);
            explainSlip(line, variance.explanations);
            explainJob(line, jobs, variance.explanations);
            variance.explanations.push_back(
                {difference < 0 ? DifferenceCause::release : DifferenceCause::unrecordedRecovery,
                 fmt::format("{} {} than the books say, and nothing on file explains it",
                             massOf(std::abs(difference)).kilogramsText(), difference < 0 ? "less" : "more"),
                 {weighedDraft(line, line.gross)}});
        }
        variances.push_back(std::move(variance));
    }
    return variances;
}

} // namespace tarebook
