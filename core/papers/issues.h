#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// Which issue of a paper this is, or that it is none: one that is only looked at is a draft, and the books
/// do not know of it.
struct PaperIssue {
    bool draft = false;
    int number = 1; // of the papers of that kind about the subject, this one included
    /// `issue 2`, or `draft, not issued`.
    [[nodiscard]] std::string text() const;
};

/// How many papers of this kind the books know about the subject (`batch:B-2026-001`, `cylinder:A103`,
/// `person:NAME`); reversed ones do not count.
[[nodiscard]] int issuesBefore(Shop& shop, std::string_view paper, const std::string& subject);
/// Keeps in the books that such a paper was issued about each of the subjects, with the head of the books.
[[nodiscard]] Recorded issuePapers(Shop& shop, std::string_view paper,
                                   const std::vector<std::string>& subjects);

} // namespace tarebook
