#include "core/papers/issues.h"

#include <fmt/format.h>

namespace tarebook {

std::string PaperIssue::text() const {
    return draft ? std::string("draft, not issued") : fmt::format("issue {}", number);
}

int issuesBefore(Shop& shop, std::string_view paper, const std::string& subject) {
    int issues = 0;
    // Of what is no account the books keep no list of entries.
    const auto entries = Account::parse(subject)
                             ? shop.store().entriesAbout(subject)
                             : shop.store().entries(1, shop.store().headSeq(), {EntryKind::paperIssued});
    for (const Entry& entry : entries ? entries.value() : std::vector<Entry>()) {
        const bool its = entry.kind == EntryKind::paperIssued && entry.body.value("paper", "") == paper &&
                         entry.body.value("subject", "") == subject;
        issues += its && !shop.store().reversedBy(entry.seq) ? 1 : 0;
    }
    return issues;
}

Recorded issuePapers(Shop& shop, std::string_view paper, const std::vector<std::string>& subjects) {
    std::vector<Draft> drafts;
    drafts.reserve(subjects.size());
    const std::string head = shop.store().headDigest();
    for (const std::string& subject : subjects) {
        drafts.push_back(
            shop.draft(EntryKind::paperIssued, {{"paper", paper}, {"subject", subject}, {"head", head}}));
    }
    return shop.record(drafts);
}

} // namespace tarebook
