#include "core/shop/stocktake.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <unordered_map>

#include <fmt/format.h>

#include "core/shop/card.h"
#include "core/shop/mending.h"
#include "core/shop/names.h"
#include "core/shop/stock_evidence.h"
#include "core/shop/stock_impossible.h"

namespace tarebook {

namespace {

constexpr std::int64_t kLargestGross = 5'000'000'000; // mg: 5 t, far above any refillable cylinder
constexpr std::size_t kMostRemark = 200;

constexpr const char* kLeakCaution =
    "A cylinder that lost weight may be leaking: ventilate, no flame or spark, goggles and gloves, and find "
    "the "
    "leak before it is filled or moved. Local codes and licensed practice decide.";
constexpr const char* kTareCaution =
    "A new tare moves the weight at which filling stops: weigh the cylinder evacuated before it is restated.";

Mass massOf(std::int64_t milligrams) {
    return Mass::fromMilligrams(milligrams);
}

std::string whereOf(const FleetRow& row) {
    if (row.condition == "away") {
        return "away at a reclaimer";
    }
    if (row.condition == "retired") {
        return "no longer in the fleet";
    }
    if (row.condition == "lost") {
        return "lost";
    }
    if (row.holder.empty()) {
        return {};
    }
    return "out with " + row.holder + (row.job.empty() ? "" : ", job " + row.job);
}

/// What the person has to do first, beside the entries.
std::string adviceOf(DifferenceCause cause) {
    switch (cause) {
    case DifferenceCause::swapped:
        return "Look at both numbers; if they were swapped, exchange the two weights before anything is "
               "recorded.";
    case DifferenceCause::tareChanged:
        return "Weigh it evacuated before the tare is restated.";
    case DifferenceCause::release:
        return "Suspect a leak: look for it at valve and cap before it is filled or moved, then record the "
               "weight.";
    case DifferenceCause::unrecordedRecovery:
        return "Ask who filled it; record the weight if nobody knows.";
    default:
        return "Look at the entry and at the ticket of the job before anything is recorded.";
    }
}

/// Compares one walk with the books.
class Walk {
public:
    Walk(Shop& shop, const StocktakeAsk& ask)
        : m_shop(shop), m_ask(ask), m_moment(ask.occurred.value_or(shop.now())), m_evidence(shop, m_moment),
          m_tolerance(ask.scaleError ? combinedUncertainty(*ask.scaleError, ask.tareError)
                                     : shop.settings().weighingTolerance) {}

    Result<StocktakeReport> compare() {
        m_report.occurred = m_moment;
        m_report.looked = m_shop.store().headSeq();
        m_report.head = m_shop.store().headDigest();
        for (const auto step : {&Walk::check, &Walk::readFleet, &Walk::takeLines, &Walk::gather}) {
            if (const auto done = (this->*step)(); !done) {
                return done.error();
            }
        }
        explain();
        addAbsences();
        suspectScale();
        return std::move(m_report);
    }

private:
    [[nodiscard]] Result<bool> check() {
        if (m_ask.weighings.empty()) {
            return Error{"nothing was weighed", "scan a cylinder and weigh it"};
        }
        if (m_moment > m_shop.now()) {
            return Error{"a stocktake cannot have happened after now", "check the day"};
        }
        for (const auto& [name, mass] :
             {std::pair{"scale", m_ask.scaleError.value_or(Mass())}, std::pair{"tare", m_ask.tareError}}) {
            if (mass.milligrams() < 0 || mass.milligrams() > kLargestGross) {
                return Error{fmt::format("the error of the {} is {}", name, mass.kilogramsText()),
                             "give half of its width, as 0.2 lb"};
            }
        }
        std::set<std::string> seen;
        for (const StockWeighing& weighing : m_ask.weighings) {
            if (!seen.insert(weighing.serial).second) {
                return Error{fmt::format("{} was weighed twice", tarebook::quoted(weighing.serial)),
                             "keep the weight that is right; the other may be of another cylinder"};
            }
            if (weighing.gross.milligrams() <= 0 || weighing.gross.milligrams() > kLargestGross) {
                return Error{fmt::format("gross {} of {} is no weight of a cylinder",
                                         m_shop.display().mass(weighing.gross), weighing.serial),
                             "weigh it again; mind the unit"};
            }
            if (weighing.remark.size() > kMostRemark) {
                return Error{
                    fmt::format("the remark on {} is longer than {} bytes", weighing.serial, kMostRemark),
                    "shorten it"};
            }
        }
        return true;
    }

    [[nodiscard]] Result<bool> readFleet() {
        for (const char* condition : {"", "retired"}) {
            FleetQuery query;
            query.condition = condition;
            auto rows = m_shop.store().fleet(query);
            if (!rows) {
                return rows.error();
            }
            for (FleetRow& row : std::move(rows).value()) {
                std::string serial = row.serial;
                m_fleet.emplace(std::move(serial), std::move(row));
            }
        }
        return true;
    }

    [[nodiscard]] Result<bool> takeLines() {
        const bool then = m_moment < m_shop.now();
        for (const StockWeighing& weighing : m_ask.weighings) {
            const auto known = m_fleet.find(weighing.serial);
            if (known == m_fleet.end()) {
                addUnknown(weighing);
                continue;
            }
            const FleetRow& row = known->second;
            StocktakeLine line;
            line.serial = row.serial;
            line.occurred = m_moment;
            line.gross = weighing.gross;
            line.tare = massOf(row.tareMg);
            line.bookNet = massOf(row.netMg);
            if (then) {
                const auto net = m_evidence.netThen(row.serial);
                if (!net) {
                    return net.error();
                }
                line.bookNet = net.value();
            }
            line.netByMovements = line.bookNet;
            line.tolerance = m_tolerance;
            line.refrigerant = row.content;
            m_lines.push_back(std::move(line));

            StockLine shown;
            shown.serial = row.serial;
            shown.content = row.content;
            shown.elsewhere = whereOf(row);
            shown.remark = weighing.remark;
            m_report.lines.push_back(std::move(shown));
        }
        return true;
    }

    /// Reads the past only of those whose figures ask for it.
    [[nodiscard]] Result<bool> gather() {
        const auto followed = m_evidence.followedScale();
        if (!followed) {
            return followed.error();
        }
        for (StocktakeLine& line : m_lines) {
            const std::int64_t off =
                line.gross.milligrams() - line.tare.milligrams() - line.bookNet.milligrams();
            const auto before = followed.value().find(line.serial);
            const bool doubted =
                before != followed.value().end() && std::abs(before->second + off) > m_tolerance.milligrams();
            if (std::abs(off) <= m_tolerance.milligrams() && !doubted) {
                continue;
            }
            if (const auto gathered = m_evidence.gather(line, m_jobs); !gathered) {
                return gathered.error();
            }
        }
        return true;
    }

    void explain() {
        std::vector<StocktakeLine> others;
        for (const FleetRow* row : missed()) {
            StocktakeLine other;
            other.serial = row->serial;
            other.occurred = m_moment;
            other.tare = massOf(row->tareMg);
            other.bookNet = massOf(row->netMg);
            other.tolerance = m_tolerance;
            others.push_back(std::move(other));
        }
        const Display display = m_shop.display();
        const EvidenceWords words{[&](Mass mass) { return display.mass(mass); },
                                  [&](Instant moment) { return m_shop.zone().dateOf(moment).text(); }};
        const auto variances = reconciled(m_lines, m_jobs, others, words);
        for (std::size_t place = 0; place < variances.size(); ++place) {
            put(m_lines[place], variances[place], m_report.lines[place]);
        }
    }

    void put(const StocktakeLine& line, const Variance& variance, StockLine& shown) {
        shown.gross = line.gross;
        shown.tare = line.tare;
        shown.bookGross = massOf(line.tare.milligrams() + line.bookNet.milligrams());
        shown.difference = variance.difference;
        shown.tolerance = line.tolerance;
        const std::int64_t size = std::abs(variance.difference.milligrams());
        shown.tenths = line.tolerance.milligrams() > 0
                           ? (size * 10 + line.tolerance.milligrams() / 2) / line.tolerance.milligrams()
                           : 0;
        shown.verdict = variance.beyond     ? StockVerdict::varies
                        : variance.followed ? StockVerdict::followed
                                            : StockVerdict::agrees;
        for (const Explanation& one : variance.explanations) {
            StockCause cause{one.cause, one.evidence, {}, {}, {}, adviceOf(one.cause)};
            for (const Draft& draft : one.mend) {
                Entry entry;
                static_cast<Draft&>(entry) = m_shop.draft(draft.kind, draft.body, draft.occurred);
                cause.sentences.push_back(sentenceOf(m_shop, entry));
                cause.commands.push_back(commandOf(m_shop, entry));
                cause.mend.push_back(std::move(entry));
            }
            shown.causes.push_back(std::move(cause));
        }
        if (heedThisWeighing(m_shop, shown) && variance.beyond) {
            Mass& sum = m_report.byContent[shown.content];
            sum = massOf(sum.milligrams() + variance.difference.milligrams());
        }
        if (!shown.causes.empty()) {
            const DifferenceCause first = shown.causes.front().cause;
            m_leak = m_leak || first == DifferenceCause::release;
            m_tare = m_tare || first == DifferenceCause::tareChanged;
        }
    }

    /// In the shop by the books, at the place that was walked, and not weighed.
    [[nodiscard]] std::vector<const FleetRow*> missed() const {
        std::set<std::string> seen;
        for (const StockWeighing& weighing : m_ask.weighings) {
            seen.insert(weighing.serial);
        }
        const std::string place = lowered(m_ask.place);
        std::vector<const FleetRow*> rows;
        for (const auto& [serial, row] : m_fleet) {
            if (whereOf(row).empty() && !seen.contains(serial) &&
                (place.empty() || lowered(row.place).find(place) != std::string::npos)) {
                rows.push_back(&row);
            }
        }
        return rows;
    }

    [[nodiscard]] StockAbsence absence(const FleetRow& row, std::string remedy, std::string command) const {
        return {row.serial,        whereOf(row).empty() ? row.place : whereOf(row),
                row.content,       massOf(row.tareMg + row.netMg),
                std::move(remedy), std::move(command)};
    }

    void addAbsences() {
        for (const FleetRow* row : missed()) {
            m_report.notSeen.push_back(
                absence(*row, "Look for it in vans and plant rooms; say that it is lost if it stays away.",
                        fmt::format("{} {} lost", commandBegin(m_shop, "inspect"), shellWord(row->serial))));
        }
        for (const StockWeighing& weighing : m_ask.weighings) {
            const auto known = m_fleet.find(weighing.serial);
            if (known == m_fleet.end() || whereOf(known->second).empty()) {
                continue;
            }
            const FleetRow& row = known->second;
            const std::string serial = shellWord(row.serial);
            if (row.condition == "retired") {
                m_report.unexpected.push_back(absence(row,
                                                      "It left the fleet by the books: find the entry on its "
                                                      "card and reverse it if it is back.",
                                                      commandBegin(m_shop, "card") + " " + serial));
            } else if (row.condition == "lost") {
                m_report.unexpected.push_back(
                    absence(row, "Say that it was found.",
                            fmt::format("{} {} found", commandBegin(m_shop, "inspect"), serial)));
            } else {
                m_report.unexpected.push_back(
                    absence(row, "Check it in, and say what happened to it.",
                            fmt::format("{} {} --gross {}", commandBegin(m_shop, "checkin"), serial,
                                        shellWord(exactMass(m_shop, weighing.gross)))));
            }
        }
        if (m_leak) {
            m_report.cautions.emplace_back(kLeakCaution);
        }
        if (m_tare) {
            m_report.cautions.emplace_back(kTareCaution);
        }
    }

    void addUnknown(const StockWeighing& weighing) {
        const auto unknown = stateNamed(m_shop, weighing.serial);
        m_report.unknown.push_back(
            {weighing.serial,
             {},
             {},
             weighing.gross,
             unknown ? std::string() : unknown.error().text(),
             fmt::format("{} {}", commandBegin(m_shop, "register"), shellWord(weighing.serial))});
    }

    /// One amount, the middle one, shared by most of all weighings points at the scale.
    void suspectScale() {
        std::vector<std::int64_t> off;
        for (const StockLine& line : m_report.lines) {
            if (line.verdict == StockVerdict::varies) {
                off.push_back(line.difference.milligrams());
            }
        }
        if (off.size() < kScaleSuspect) {
            return;
        }
        std::sort(off.begin(), off.end());
        const std::int64_t middle = off[off.size() / 2];
        const auto alike = std::count_if(off.begin(), off.end(), [&](std::int64_t one) {
            return std::abs(one - middle) <= m_tolerance.milligrams();
        });
        if (alike >= kScaleSuspect && static_cast<std::size_t>(alike) * 2 > m_report.lines.size()) {
            m_report.remarks.push_back(fmt::format(
                "{} of {} weighings are off by about {}: check the scale with a known weight before "
                "anything is recorded",
                alike, m_report.lines.size(), m_shop.display().mass(massOf(middle))));
        }
    }

    Shop& m_shop;
    const StocktakeAsk& m_ask;
    Instant m_moment;
    StockEvidence m_evidence;
    Mass m_tolerance;
    std::map<std::string, FleetRow> m_fleet;
    std::vector<StocktakeLine> m_lines; // beside m_report.lines
    std::vector<OpenJob> m_jobs;
    StocktakeReport m_report;
    bool m_leak = false;
    bool m_tare = false;
};

} // namespace

std::string_view stockVerdictWord(StockVerdict verdict) {
    switch (verdict) {
    case StockVerdict::agrees:
        return "agrees";
    case StockVerdict::followed:
        return "tare in doubt";
    case StockVerdict::varies:
        return "varies";
    }
    return "varies";
}

int StocktakeReport::count(StockVerdict verdict) const {
    return static_cast<int>(std::count_if(lines.begin(), lines.end(),
                                          [&](const StockLine& line) { return line.verdict == verdict; }));
}

Mass combinedUncertainty(Mass scale, Mass tare) {
    return massOf(std::llround(std::ceil(
        std::hypot(static_cast<double>(scale.milligrams()), static_cast<double>(tare.milligrams())))));
}

Result<StocktakeReport> stocktake(Shop& shop, const StocktakeAsk& ask) {
    return Walk(shop, ask).compare();
}

} // namespace tarebook
