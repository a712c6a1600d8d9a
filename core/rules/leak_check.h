#pragma once

#include "core/rules/carbon_factor.h"

namespace tarebook {

/// What is known of equipment whose leaks are to be checked.
struct LeakCheckAsk {
    Mass charge;
    bool hermetic = false;  // sealed for life and labelled so
    bool home = false;      // such a unit in a home
    bool detection = false; // a system that detects leaks is fitted
};

/// How often equipment is checked for leaks, by its charge in tonnes of carbon dioxide equivalent, or, of
/// gases that hold no HFC, by kilograms (leak-checks.csv). The working has the factor, the tonnes, the exact
/// limits in kilograms (from the potential, no rounded table) and how far the next one is. Rule `leak.check`;
/// a caution where a detection system is compulsory and missing, else a note. Error: no such table, a charge
/// that is not above zero, a potential that is not known.
[[nodiscard]] Result<Finding> leakCheck(const Rulebook& book, const Catalogue& catalogue,
                                        const Contents& contents, const LeakCheckAsk& ask);

/// What a mass is in tonnes of carbon dioxide equivalent. Rule `co2e`, a note. Errors as carbonFactor().
[[nodiscard]] Result<Finding> carbonFinding(const Rulebook& book, const Catalogue& catalogue,
                                            const Contents& contents, Mass mass);

} // namespace tarebook
