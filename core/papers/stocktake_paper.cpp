#include "core/papers/stocktake_paper.h"

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr std::size_t kDigestShown = 16;

std::string joined(const std::vector<std::string>& sentences) {
    return fmt::format("{}", fmt::join(sentences, "; then: "));
}

void addSummary(const Display& display, const StocktakeReport& report, StocktakePaper& paper) {
    paper.summary.push_back(fmt::format(
        "{} weighed: {} agree with the books, {} vary, {} with a tare in doubt. {} not seen, {} not "
        "expected, {} unknown.",
        report.lines.size() + report.unknown.size(), report.count(StockVerdict::agrees),
        report.count(StockVerdict::varies), report.count(StockVerdict::followed), report.notSeen.size(),
        report.unexpected.size(), report.unknown.size()));
    for (const auto& [content, sum] : report.byContent) {
        paper.summary.push_back(fmt::format("Differences of {} together: {}",
                                            content.empty() ? "cylinders that hold nothing" : content,
                                            display.mass(sum)));
    }
    paper.summary.insert(paper.summary.end(), report.remarks.begin(), report.remarks.end());
}

void addWeighings(const Display& display, const StocktakeReport& report, StocktakePaper& paper) {
    paper.weighings = {
        "Weighings", {"Cylinder", "Contents", "Gross", "Books", "Difference", "Within", "Verdict"}, {}};
    for (const StockLine& line : report.lines) {
        paper.weighings.rows.push_back({line.serial, line.content, display.mass(line.gross),
                                        display.mass(line.bookGross), display.mass(line.difference),
                                        display.mass(line.tolerance),
                                        std::string(stockVerdictWord(line.verdict))});
    }
}

void addCauses(const StocktakeReport& report, StocktakePaper& paper) {
    paper.causes = {"Likely causes", {"Cylinder", "", "Cause", "Evidence", "What would mend it"}, {}};
    for (const StockLine& line : report.lines) {
        int number = 0;
        for (const StockCause& cause : line.causes) {
            paper.causes.rows.push_back({line.serial, fmt::format("{}.", ++number),
                                         std::string(differenceCauseWord(cause.cause)), cause.evidence,
                                         joined(cause.sentences)});
        }
    }
}

void addAbsences(const StocktakeReport& report, StocktakePaper& paper) {
    paper.absences = {"Not where the books have them", {"Cylinder", "", "By the books", "What to do"}, {}};
    const auto add = [&](const std::vector<StockAbsence>& absences, const char* what) {
        for (const StockAbsence& one : absences) {
            const std::string where = one.where.empty() ? "in the shop" : one.where;
            paper.absences.rows.push_back({one.serial, what, where, one.remedy});
        }
    };
    add(report.unexpected, "weighed");
    for (const StockAbsence& one : report.unknown) {
        paper.absences.rows.push_back({one.serial, "weighed", "unknown", one.remedy});
    }
    add(report.notSeen, "not seen");
}

} // namespace

StocktakePaper paperOf(const Shop& shop, const StocktakeReport& report) {
    StocktakePaper paper;
    paper.title = "Stocktake";
    paper.walked = shop.zone().localText(report.occurred);
    paper.shop = shop.settings().name;
    paper.shopAddress = shop.settings().address;
    addSummary(shop.display(), report, paper);
    addWeighings(shop.display(), report, paper);
    addCauses(report, paper);
    addAbsences(report, paper);
    paper.cautions = report.cautions;
    paper.head = report.head.substr(0, kDigestShown);
    return paper;
}

} // namespace tarebook
