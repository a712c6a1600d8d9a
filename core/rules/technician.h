#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/quantity/mass.h"
#include "core/rules/appliance_pressure.h"

namespace tarebook {

/// Whether a technician's certificate is for such an appliance (technician-types.csv, 40 CFR 82.161). Nothing
/// where it is, where the words name no type that the table knows (a number, say), or where the rulebook has
/// no such table. A caution, rule `release.certificate`, where they name another type, or are empty: it stays
/// a caution because apprentices work under a certified technician's eyes (from memory), which nobody here
/// can see. `certificate` is what the register has, as `Type II` or `Type I & III`; a full charge within the
/// bound of small appliances also suits a certificate for these. Error: a row that cannot be read.
[[nodiscard]] Result<std::optional<Finding>>
certificateFinding(const Rulebook& book, const std::string& person, const std::string& certificate,
                   const AppliancePressure& appliance, std::optional<Mass> fullCharge);

/// Rows of technician-types whose certificate the words name; none where the rulebook has no such table.
[[nodiscard]] std::vector<const RuleRow*> certificateRows(const Rulebook& book,
                                                          const std::string& certificate);

/// Sets what a finding about a certificate rests on: the rulebook's own section where its table
/// technician-types has one, otherwise common practice and the question what the law asks for.
void citeCertificate(const Rulebook& book, Finding& finding);

} // namespace tarebook
