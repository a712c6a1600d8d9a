#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/ledger/reconcile.h"

namespace tarebook {

[[nodiscard]] std::int64_t bookGross(const StocktakeLine& line);
/// Measured minus book, in milligrams.
[[nodiscard]] std::int64_t differenceOf(const StocktakeLine& line);
/// Within the line's tolerance.
[[nodiscard]] bool near(std::int64_t one, std::int64_t other, const StocktakeLine& line);
[[nodiscard]] Draft draftOf(const StocktakeLine& line, EntryKind kind, nlohmann::json body);
[[nodiscard]] Draft weighedDraft(const StocktakeLine& line, Mass gross);
/// What of the difference is left open where this much is explained.
[[nodiscard]] Mass misfitOf(const StocktakeLine& line, std::int64_t explained);

/// The lines beyond their uncertainty, to be found by what they show.
class BeyondLines {
public:
    explicit BeyondLines(const std::vector<StocktakeLine>& lines);
    /// Those whose book gross, or whose difference, is at this mass within the tolerance of `line`; `line`
    /// itself is none of them.
    [[nodiscard]] std::vector<const StocktakeLine*> withBookGross(std::int64_t gross,
                                                                  const StocktakeLine& line) const;
    [[nodiscard]] std::vector<const StocktakeLine*> withDifference(std::int64_t difference,
                                                                   const StocktakeLine& line) const;

private:
    std::multimap<std::int64_t, const StocktakeLine*> m_byBookGross;
    std::multimap<std::int64_t, const StocktakeLine*> m_byDifference;
};

/// What every cause is looked for in.
struct Stocktake {
    BeyondLines beyond;
    std::map<std::string, const StocktakeLine*> weighed; // every line, by serial
    const std::vector<OpenJob>& jobs;
    const EvidenceWords& words;
};

// One function a cause; each adds what fits the line.
/// This weighing, in the other unit, is what the books say: nothing is to be entered for it.
void explainThisWeighing(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found);
void explainSlip(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found);
void explainTwice(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found);
void explainOtherCylinder(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found);
void explainReversed(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found);
void explainJob(const StocktakeLine& line, const Stocktake& all, std::vector<Explanation>& found);

} // namespace tarebook
