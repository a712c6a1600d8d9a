#pragma once

#include <string>
#include <vector>

#include "tests/pages/support/printed_page.h"

namespace tarebook::tests {

/// Of the pictures that are kept: type of 9 points can be read in them, and each has some 40 kB.
inline constexpr double kApprovedDotsPerInch = 80;

/// What is wrong with a page beside the approved picture of it; empty: nothing. The grey of small cells is
/// compared, not dots: another way of smoothing type passes; a line that is missing, or has moved by a
/// millimetre and a half, does not.
[[nodiscard]] std::string pictureProblem(const QImage& approved, const QImage& made);
/// What is wrong with a printed paper beside what is approved under that name: the number of its pages, a
/// picture, or the text, which is the same to the letter. Empty: nothing.
[[nodiscard]] std::string approvalProblem(const std::string& name, const std::vector<PrintedPage>& pages);
/// Compares, and says where the pages lie that were made if they are not as approved; where
/// TAREBOOK_APPROVE_PAGES is 1, approves them instead: who does that has looked at each. A page with a colour
/// on it passes neither way.
void expectApproved(const std::string& name, const std::string& pdf);
/// The folder of what is approved: `NAME.txt` and for each page `NAME-NUMBER.png`.
[[nodiscard]] std::string approvedFolder();

} // namespace tarebook::tests
