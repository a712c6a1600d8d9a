#include "core/exchange/movement_repeats.h"

#include <fmt/format.h>

#include "core/ledger/body_text.h"

namespace tarebook {

namespace {

constexpr const char* kMass = "mass_mg";

} // namespace

Result<bool> MovementRepeats::read(const std::string& cylinder) {
    if (!m_read.insert(cylinder).second) {
        return true;
    }
    const auto entries = m_shop.store().entriesAbout(cylinder);
    if (!entries) {
        return entries.error();
    }
    for (const Entry& entry : entries.value()) {
        const std::string from = bodyText(entry.body, "from");
        const std::string to = bodyText(entry.body, "to");
        if (from.empty() || to.empty() || !entry.body.contains(kMass) || m_seen.contains(entry.seq) ||
            m_shop.store().reversedBy(entry.seq)) {
            continue;
        }
        m_seen.insert(entry.seq);
        m_entries.emplace(
            Key{from, to, m_shop.zone().dateOf(entry.occurred), entry.body.value(kMass, std::int64_t{0})},
            entry.seq);
    }
    return true;
}

Result<std::optional<Sequence>> MovementRepeats::take(const MovementFacts& facts) {
    for (const Account* account : {&facts.source, &facts.target}) {
        if (account->kind == AccountKind::cylinder) {
            const auto done = read(account->text());
            if (!done) {
                return done.error();
            }
        }
    }
    const auto found = m_entries.find({facts.source.text(), facts.target.text(),
                                       m_shop.zone().dateOf(facts.occurred), facts.mass.milligrams()});
    if (found == m_entries.end()) {
        return std::optional<Sequence>();
    }
    const Sequence entry = found->second;
    m_entries.erase(found);
    return std::make_optional(entry);
}

RowProblem repeatProblem(const Shop& shop, const MovementFacts& facts, Sequence entry) {
    return {"row",
            Error{fmt::format("entry {} of the books is the same already: {} from {} to {} on {}", entry,
                              shop.display().mass(facts.mass), facts.source.text(), facts.target.text(),
                              shop.zone().dateOf(facts.occurred).text()),
                  "leave the row out, unless it happened twice on that day"},
            true};
}

} // namespace tarebook
