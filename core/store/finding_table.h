#pragma once

#include <string>
#include <vector>

#include "core/store/database.h"
#include "core/store/store.h"

namespace tarebook {

/// Puts these in the place of the subject's findings. Throws SqlFailure.
void replaceFindings(Database& database, const std::string& subject,
                     const std::vector<CylinderReview::Open>& findings);
/// Of one subject, or all when it is empty; the worst first.
[[nodiscard]] std::vector<OpenFinding> findingsOf(Database& database, const std::string& subject);

/// By what all of them were found; empty: not known.
[[nodiscard]] std::string judgedBy(Database& database);
void keepJudgement(Database& database, const std::string& judgement);

[[nodiscard]] std::vector<FindingBrief> briefFindings(Database& database, int leastSeverity);
[[nodiscard]] std::optional<OpenFinding> findingWith(Database& database, const std::string& subject,
                                                     int number);

} // namespace tarebook
