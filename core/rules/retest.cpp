#include "core/rules/retest.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "core/rules/retest_period.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

// Our own setting: how long before the last day a cylinder is pointed out.
constexpr int kSoonDays = 90;

std::optional<Error> impossibleDates(const RetestFacts& facts) {
    const MonthYear now = facts.on.month();
    if (facts.manufactured > now) {
        return Error{fmt::format("made {}, which is later than the day asked for, {}",
                                 facts.manufactured.text(), facts.on.text()),
                     "read the first date on the collar again"};
    }
    if (facts.lastTest && *facts.lastTest > now) {
        return Error{fmt::format("the mark {} is later than the day asked for, {}", facts.lastTest->text(),
                                 facts.on.text()),
                     "read the last date on the collar again"};
    }
    const bool older =
        facts.lastTest && (facts.lastTestYearOnly ? facts.lastTest->year() < facts.manufactured.year()
                                                  : *facts.lastTest < facts.manufactured);
    if (older) {
        return Error{fmt::format("the mark {} is older than the cylinder, made {}", facts.lastTest->text(),
                                 facts.manufactured.text()),
                     "read both dates on the collar again"};
    }
    if (facts.filledOn && *facts.filledOn > facts.on) {
        return Error{fmt::format("filled {}, which is later than the day asked for, {}",
                                 facts.filledOn->text(), facts.on.text()),
                     "give the last day on which anything was put in"};
    }
    if (facts.filledOn && facts.filledOn->month() < facts.manufactured) {
        return Error{fmt::format("filled {}, before it was made in {}", facts.filledOn->text(),
                                 facts.manufactured.text()),
                     "give the last day on which anything was put in"};
    }
    return std::nullopt;
}

/// Whether the happening of a row of the table `condition` has befallen the cylinder; what condemns for ever
/// also counts from before its last test.
bool happened(const std::string& happening, const RetestFacts& facts, bool forever) {
    const CylinderCondition& condition = facts.condition;
    const std::array<std::pair<std::string_view, bool>, 11> flags = {
        {{"condemned", condition.condemned},
         {"over-pressurised", condition.overPressurised || (forever && condition.overPressurisedBefore)},
         {"heat", condition.heatDamaged || (forever && condition.heatDamagedBefore)},
         {"leak", condition.leaking},
         {"damage", condition.damaged},
         {"wall-metal", condition.wallMetalRemoved},
         {"ordered", condition.ordered},
         {"class-8", condition.heldClass8Liquid},
         {"rejected", condition.rejected},
         {"service-life", facts.serviceUntil && *facts.serviceUntil < facts.on.month()},
         // 49 CFR 180.209(c): a loss of 5 percent or more of the official tare; the milligram is what
         // reading two weights in pounds may have rounded away.
         {"tare-loss",
          condition.officialTare && condition.weighedTare && condition.officialTare->milligrams() > 0 &&
              (condition.officialTare->milligrams() - condition.weighedTare->milligrams() + 1) * 20 >=
                  condition.officialTare->milligrams()}}};
    for (const auto& [name, is] : flags) {
        if (name == happening) {
            return is;
        }
    }
    return false;
}

void judgeCondition(const Rulebook& rulebook, const RetestFacts& facts, RetestVerdict& verdict) {
    const RuleTable* table = rulebook.table("condition");
    if (table == nullptr) {
        return;
    }
    const auto keys = typeKeys(facts.specification);
    std::string done; // the first row of a happening whose types fit holds
    for (const RuleRow& row : table->rows) {
        const std::string& happening = row.cell("happening");
        const bool forever = row.cell("forever") == "yes";
        if (happening == done || !happened(happening, facts, forever) || !typesFit(row.cell("types"), keys)) {
            continue;
        }
        done = happening;
        verdict.fillAllowed = false;
        verdict.lastFillDay.reset();
        const bool barsMoving = row.cell("ship") == "empty-only";
        if (barsMoving) {
            verdict.shipAllowed = verdict.shipAllowed && !facts.isFilled();
            verdict.onlyToTester = verdict.shipAllowed;
        }
        verdict.onlyToEmpty = verdict.onlyToEmpty || row.cell("ship") == "to-empty";
        if (forever) {
            verdict.neverRefilled = true;
            verdict.due.reset();
        }
        verdict.findings.push_back(
            findingOf(rulebook, row, row.cell("rule"),
                      barsMoving && facts.isFilled() ? Severity::danger : Severity::refusal,
                      row.cell("headline"), row.cell("remedy")));
        verdict.rule = row.cell("rule");
        verdict.citation = row.section;
        verdict.firmness = row.firmness;
    }
}

void judgeOneLife(const Rulebook& rulebook, const RetestFacts& facts, const RuleRow& row,
                  RetestVerdict& verdict) {
    verdict.neverRefilled = true;
    verdict.shipAllowed = true;
    verdict.findings.push_back(
        findingOf(rulebook, row, "retest.never-refilled", Severity::refusal,
                  "Made for one filling: it is never filled again and has no retest date."));
    if (facts.lastTest && *facts.lastTest != facts.manufactured) {
        verdict.findings.push_back(
            findingOf(rulebook, row, "retest.mark-on-one-life", Severity::caution,
                      "A cylinder made for one filling has no retest mark; look at the "
                      "stamp again."));
    }
    const bool recovered = facts.service == ServiceKind::recovery || facts.usedForRecoverySinceTest;
    if (recovered && facts.isFilled()) {
        verdict.shipAllowed = false;
        verdict.findings.push_back(
            findingOf(rulebook, row, "retest.refilled-one-life", Severity::danger,
                      "Recovered gas was put into a cylinder made for one filling: it may "
                      "not be transported.",
                      "Have someone qualified transfer the contents into a lawful "
                      "recovery cylinder where it stands."));
    }
}

/// Day by day around the due month. Only with verdict.due.
void judgeDates(const Rulebook& rulebook, const RetestFacts& facts, const RuleRow& row,
                RetestVerdict& verdict) {
    const Date lastFill = row.cell("last_fill") == "before-month" ? Date::firstOf(*verdict.due).plusDays(-1)
                                                                  : Date::lastOf(*verdict.due);
    verdict.lastFillDay = lastFill;
    verdict.fillAllowed = facts.on <= lastFill;
    verdict.shipAllowed = true;
    const bool carriedToTester = row.cell("after_due") == "tester";
    const std::string dueText = verdict.dueText();
    if (!verdict.fillAllowed) {
        verdict.findings.push_back(findingOf(
            rulebook, row, "retest.overdue", Severity::refusal,
            fmt::format("Due {}; not filled or topped up since {}.", dueText, lastFill.plusDays(1).text()),
            "Empty it and send it to be tested."));
        verdict.findings.back().working.push_back(
            fmt::format("last day for filling {}, asked for {}", lastFill.text(), facts.on.text()));
    } else if (facts.on.plusDays(kSoonDays) >= lastFill) {
        verdict.findings.push_back(
            findingOf(rulebook, row, "retest.due-soon", Severity::caution,
                      fmt::format("Due {}: may be filled through {}.", dueText, lastFill.text())));
    }
    if (facts.filledOn && *facts.filledOn > lastFill) {
        verdict.shipAllowed = carriedToTester;
        verdict.onlyToTester = carriedToTester;
        verdict.findings.push_back(findingOf(
            rulebook, row, "retest.filled-late", Severity::refusal,
            fmt::format("Filled {}, after its retest was due ({}): {}.", facts.filledOn->text(), dueText,
                        carriedToTester ? "carried only for testing or disposal"
                                        : "it may not be offered for transport"),
            carriedToTester
                ? fmt::format(
                      "Empty it into a lawful cylinder where it stands, then send it to be tested; or "
                      "let it make one trip as it is, to be emptied and tested or disposed of, and "
                      "nowhere else ({}).",
                      row.section)
                : "Empty it into a lawful cylinder where it stands, then send it to be tested: this "
                  "rulebook has no trip for it as it is."));
    } else if (!verdict.fillAllowed && facts.filledOn) {
        verdict.findings.push_back(
            findingOf(rulebook, row, "retest.filled-in-time", Severity::note,
                      fmt::format("Filled {}, in time: it may be kept, moved and used until empty.",
                                  facts.filledOn->text())));
        if (carriedToTester) {
            verdict.findings.back().firmness = Firmness::reading;
        }
    } else if (!verdict.fillAllowed && facts.isFilled()) {
        verdict.findings.push_back(findingOf(
            rulebook, row, "retest.filled-unknown", Severity::caution,
            "Nothing says on which day it was filled: filled in time it may be moved and used until "
            "empty, filled later it may not be offered for transport.",
            "Find out when it was filled, or empty it and send it to be tested."));
    } else if (!verdict.fillAllowed) {
        verdict.onlyToTester = carriedToTester;
    }
}

/// A service life that is over where the rulebook has no row of it: the maker's mark holds all the same.
void judgeServiceLife(const Rulebook& rulebook, const RetestFacts& facts, RetestVerdict& verdict) {
    const RuleTable* table = rulebook.table("condition");
    const bool known =
        table != nullptr && std::any_of(table->rows.begin(), table->rows.end(), [](const RuleRow& row) {
            return row.cell("happening") == "service-life";
        });
    if (known || !facts.serviceUntil || *facts.serviceUntil >= facts.on.month()) {
        return;
    }
    verdict.fillAllowed = false;
    verdict.neverRefilled = true;
    verdict.lastFillDay.reset();
    verdict.onlyToEmpty = true;
    Finding finding;
    finding.rule = "retest.service-life";
    finding.severity = Severity::refusal;
    finding.headline =
        fmt::format("Its service life ended {}: it is not filled again.", facts.serviceUntil->text());
    finding.remedy = "Ask an approved tester what may be done with what is in it, and with the cylinder.";
    finding.citation = "the maker's mark; this rulebook has no row of it";
    finding.edition = rulebook.edition();
    finding.firmness = Firmness::memory;
    verdict.rule = finding.rule;
    verdict.citation = finding.citation;
    verdict.firmness = finding.firmness;
    verdict.findings.push_back(std::move(finding));
}

} // namespace

std::string RetestVerdict::dueText() const {
    if (due) {
        return dueYearOnly ? std::to_string(due->year()) : due->text();
    }
    return rule == "retest.mark-not-accepted" ? std::string() : std::string("never");
}

Result<RetestVerdict> retest(const Rulebook& rulebook, const RetestFacts& facts) {
    if (const auto error = impossibleDates(facts)) {
        return *error;
    }
    const auto found = retestPeriod(rulebook, facts);
    if (!found) {
        return found.error();
    }
    const RetestPeriod& period = found.value();
    const RuleRow& row = *period.row;
    RetestVerdict verdict;
    verdict.due = period.due;
    verdict.years = period.years;
    verdict.dueYearOnly = facts.lastTestYearOnly && period.due.has_value();
    verdict.rule = row.cell("rule");
    verdict.citation = row.section;
    verdict.firmness = row.firmness;
    verdict.findings.push_back(
        findingOf(rulebook, row, verdict.rule, Severity::note,
                  period.due ? fmt::format("Retest due {}.", verdict.dueText()) : "No retest date."));
    verdict.findings.back().working = period.working;
    if (!period.markAccepted) {
        verdict.findings.push_back(findingOf(rulebook, row, verdict.rule, Severity::refusal,
                                             "Cylinders of this mark are not accepted for filling here.",
                                             "Use a cylinder with an accepted mark."));
    } else if (row.cell("last_fill") == "never") {
        judgeOneLife(rulebook, facts, row, verdict);
    } else if (!period.due) {
        verdict.fillAllowed = true;
        verdict.shipAllowed = true;
    } else {
        judgeDates(rulebook, facts, row, verdict);
    }
    verdict.findings.insert(verdict.findings.end(), period.notes.begin(), period.notes.end());
    judgeCondition(rulebook, facts, verdict);
    judgeServiceLife(rulebook, facts, verdict);
    return verdict;
}

} // namespace tarebook
