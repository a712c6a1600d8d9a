#include "core/shop/entries_between.h"

#include <fmt/format.h>

#include "core/ledger/body_text.h"

namespace tarebook {

Result<std::vector<Entry>> entriesBetween(Shop& shop, Date from, Date to,
                                          const std::vector<EntryKind>& kinds) {
    if (to < from) {
        return Error{fmt::format("the period ends {} before it begins {}", to.text(), from.text()),
                     "exchange the two days"};
    }
    auto entries = shop.store().entries(1, shop.store().headSeq(), kinds);
    if (!entries) {
        return entries.error();
    }
    const Instant start = shop.zone().startOf(from);
    const Instant end = shop.zone().startOf(to.plusDays(1));
    std::vector<Entry> all = std::move(entries).value();
    std::erase_if(all, [&](const Entry& entry) {
        return entry.occurred < start || entry.occurred >= end || shop.store().reversedBy(entry.seq);
    });
    return all;
}

Mass bodyMass(const Entry& entry, const char* key) {
    const auto place = entry.body.find(key);
    return place != entry.body.end() && place->is_number_integer()
               ? Mass::fromMilligrams(place->get<std::int64_t>())
               : Mass();
}

std::string bodyAccount(const Entry& entry, const char* key, AccountKind kind) {
    const auto account = Account::parse(bodyText(entry.body, key));
    return account && account.value().kind == kind ? account.value().name : std::string();
}

} // namespace tarebook
