#include "core/shop/today.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "core/rules/technician.h"
#include "core/shop/counter_findings.h"
#include "core/shop/deposits.h"
#include "core/shop/equipment.h"
#include "core/shop/failed_analyses.h"
#include "core/shop/finding_json.h"
#include "core/shop/findings.h"
#include "core/shop/fleet.h"
#include "core/shop/open_receipts.h"
#include "core/shop/plan_rules.h"
#include "core/shop/register.h"
#include "core/shop/retest_of.h"
#include "core/shop/returns.h"

namespace tarebook {

namespace {

constexpr std::string_view kCylinderPrefix = "cylinder:";
constexpr const char* kBatchPrefix = "batch:";
constexpr std::string_view kNoReceipt = "batch.no-receipt";
constexpr std::string_view kNoCertificate = "batch.no-certificate";
constexpr std::size_t kMostTargetsNamed = 25; // each tries up to a hundred cylinders
// In a larger fleet the list would keep a person waiting; the cylinder's card and the decant name the target.
constexpr int kNamedUpTo = 5'000;

/// Of findings equally grave the one that cannot wait comes first.
int urgency(const std::string& rule) {
    static const std::array<std::string_view, 19> order = {"charge.contents",
                                                           "recovery.contents",
                                                           "fill.overfilled",
                                                           "pressure.",
                                                           "retest.refilled-one-life",
                                                           "contents.flammable",
                                                           "release.owner",
                                                           "release.venting",
                                                           "contents.mixed",
                                                           "contents.unknown",
                                                           "retest.filled-late",
                                                           "retest.overdue",
                                                           "fill.above-practice",
                                                           "marks.tare-unusual",
                                                           "weight.differs",
                                                           "retest.due-soon",
                                                           "leak.",
                                                           "custody.out-long",
                                                           "person."};
    for (std::size_t place = 0; place < order.size(); ++place) {
        if (rule.starts_with(order.at(place))) {
            return static_cast<int>(place);
        }
    }
    // Gas in a cylinder that left the fleet comes first too: nobody looks for it there.
    return rule == "custody.left-fleet" ? 0 : static_cast<int>(order.size());
}

/// What is known of an alert before it is written out.
struct Stub {
    Severity severity = Severity::note;
    std::string rule;
    std::string subject;
    int number = -1; // of a finding that is kept: read when it is shown
    int made = -1;   // place among the findings that were made while gathering; otherwise made when shown
    int urgent = 0;  // of those equally grave
};

/// Gathers what needs doing; findings that only the day brings are written out last and only where shown.
class Gatherer {
public:
    Gatherer(Shop& shop, Date on) : m_shop(shop), m_on(on), m_fleet(shop, on) {}

    Result<bool> gather() {
        const auto open = m_shop.store().findingBriefs(static_cast<int>(Severity::caution));
        if (!open) {
            return open.error();
        }
        for (const FindingBrief& brief : open.value()) {
            m_stubs.push_back(
                {static_cast<Severity>(brief.severity), brief.rule, brief.subject, brief.number});
        }
        for (const auto& step :
             {&Gatherer::gatherRetests, &Gatherer::gatherOut, &Gatherer::gatherBatches,
              &Gatherer::gatherReceived, &Gatherer::gatherRentals, &Gatherer::gatherCertificates,
              &Gatherer::gatherCounter, &Gatherer::gatherLeaks}) {
            auto done = (this->*step)();
            if (!done) {
                return done;
            }
        }
        return true;
    }

    TodayList list(int most) {
        TodayList list;
        for (const Stub& stub : m_stubs) {
            list.dangers += stub.severity == Severity::danger ? 1 : 0;
            list.refusals += stub.severity == Severity::refusal ? 1 : 0;
            list.cautions += stub.severity == Severity::caution ? 1 : 0;
        }
        for (Stub& stub : m_stubs) {
            stub.urgent = urgency(stub.rule);
        }
        const auto graver = [](const Stub& one, const Stub& other) {
            const auto rank = [](const Stub& its) {
                return std::tuple(-static_cast<int>(its.severity), its.urgent, std::string_view(its.subject),
                                  its.number, std::string_view(its.rule));
            };
            return rank(one) < rank(other);
        };
        // Only as far as is shown: thousands may fall due together.
        const std::ptrdiff_t step = most > 0 ? most : std::ssize(m_stubs);
        std::ptrdiff_t sorted = 0;
        for (std::ptrdiff_t place = 0; place < std::ssize(m_stubs); ++place) {
            if (most > 0 && std::ssize(list.alerts) >= most) {
                break;
            }
            if (place == sorted) {
                sorted = std::min(std::ssize(m_stubs), sorted + step);
                std::partial_sort(m_stubs.begin() + place, m_stubs.begin() + sorted, m_stubs.end(), graver);
            }
            addAlert(m_stubs[static_cast<std::size_t>(place)], list);
        }
        return list;
    }

private:
    Result<bool> gatherRetests() {
        const std::string month = m_on.month().text();
        const auto soon =
            m_shop.store().dueUntil(m_on.plusDays(m_shop.settings().retestNoticeDays).month().text());
        if (!soon) {
            return soon.error();
        }
        const auto late = lateInTheirMonth(soon.value(), month);
        if (!late) {
            return late.error();
        }
        m_stubs.reserve(m_stubs.size() + soon.value().size());
        for (const auto& [serial, due] : soon.value()) {
            const std::string its = dueMonthOf(due);
            const bool over = its < month || (its == month && late.value().contains(serial));
            m_stubs.push_back({over ? Severity::refusal : Severity::caution,
                               over ? "retest.overdue" : "retest.due-soon",
                               std::string(kCylinderPrefix) + serial});
        }
        return true;
    }

    /// Of those that fall due in the month: whose mark is not filled in that month any more.
    Result<std::set<std::string>>
    lateInTheirMonth(const std::vector<std::pair<std::string, std::string>>& soon, const std::string& month) {
        std::set<std::string> written; // as the month is kept: with its number, or the year only
        for (const auto& [serial, due] : soon) {
            if (dueMonthOf(due) == month) {
                written.insert(due);
            }
        }
        std::set<std::string> late;
        FleetDay day(m_shop, m_on);
        for (const std::string& due : written) {
            const auto marks = m_shop.store().dueIn(due);
            if (!marks) {
                return marks.error();
            }
            for (const auto& [serial, specification] : marks.value()) {
                if (day.dueMonthIsLate(specification)) {
                    late.insert(serial);
                }
            }
        }
        return late;
    }

    Result<bool> gatherOut() {
        const auto out =
            m_shop.store().outSinceBefore(m_shop.zone().startOf(m_on.plusDays(-m_shop.settings().outDays)));
        if (!out) {
            return out.error();
        }
        for (const std::string& serial : out.value()) {
            m_stubs.push_back({Severity::caution, "custody.out-long", std::string(kCylinderPrefix) + serial});
        }
        return true;
    }

    Result<bool> gatherBatches() {
        auto shipped = m_shop.store().recordMoments("batch", "status",
                                                    std::string(entryKindWord(EntryKind::batchShipped)));
        if (!shipped) {
            return shipped.error();
        }
        for (const auto& [number, moment] : shipped.value()) {
            if (daysSince(moment) > m_shop.settings().receiptDays && !holdsNothing(number)) {
                m_stubs.push_back({Severity::caution, std::string(kNoReceipt), kBatchPrefix + number});
            }
        }
        m_shipped = std::move(shipped).value();
        return gatherAwaited();
    }

    /// Of empties alone nobody writes a receipt.
    bool holdsNothing(const std::string& number) {
        const auto its = batch(m_shop, number);
        return its && its.value().empties() > 0 && its.value().empties() == its.value().lines.size();
    }

    /// Batches whose receipt came without the reclaimer's certificate, counted from their last step.
    Result<bool> gatherAwaited() {
        const auto awaited = m_shop.store().recordMoments("batch", "certificate", std::string(kAwaited));
        if (!awaited) {
            return awaited.error();
        }
        const int days = m_shop.settings().receiptDays;
        for (const auto& [number, moment] : awaited.value()) {
            if (daysSince(moment) > days) {
                Finding finding =
                    planFinding(kBatchPrefix + number, std::string(kNoCertificate), Severity::caution,
                                fmt::format("No certificate of the reclaimer {} days after the last entry.",
                                            daysSince(moment)),
                                "Ask the reclaimer for the certificate and enter its number.");
                finding.citation = fmt::format("the shop's own setting: {} days", days);
                addMade(std::move(finding));
            }
        }
        return true;
    }

    Result<bool> gatherReceived() {
        const auto added = addAll(openReceipts(m_shop, m_on));
        return added ? addAll(failedAnalyses(m_shop, m_on)) : added;
    }
    Result<bool> gatherRentals() { return addAll(rentalsRunning(m_shop, m_on)); }
    Result<bool> gatherCounter() { return addAll(openAtTheCounter(m_shop)); }
    int daysSince(Instant moment) const {
        return m_on.dayNumber() - m_shop.zone().dateOf(moment).dayNumber();
    }

    std::optional<Finding> noReceipt(const std::string& subject) {
        const std::string number = subject.substr(std::string_view(kBatchPrefix).size());
        const auto shipped = std::find_if(m_shipped.begin(), m_shipped.end(),
                                          [&](const auto& one) { return one.first == number; });
        const auto batch = m_shop.store().record("batch", number);
        if (shipped == m_shipped.end() || !batch || !batch.value()) {
            return std::nullopt;
        }
        Finding finding = planFinding(subject, std::string(kNoReceipt), Severity::caution,
                                      fmt::format("Shipped to {} {} days ago, no receipt yet.",
                                                  batch.value()->body.value("reclaimer", std::string()),
                                                  daysSince(shipped->second)),
                                      "Ask the reclaimer for the receipt and enter it.");
        finding.citation = fmt::format("the shop's own setting: {} days", m_shop.settings().receiptDays);
        return finding;
    }

    Result<bool> gatherCertificates() {
        const auto expiring = peopleExpiringUntil(m_shop, m_on.plusDays(m_shop.settings().certificateDays));
        if (!expiring) {
            return expiring.error();
        }
        for (const Person& person : expiring.value()) {
            if (!person.active || !person.certificateExpires) {
                continue;
            }
            const int days = person.certificateExpires->dayNumber() - m_on.dayNumber();
            Finding finding = planFinding(
                "person:" + person.name, "person.certificate",
                days < 0 ? Severity::refusal : Severity::caution,
                days < 0 ? fmt::format("Certificate ran out on {}.", person.certificateExpires->text())
                         : fmt::format("Certificate runs out on {}, in {} days.",
                                       person.certificateExpires->text(), days),
                "Have it renewed and enter the new date.");
            citeCertificate(m_shop.rulebook(), finding);
            addMade(std::move(finding));
        }
        return true;
    }

    Result<bool> gatherLeaks() { return addAll(leakAlerts(m_shop, m_on)); }

    Result<bool> addAll(const Result<std::vector<Finding>>& findings) {
        if (!findings) {
            return findings.error();
        }
        for (const Finding& finding : findings.value()) {
            addMade(finding);
        }
        return true;
    }

    void addMade(Finding finding) {
        m_stubs.push_back(
            {finding.severity, finding.rule, finding.subject, -1, static_cast<int>(m_made.size())});
        m_made.push_back(std::move(finding));
    }

    void addAlert(const Stub& stub, TodayList& list) {
        Alert alert;
        alert.subject = stub.subject;
        alert.title = stub.subject.substr(stub.subject.find(':') + 1);
        if (stub.made >= 0) {
            alert.finding = m_made[static_cast<std::size_t>(stub.made)];
        } else if (!writeOut(stub, alert.finding)) {
            return;
        }
        alert.remedy = remedyOf(alert.finding);
        if (alert.remedy == Remedy::decant && m_targets++ < kMostTargetsNamed && isSmall()) {
            const auto state = m_shop.store().cylinder(alert.title);
            if (state && state.value()) {
                nameTarget(m_shop, m_fleet, *state.value(), alert.finding);
            }
        }
        list.alerts.push_back(std::move(alert));
    }

    bool isSmall() {
        if (!m_small) {
            const auto beyond = m_shop.store().fleet({{}, {}, kNamedUpTo, 1});
            m_small = beyond && beyond.value().empty();
        }
        return *m_small;
    }

    bool writeOut(const Stub& stub, Finding& finding) {
        if (stub.number >= 0) {
            const auto kept = m_shop.store().openFinding(stub.subject, stub.number);
            if (kept && kept.value()) {
                finding = findingFrom(nlohmann::json::parse(kept.value()->json, nullptr, false));
            }
            return kept && kept.value();
        }
        if (stub.rule == kNoReceipt) {
            auto made = noReceipt(stub.subject);
            if (!made) {
                return false;
            }
            finding = *std::move(made);
            return true;
        }
        const auto state = m_shop.store().cylinder(stub.subject.substr(kCylinderPrefix.size()));
        if (!state || !state.value()) {
            return false;
        }
        for (Finding& one : dayFindings(m_shop, *state.value(), m_on)) {
            // Whether a date has passed or is near is the rulebook's to say.
            if (one.rule == stub.rule ||
                (one.rule.starts_with("retest.") && stub.rule.starts_with("retest."))) {
                finding = std::move(one);
                return true;
            }
        }
        return false;
    }

    Shop& m_shop;
    Date m_on;
    std::vector<Stub> m_stubs; // small: of a large fleet there are thousands
    std::vector<Finding> m_made;
    std::vector<std::pair<std::string, Instant>> m_shipped; // batches on their way, and since when
    Targets m_fleet;
    std::size_t m_targets = 0;
    std::optional<bool> m_small;
};

} // namespace

Result<TodayList> today(Shop& shop, Date on, int most) {
    Gatherer gatherer(shop, on);
    const auto gathered = gatherer.gather();
    if (!gathered) {
        return gathered.error();
    }
    return gatherer.list(most);
}

Result<std::vector<DueMonth>> dueStrip(Shop& shop, Date on, int months) {
    const auto counts = shop.store().dueByMonth(on.month().text(), on.month().plusMonths(months).text());
    if (!counts) {
        return counts.error();
    }
    std::map<std::string, std::int64_t> byMonth(counts.value().begin(), counts.value().end());
    std::vector<DueMonth> strip;
    for (int ahead = 0; ahead < months; ++ahead) {
        const MonthYear month = on.month().plusMonths(ahead);
        strip.push_back({month, byMonth[month.text()]});
    }
    return strip;
}

} // namespace tarebook
