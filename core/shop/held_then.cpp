#include "core/shop/held_then.h"

#include <algorithm>

#include "core/ledger/held_after.h"

namespace tarebook {

Result<Holding> heldBefore(LegReader& reader, const std::string& serial, Instant moment) {
    const Account account = Account::cylinder(serial);
    const auto last = reader.before(account, {moment, 0}, 0, 1);
    if (!last) {
        return last.error();
    }
    return last.value().empty() ? Holding() : heldAfter(last.value().front(), account);
}

Result<std::vector<std::string>> everySerial(Shop& shop) {
    std::vector<std::string> serials;
    for (const char* condition : {"", "retired"}) {
        const auto rows = shop.store().fleet({{}, condition});
        if (!rows) {
            return rows.error();
        }
        serials.reserve(serials.size() + rows.value().size());
        for (const FleetRow& row : rows.value()) {
            serials.push_back(row.serial);
        }
    }
    std::sort(serials.begin(), serials.end());
    serials.erase(std::unique(serials.begin(), serials.end()), serials.end());
    return serials;
}

Result<std::map<std::string, Holding>> heldBefore(Shop& shop, Instant moment) {
    const auto serials = everySerial(shop);
    if (!serials) {
        return serials.error();
    }
    const auto reader = shop.store().legReader();
    std::map<std::string, Holding> all;
    for (const std::string& serial : serials.value()) {
        auto held = heldBefore(*reader, serial, moment);
        if (!held) {
            return held.error();
        }
        if (!held.value().empty()) {
            all.emplace(serial, std::move(held).value());
        }
    }
    return all;
}

std::string kilogramCell(std::int64_t milligrams) {
    std::string text = Mass::fromMilligrams(milligrams).kilogramsText();
    text.resize(text.size() - std::string(" kg").size());
    return text;
}

} // namespace tarebook
