#include "core/shop/copies.h"

#include <fmt/format.h>

#include "core/shop/card.h"

namespace tarebook {

namespace {

std::string wordsOf(const CopyStanding& standing, bool known) {
    if (!standing.problem.empty()) {
        return standing.problem;
    }
    if (!known) {
        return "what would be lost is not known: the shop file cannot be read";
    }
    std::string words = standing.lost == 0 ? "nothing would be lost"
                        : standing.lost == 1
                            ? "the last entry would be lost"
                            : fmt::format("the last {} entries would be lost", standing.lost);
    if (standing.entries > standing.common) {
        words += fmt::format("; it holds {} of its own that these books do not",
                             standing.entries - standing.common == 1
                                 ? std::string("one entry")
                                 : fmt::format("{} entries", standing.entries - standing.common));
    }
    return words;
}

} // namespace

CopyRow copyRow(const KeptCopy& copy, Shop* shop, const Clock& clock) {
    CopyRow row{copy, standingOf(copy.path, shop == nullptr ? nullptr : &shop->store(), clock), {}};
    row.words = wordsOf(row.standing, shop != nullptr);
    return row;
}

std::vector<CopyRow> copyRows(const std::string& shopPath, Shop* shop, const Clock& clock) {
    std::vector<CopyRow> rows;
    for (const KeptCopy& copy : keptCopies(shopPath)) {
        rows.push_back(copyRow(copy, shop, clock));
    }
    return rows;
}

std::vector<std::string> lostSentences(Shop& shop, const CopyStanding& standing, int most) {
    std::vector<std::string> sentences;
    const Sequence head = shop.store().headSeq();
    for (Sequence seq = head; seq > standing.common && std::ssize(sentences) < most; --seq) {
        const auto entry = shop.store().entry(seq);
        sentences.push_back(entry ? fmt::format("entry {}: {}", seq, sentenceOf(shop, entry.value()))
                                  : fmt::format("entry {} cannot be read", seq));
    }
    return sentences;
}

} // namespace tarebook
