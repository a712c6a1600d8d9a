#include "core/ledger/reconcile.h"

#include <algorithm>
#include <cstdlib>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "core/ledger/variance_causes.h"

namespace tarebook {

namespace {

Mass massOf(std::int64_t milligrams) {
    return Mass::fromMilligrams(milligrams);
}

void explainSwap(const StocktakeLine& line, const Stocktake& all, const std::vector<StocktakeLine>& others,
                 std::vector<Explanation>& found) {
    for (const StocktakeLine* other : all.beyond.withBookGross(line.gross.milligrams(), line)) {
        if (!near(other->gross.milligrams(), bookGross(line), line)) {
            continue;
        }
        found.push_back(
            {DifferenceCause::swapped,
             fmt::format("{} weighs what {} should ({}), and the reverse ({})", line.serial, other->serial,
                         all.words.mass(massOf(bookGross(*other))), all.words.mass(massOf(bookGross(line)))),
             {weighedDraft(line, other->gross), weighedDraft(*other, line.gross)},
             2,
             massOf(std::abs(line.gross.milligrams() - bookGross(*other)))});
    }
    if (others.size() > kMostNotWeighed) {
        return;
    }
    const StocktakeLine* alone = nullptr;
    int fitting = 0;
    for (const StocktakeLine& other : others) {
        if (other.serial != line.serial && near(line.gross.milligrams(), bookGross(other), line)) {
            alone = &other;
            ++fitting;
        }
    }
    if (fitting == 1) {
        found.push_back({DifferenceCause::swapped,
                         fmt::format("{} weighs what {} should ({}), which was not weighed", line.serial,
                                     alone->serial, all.words.mass(massOf(bookGross(*alone)))),
                         {weighedDraft(*alone, line.gross)},
                         0,
                         massOf(std::abs(line.gross.milligrams() - bookGross(*alone)))});
    }
}

/// By its movements alone, with the tare as it stood in the register.
std::int64_t offOf(Mass gross, Mass tare, Mass netByMovements) {
    return gross.milligrams() - tare.milligrams() - netByMovements.milligrams();
}

/// This weighing and at least kWeighingsOffBefore before it are off by the same amount, and none since the
/// first of them is not.
void explainTare(const StocktakeLine& line, const EvidenceWords& words, std::vector<Explanation>& found) {
    const std::int64_t off = offOf(line.gross, line.tare, line.netByMovements);
    const TareEvidence* since = nullptr;
    int weighings = 1;
    for (auto earlier = line.history.rbegin(); earlier != line.history.rend(); ++earlier) {
        if (!near(offOf(earlier->gross, earlier->tare, earlier->netByMovements), off, line)) {
            break;
        }
        since = &*earlier;
        ++weighings;
    }
    const std::int64_t tare = line.tare.milligrams() + off;
    if (weighings <= kWeighingsOffBefore || since == nullptr || near(off, 0, line) || tare < 0) {
        return;
    }
    StocktakeLine mended = line;
    mended.tare = massOf(tare);
    found.push_back({DifferenceCause::tareChanged,
                     fmt::format("{} weighings since {} are all off by {} from what the movements say",
                                 weighings, words.moment(since->occurred), words.mass(massOf(off))),
                     {draftOf(line, EntryKind::marksRestated,
                              {{"serial", line.serial},
                               {"tare_mg", tare},
                               {"reason", "every weighing since " + words.moment(since->occurred) +
                                              " is off by the same amount"}}),
                      weighedDraft(mended, line.gross)},
                     weighings,
                     misfitOf(line, off)});
}

/// What is left when no figure fits.
Explanation unexplained(const StocktakeLine& line, bool alone, const EvidenceWords& words) {
    const std::int64_t difference = differenceOf(line);
    const bool less = difference < 0;
    return {less ? DifferenceCause::release : DifferenceCause::unrecordedRecovery,
            fmt::format("{} {} than the books say, {}", words.mass(massOf(std::abs(difference))),
                        less ? "less" : "more",
                        alone ? "and nothing on file explains it" : "if none of these is so"),
            {weighedDraft(line, line.gross)},
            0,
            massOf(std::abs(difference))};
}

bool likelier(const Explanation& one, const Explanation& other) {
    return std::tuple(-one.figures, one.misfit, one.cause) <
           std::tuple(-other.figures, other.misfit, other.cause);
}

} // namespace

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

Mass misfitOf(const StocktakeLine& line, std::int64_t explained) {
    return massOf(std::abs(differenceOf(line) - explained));
}

std::string_view differenceCauseWord(DifferenceCause cause) {
    switch (cause) {
    case DifferenceCause::swapped:
        return "swapped";
    case DifferenceCause::tareChanged:
        return "tare changed";
    case DifferenceCause::otherCylinder:
        return "entry of another cylinder";
    case DifferenceCause::enteredTwice:
        return "entered twice";
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

BeyondLines::BeyondLines(const std::vector<StocktakeLine>& lines) {
    for (const StocktakeLine& line : lines) {
        if (!near(differenceOf(line), 0, line)) {
            m_byBookGross.emplace(bookGross(line), &line);
            m_byDifference.emplace(differenceOf(line), &line);
        }
    }
}

namespace {

std::vector<const StocktakeLine*> within(const std::multimap<std::int64_t, const StocktakeLine*>& lines,
                                         std::int64_t middle, const StocktakeLine& line) {
    std::vector<const StocktakeLine*> found;
    const std::int64_t reach = line.tolerance.milligrams();
    for (auto place = lines.lower_bound(middle - reach);
         place != lines.end() && place->first <= middle + reach; ++place) {
        if (place->second->serial != line.serial) {
            found.push_back(place->second);
        }
    }
    return found;
}

} // namespace

std::vector<const StocktakeLine*> BeyondLines::withBookGross(std::int64_t gross,
                                                             const StocktakeLine& line) const {
    return within(m_byBookGross, gross, line);
}

std::vector<const StocktakeLine*> BeyondLines::withDifference(std::int64_t difference,
                                                              const StocktakeLine& line) const {
    return within(m_byDifference, difference, line);
}

std::vector<Variance> reconciled(const std::vector<StocktakeLine>& lines, const std::vector<OpenJob>& jobs,
                                 const std::vector<StocktakeLine>& others, const EvidenceWords& words) {
    Stocktake all{BeyondLines(lines), {}, jobs, words};
    for (const StocktakeLine& line : lines) {
        all.weighed.emplace(line.serial, &line);
    }
    std::vector<Variance> variances;
    for (const StocktakeLine& line : lines) {
        const std::int64_t difference = differenceOf(line);
        Variance variance{line.serial, massOf(difference), !near(difference, 0, line), {}, false};
        std::vector<Explanation>& found = variance.explanations;
        explainTare(line, words, found);
        if (!variance.beyond) {
            variance.followed = !found.empty();
            variances.push_back(std::move(variance));
            continue;
        }
        // A tare that is off by something else does not explain this.
        std::erase_if(found, [&](const Explanation& one) { return one.misfit > line.tolerance; });
        explainSwap(line, all, others, found);
        for (const auto explain : {explainThisWeighing, explainOtherCylinder, explainTwice, explainSlip,
                                   explainReversed, explainJob}) {
            explain(line, all, found);
        }
        std::stable_sort(found.begin(), found.end(), likelier);
        found.push_back(unexplained(line, found.empty(), words));
        variances.push_back(std::move(variance));
    }
    return variances;
}

} // namespace tarebook
