#include "core/shop/equipment.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/rules/gas_kinds.h"
#include "core/rules/leak_check.h"
#include "core/rules/rule_cells.h"
#include "core/shop/system_traffic.h"

namespace tarebook {

namespace {

constexpr int kYear = 365;    // days
constexpr int kWhole = 1'000; // in tenths of a percent

/// The laws that a system falls under, where its contents and its full charge are known.
std::vector<LeakLaw> lawsOf(const Shop& shop, const Rulebook& book, const System& system) {
    const auto contents = shop.catalogue().contents(system.refrigerant);
    if (!contents || !system.nominalCharge) {
        return {};
    }
    auto laws = leakLawsOf(book, shop.catalogue(), contents.value());
    return laws ? std::move(laws).value() : std::vector<LeakLaw>();
}

/// What the leak rules ask of such a system, the strictest of them; nothing where they ask nothing.
std::optional<LeakThreshold> thresholdOf(const Shop& shop, const Rulebook& book, const System& system) {
    std::optional<LeakThreshold> strictest;
    for (const LeakLaw law : lawsOf(shop, book, system)) {
        const auto found = leakThreshold(book, law, system.equipment, *system.nominalCharge);
        if (found && found.value() && (!strictest || found.value()->percent < strictest->percent)) {
            strictest = found.value();
        }
    }
    return strictest;
}

std::string verdictOf(const std::optional<LeakThreshold>& threshold, ChargeShare& share) {
    if (share.tenthsOfPercent > kWhole) {
        share.ordinary = false;
        return ": more than the system holds; look at the weights and at the charge in the register";
    }
    if (!threshold) {
        return "";
    }
    share.ordinary = kWhole - share.tenthsOfPercent <= 10 * threshold->percent;
    return share.ordinary
               ? fmt::format(": within the ordinary (less than {} % is missing)", threshold->percent)
               : ": the rest is still inside, or was lost before";
}

std::vector<std::string> workingOf(const LeakRate& rate, bool annualized) {
    std::vector<std::string> lines{
        fmt::format("added {}, full charge {}", bothUnits(rate.added), bothUnits(rate.fullCharge))};
    lines.push_back(
        annualized ? fmt::format("{:.4f} / ({} days / 365) = {}",
                                 rate.added.kilograms() / rate.fullCharge.kilograms(), rate.days, rate.text())
                   : fmt::format("sum of {} additions / full charge = {}", rate.additions, rate.text()));
    return lines;
}

void addChronic(const Rulebook& book, LeakLaw law, Date on, SystemLeaks& leaks) {
    const System& system = leaks.system;
    const auto chronic = chronicLeakThreshold(book, law, *system.nominalCharge);
    const auto year = calendarYearLeakRate(leaks.additions, *system.nominalCharge, on);
    if (chronic && chronic.value() && year && leakExclusion(book, law, system.equipment) == nullptr &&
        year.value().hundredthsOfPercent() >= std::int64_t{100} * chronic.value()->percent) {
        leaks.findings.push_back(leakFinding(book, *chronic.value(), "system:" + system.key(),
                                             year.value().text(), workingOf(year.value(), false)));
    }
}

/// Over the limit by the method that the shop has set, or by either.
void addRate(const Shop& shop, const Rulebook& book, SystemLeaks& leaks) {
    if (!leaks.threshold) {
        return;
    }
    const LeakMethod method = shop.settings().leakMethod;
    const auto isOver = [&](const std::optional<LeakRate>& rate, LeakMethod other) {
        return rate && method != other && rate->isOver(leaks.threshold->percent);
    };
    const bool annualized = isOver(leaks.annualized, LeakMethod::rolling);
    if (!annualized && !isOver(leaks.rolling, LeakMethod::annualizing)) {
        return;
    }
    const LeakRate& rate = annualized ? *leaks.annualized : *leaks.rolling;
    Finding finding =
        leakFinding(book, *leaks.threshold, "system:" + leaks.system.key(),
                    annualized ? rate.text() : rate.text() + " in 365 days", workingOf(rate, annualized));
    finding.working.push_back(fmt::format(
        "by the {} of 40 CFR 82.152{}", annualized ? "annualizing method" : "rolling average",
        method == LeakMethod::either ? "; the shop has set none (leak_method), so either counts" : ""));
    leaks.findings.push_back(std::move(finding));
}

void addNote(Finding finding, const RuleRow& row, SystemLeaks& leaks) {
    finding.subject = "system:" + leaks.system.key();
    finding.working = {row.cell("remark")};
    leaks.findings.push_back(std::move(finding));
}

/// A fluorinated or ozone-depleting charge whose checks the rulebook does not tell: it may be asked for all
/// the same.
Finding withoutCheck(const Rulebook& book, const Error& error) {
    Finding finding;
    finding.rule = "leak.no-answer";
    finding.severity = Severity::caution;
    finding.headline = fmt::format("How often it is checked for leaks is not told: {}.", error.wrong);
    finding.remedy = "Have someone who is certified say it; " + error.right + ".";
    finding.citation = "no row of the rulebook";
    finding.edition = book.edition();
    return finding;
}

/// Over the limit, a chronic leaker, or how often it is checked: what the rulebook of the day says.
void addFindings(Shop& shop, const Rulebook& book, Date on, SystemLeaks& leaks) {
    const System& system = leaks.system;
    const std::string subject = "system:" + system.key();
    addRate(shop, book, leaks);
    for (const LeakLaw law : lawsOf(shop, book, system)) {
        if (!leaks.additions.empty()) {
            addChronic(book, law, on, leaks);
        }
        if (const RuleRow* outside = leakExclusion(book, law, system.equipment)) {
            addNote(findingOf(book, *outside, "leak.outside", Severity::note,
                              fmt::format("Outside the leak rule: {}.", outside->cell("use"))),
                    *outside, leaks);
        }
        if (const RuleRow* watched = leakDetection(book, law, system.equipment, *system.nominalCharge)) {
            addNote(
                findingOf(book, *watched, "leak.detection", Severity::note,
                          fmt::format(
                              "From {} lb on such a system has automatic leak detection; by when goes by the "
                              "day on which it was installed.",
                              watched->cell("charge_from_lb")),
                          "Ask the owner when it was installed, and for its record."),
                *watched, leaks);
        }
    }
    const auto contents = shop.catalogue().contents(system.refrigerant);
    if (contents && system.nominalCharge && book.table("leak-checks") != nullptr) {
        auto check = leakCheck(book, shop.catalogue(), contents.value(), {*system.nominalCharge});
        if (check) {
            leaks.findings.push_back(std::move(check).value());
        } else if (gasKinds(shop.catalogue(), contents.value()).contains("halocarbon")) {
            leaks.findings.push_back(withoutCheck(book, check.error()));
        } else {
            return;
        }
        leaks.findings.back().subject = subject;
    }
}

SystemLeaks leaksOf(Shop& shop, const Rulebook& book, const System& system, const Traffic& traffic, Date on) {
    SystemLeaks leaks;
    leaks.system = system;
    for (const auto& [day, milligrams] : traffic.in) {
        const auto other = traffic.notCounted.find(day);
        const std::int64_t without = other == traffic.notCounted.end() ? 0 : other->second;
        if (day <= on && without > 0) {
            leaks.notCounted.push_back({day, Mass::fromMilligrams(without)});
        }
        if (day <= on && milligrams > without) {
            leaks.additions.push_back({day, Mass::fromMilligrams(milligrams - without)});
        }
    }
    leaks.threshold = thresholdOf(shop, book, system);
    if (!system.nominalCharge) {
        leaks.problem = "the full charge of the system is not known; enter it";
        return leaks;
    }
    if (leaks.additions.empty()) {
        leaks.problem = leaks.notCounted.empty() ? "nothing was added yet by the books"
                                                 : "nothing was added yet that counts as a loss";
        return leaks;
    }
    if (const auto rolling = rollingLeakRate(leaks.additions, *system.nominalCharge, on, {})) {
        leaks.rolling = rolling.value();
    }
    const Date last = leaks.additions.back().day;
    if (leaks.additions.size() < 2) {
        leaks.problem = fmt::format("the addition of {} is the only one known; enter the one before it, with "
                                    "the day on which it happened",
                                    last.text());
        return leaks;
    }
    const auto annualized = annualizedLeakRate(leaks.additions, *system.nominalCharge, last);
    if (annualized) {
        leaks.annualized = annualized.value();
    } else {
        leaks.problem = annualized.error().text();
    }
    return leaks;
}

/// Of all systems or of one; `charged`: only of those that ever were.
Result<std::vector<SystemLeaks>> leaksWhere(Shop& shop, Date on, const std::string& key, bool charged) {
    const Rulebook& book = shop.rulebookOn(on);
    std::vector<SystemLeaks> list;
    for (const System& system : systems(shop)) {
        if (!key.empty() && system.key() != key) {
            continue;
        }
        const auto traffic = trafficOf(shop, system);
        if (!traffic) {
            return traffic.error();
        }
        if (!charged || !traffic.value().in.empty()) {
            list.push_back(leaksOf(shop, book, system, traffic.value(), on));
            addFindings(shop, book, on, list.back());
        }
    }
    return list;
}

} // namespace

Result<SystemLeaks> recentLeaks(Shop& shop, const System& system, Date on, Mass added) {
    const auto newYear = Date::of(on.month().year() - 1, 1, 1);
    if (!newYear) {
        return newYear.error();
    }
    // A year more: what was taken out then may have been put back since.
    auto read = trafficSince(shop, system, newYear.value().plusDays(-kYear));
    if (!read) {
        return read.error();
    }
    Traffic traffic = std::move(read).value();
    if (added.milligrams() > 0) {
        traffic.in[on] += added.milligrams();
    }
    const Rulebook& book = shop.rulebookOn(on);
    SystemLeaks its = leaksOf(shop, book, system, traffic, on);
    addFindings(shop, book, on, its);
    return its;
}

Result<std::vector<Finding>> leakAlerts(Shop& shop, Date on) {
    const Rulebook& book = shop.rulebookOn(on);
    std::vector<Finding> alerts;
    for (const System& system : systems(shop)) {
        const auto laws = lawsOf(shop, book, system);
        if (laws.empty()) {
            continue;
        }
        auto its = recentLeaks(shop, system, on);
        if (!its) {
            return its.error();
        }
        SystemLeaks leaks = std::move(its).value();
        if (leaks.additions.empty()) {
            continue;
        }
        const auto report = Date::of(on.month().year(), 3, 1);
        const auto lastYear = Date::of(on.month().year() - 1, 12, 31);
        if (report && lastYear && on < report.value()) {
            for (const LeakLaw law : laws) {
                addChronic(book, law, lastYear.value(), leaks);
            }
        }
        const bool recent = leaks.additions.back().day >= on.plusDays(-kYear);
        for (Finding& finding : leaks.findings) {
            const bool known = std::any_of(alerts.begin(), alerts.end(), [&](const Finding& one) {
                return one.subject == finding.subject && one.headline == finding.headline;
            });
            if (!known && ((finding.rule == "leak.rate" && recent) || finding.rule == "leak.chronic")) {
                alerts.push_back(std::move(finding));
            }
        }
    }
    return alerts;
}

std::vector<Finding> leakAfterCharge(Shop& shop, const System& system, Date on, Mass added) {
    std::vector<Finding> told;
    auto its = recentLeaks(shop, system, on, added);
    if (!its || !its.value().threshold) {
        return told;
    }
    SystemLeaks leaks = std::move(its).value();
    std::copy_if(leaks.findings.begin(), leaks.findings.end(), std::back_inserter(told),
                 [](const Finding& one) { return one.rule == "leak.rate" || one.rule == "leak.chronic"; });
    if (told.empty()) {
        Finding note = leakFinding(shop.rulebookOn(on), *leaks.threshold, "system:" + system.key(),
                                   leaks.annualized ? leaks.annualized->text() + " a year"
                                   : leaks.rolling  ? leaks.rolling->text() + " in 365 days"
                                                    : "at a rate not known yet",
                                   {});
        note.severity = Severity::note;
        note.remedy.clear();
        told.push_back(std::move(note));
    }
    return told;
}

Result<std::optional<ChargeShare>> chargeShare(Shop& shop, const System& system, Date day) {
    if (!system.nominalCharge || system.nominalCharge->milligrams() <= 0) {
        return std::optional<ChargeShare>();
    }
    const auto traffic = trafficOf(shop, system);
    if (!traffic) {
        return traffic.error();
    }
    const auto that = traffic.value().out.find(day);
    if (that == traffic.value().out.end()) {
        return std::optional<ChargeShare>();
    }
    ChargeShare share;
    share.system = system.key();
    share.recovered = Mass::fromMilligrams(that->second);
    share.fullCharge = *system.nominalCharge;
    const std::int64_t whole = share.fullCharge.milligrams();
    share.tenthsOfPercent = static_cast<int>((that->second * kWhole * 2 + whole) / (2 * whole));
    const std::string verdict = verdictOf(thresholdOf(shop, shop.rulebookOn(day), system), share);
    share.sentence = fmt::format("{}.{} % of the full charge of {}{}", share.tenthsOfPercent / 10,
                                 share.tenthsOfPercent % 10, shop.display().mass(share.fullCharge), verdict);
    return std::make_optional(share);
}

Result<std::optional<ChargeShare>> chargeShareOf(Shop& shop, const std::vector<Sequence>& entries) {
    for (const Sequence seq : entries) {
        const auto entry = shop.store().entry(seq);
        if (!entry) {
            return entry.error();
        }
        if (entry.value().kind != EntryKind::recovered) {
            continue;
        }
        const auto from = Account::parse(entry.value().body.value("from", std::string()));
        const auto system = from ? systemNamed(shop, from.value().name) : std::nullopt;
        if (system) {
            return chargeShare(shop, *system, shop.zone().dateOf(entry.value().occurred));
        }
    }
    return std::optional<ChargeShare>();
}

std::optional<bool> isAskedOfChronic(Shop& shop, const System& system, Date on) {
    if (!system.nominalCharge || !shop.catalogue().contents(system.refrigerant)) {
        return std::nullopt;
    }
    const Rulebook& book = shop.rulebookOn(on);
    const auto laws = lawsOf(shop, book, system);
    return std::any_of(laws.begin(), laws.end(), [&](LeakLaw law) {
        const auto chronic = chronicLeakThreshold(book, law, *system.nominalCharge);
        return chronic && chronic.value() && leakExclusion(book, law, system.equipment) == nullptr;
    });
}

Result<std::vector<SystemLeaks>> leaks(Shop& shop, Date on, const std::string& key) {
    auto list = leaksWhere(shop, on, key, key.empty());
    if (list && !key.empty() && list.value().empty()) {
        return Error{fmt::format("there is no system {}", tarebook::quoted(key)),
                     "the list of systems names them, as SITE/TAG"};
    }
    return list;
}

Result<std::vector<SystemLeaks>> leaksOfEverySystem(Shop& shop, Date on) {
    return leaksWhere(shop, on, {}, false);
}

} // namespace tarebook
