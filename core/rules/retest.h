#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/rules/finding.h"
#include "core/rules/retest_facts.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// When a cylinder falls due, and what may be done with it on the day asked for.
struct RetestVerdict {
    std::optional<MonthYear> due;    // none: never falls due, condemned, or the mark is not accepted
    bool dueYearOnly = false;        // only the year is known: January stands in `due`, the strict reading
    int years = 0;                   // from mark to mark, by the row; 0: never asked for
    bool neverRefilled = false;      // made for one filling, or condemned
    std::optional<Date> lastFillDay; // the last day on which it may be filled; none: no limit, or never
    bool fillAllowed = false;        // also topping up; contents and limits are other rules' matter
    bool shipAllowed = false;        // as it stands: with what was filled on filledOn, or empty
    bool onlyToTester = false;       // carried only for testing or disposal
    bool onlyToEmpty = false;        // carried only to have what is in it reprocessed or disposed of
    std::string rule;                // the row that gave the period, as `retest.coated-12`
    std::string citation;
    Firmness firmness = Firmness::verified;
    std::vector<Finding> findings; // the first gives the period with its working; refusals follow

    /// `2026-05`, `2029` where only the year is known, or `never`; empty where the mark is not accepted.
    [[nodiscard]] std::string dueText() const;
};

/// Retest by the rulebook's table `requalification`. For the United States 49 CFR 180.205, .209, .213: the
/// grain is the month, filling is lawful through the last day of the due month (a reading; UN receptacles:
/// before the due month), what was filled in time may be kept and moved until empty but not topped up, what
/// was filled late may not be offered. ADR: filling only before the due month, carriage to the tester always.
/// Damage, heat, tare loss and condemnation override dates. Error: impossible dates (a mark in the future or
/// older than the cylinder, a filling in the future), or a specification that the rulebook does not know.
[[nodiscard]] Result<RetestVerdict> retest(const Rulebook& rulebook, const RetestFacts& facts);

} // namespace tarebook
