#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/ledger/reconcile.h"
#include "core/shop/shop.h"

namespace tarebook {

/// What a stamped tare leaves open, half width: 0.1 lb, the least by which caps, collars, paint or a new
/// valve move it (common practice, from memory: 0.1 to 1 lb), and the last digit that is stamped in pounds.
inline constexpr Mass kTareError = Mass::fromMilligrams(45'359);

/// A cylinder as it was scanned and put on the scale.
struct StockWeighing {
    std::string serial;
    Mass gross;
    std::string remark = {};
};

/// The racks walked with a scanner and a scale, all at one moment.
struct StocktakeAsk {
    std::vector<StockWeighing> weighings;
    std::optional<Instant> occurred = {}; // now by default; who has a cylinder is asked of today in any case
    /// Half width. Where none is given, the shop's setting stands for scale and tare together.
    std::optional<Mass> scaleError = {};
    Mass tareError = kTareError; // half width; counts beside a scale's error
    std::string place = {};      // only what stands at such a place is missed; empty: the whole shop
};

enum class StockVerdict {
    agrees,
    followed, // agrees, but only since the books followed the scale: its tare is in doubt
    varies,
};
[[nodiscard]] std::string_view stockVerdictWord(StockVerdict verdict);

/// What may have made a difference, and what would mend it. Nothing is mended by itself.
struct StockCause {
    DifferenceCause cause = DifferenceCause::release;
    std::string evidence;
    std::vector<Draft> mend;            // to be recorded as they stand, once a person says so
    std::vector<std::string> sentences; // what each of them says
    std::vector<std::string> commands;  // the same at the command line; empty where it has no verb for it
    /// What else is to be done; of a swap, to exchange the two numbers before anything is recorded.
    std::string advice = {};
};

struct StockLine {
    std::string serial;
    std::string content;
    std::string elsewhere; // where the books have it, as `out with MORGAN VALE`; empty: in the shop
    std::string remark;
    Mass gross;
    Mass tare;
    Mass bookGross;
    Mass difference;         // measured minus book
    Mass tolerance;          // combined uncertainty, half width
    std::int64_t tenths = 0; // of the uncertainty that the difference is, no sign
    StockVerdict verdict = StockVerdict::agrees;
    std::vector<StockCause> causes; // likeliest first
};

/// A cylinder that the books and the walk do not agree about.
struct StockAbsence {
    std::string serial;
    std::string where; // by the books: the place; of one that was seen, where it should be
    std::string content;
    Mass bookGross;
    std::string remedy;
    std::string command;
};

struct StocktakeReport {
    Instant occurred;
    std::vector<StockLine> lines;          // known cylinders, as they were scanned
    std::vector<StockAbsence> notSeen;     // in the shop by the books, not weighed
    std::vector<StockAbsence> unexpected;  // weighed, and by the books out, away, lost or gone
    std::vector<StockAbsence> unknown;     // weighed, and not in the register
    std::map<std::string, Mass> byContent; // differences beyond the uncertainty, summed
    std::vector<std::string> remarks;      // about the whole: a scale that seems off
    std::vector<std::string> cautions;
    std::string head;    // digest at which the books stood
    Sequence looked = 0; // their newest entry before they were looked at
    [[nodiscard]] int count(StockVerdict verdict) const;
};

/// Where most of the weighings are off by the same amount, the scale is suspected: at least so many, and more
/// than half of all.
inline constexpr int kScaleSuspect = 5;

/// The root of the sum of the squares, rounded up to the milligram.
[[nodiscard]] Mass combinedUncertainty(Mass scale, Mass tare);

/// Compares the walk with the books and looks for causes. Writes nothing. Error: nothing was weighed, a
/// serial twice, a gross or an uncertainty that cannot be, a moment after now.
[[nodiscard]] Result<StocktakeReport> stocktake(Shop& shop, const StocktakeAsk& ask);

/// `stocktake 2026-11-26`, as it stands in the note of each weighing.
[[nodiscard]] std::string stocktakeReference(const Shop& shop, const StocktakeReport& report);
/// Every weighing of the report as an entry of its own, all or nothing; the books follow the scale where it
/// is beyond the uncertainty. Left out: those in `leaveOut`, and what weighs less than its tare, which no
/// entry can say. Not recorded, with `outrun`, where one of them was changed since the report was made:
/// compare again. `progress` as Shop::record.
[[nodiscard]] Recorded recordStocktake(Shop& shop, const StocktakeReport& report,
                                       const std::vector<std::string>& leaveOut = {},
                                       const std::function<bool(std::int64_t, std::int64_t)>& progress = {});
/// Records the entries of a cause that this report proposes, all or nothing; not where a cylinder that they
/// are about was changed since, as recordStocktake(): what is proposed may stand in the books by now.
[[nodiscard]] Recorded recordMend(Shop& shop, const StocktakeReport& report, const StockCause& cause);

} // namespace tarebook
