#include <algorithm>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "core/shop/names.h"
#include "core/shop/stock_impossible.h"
#include "core/shop/stocktake.h"

namespace tarebook {

namespace {

/// Unless a cylinder that the entries are about was changed since it was compared.
Recorded recordAsCompared(Shop& shop, const StocktakeReport& report, const std::vector<Draft>& drafts,
                          const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    LookedAt looked{report.looked};
    for (const Draft& draft : drafts) {
        for (std::string& subject : subjectsOf(draft)) {
            if (subject.starts_with("cylinder:")) {
                looked.subjects.push_back(std::move(subject));
            }
        }
    }
    Recorded recorded = shop.record(drafts, progress, looked);
    if (recorded.outrun) {
        recorded.error = {"one of these cylinders was changed since they were compared",
                          "compare again, then record"};
    }
    return recorded;
}

} // namespace

std::string stocktakeReference(const Shop& shop, const StocktakeReport& report) {
    return "stocktake " + shop.zone().dateOf(report.occurred).text();
}

Recorded recordStocktake(Shop& shop, const StocktakeReport& report, const std::vector<std::string>& leaveOut,
                         const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    const std::set<std::string> left(leaveOut.begin(), leaveOut.end());
    for (const std::string& serial : left) {
        if (std::none_of(report.lines.begin(), report.lines.end(),
                         [&](const StockLine& line) { return line.serial == serial; })) {
            return notRecorded(
                {fmt::format("{} is not among the weighings", tarebook::quoted(serial)), "name one of them"});
        }
    }
    std::vector<Draft> drafts;
    for (const StockLine& line : report.lines) {
        if (left.contains(line.serial) || line.gross < line.tare) {
            continue;
        }
        if (const auto wrong = impossibleWeight(shop, line.serial, line.gross)) {
            return notRecorded(
                {fmt::format("{}, gross {}: {}", line.serial, shop.display().mass(line.gross), wrong->wrong),
                 "read the scale again with its unit, or leave it out"});
        }
        drafts.push_back(shop.draft(
            EntryKind::weighed,
            {{"serial", line.serial},
             {"gross_mg", line.gross.milligrams()},
             {"tare_mg", line.tare.milligrams()},
             {"tolerance_mg", line.tolerance.milligrams()},
             {"note", stocktakeReference(shop, report) + (line.remark.empty() ? "" : ", " + line.remark)}},
            report.occurred));
    }
    if (drafts.empty()) {
        return notRecorded({"no weighing is left to record", "weigh a cylinder of the register"});
    }
    return recordAsCompared(shop, report, drafts, progress);
}

Recorded recordMend(Shop& shop, const StocktakeReport& report, const StockCause& cause) {
    return cause.mend.empty() ? notRecorded({"nothing is proposed", "look at the cylinder's card"})
                              : recordAsCompared(shop, report, cause.mend, {});
}

} // namespace tarebook
