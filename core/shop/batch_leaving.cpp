// A batch is set aside, and leaves.
#include "core/shop/returns.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/look_then_record.h"

namespace tarebook {

namespace {

/// That one of them is set aside for another batch. What a cylinder says of itself is not asked: one that was
/// left out when its batch was prepared anew names that batch still.
std::optional<Error> setAsideAlready(Shop& shop, const std::string& name,
                                     const std::vector<std::string>& serials) {
    // Of the batches only those that are prepared: few, however many were shipped in the years before.
    const auto prepared =
        shop.store().recordMoments("batch", "status", std::string(entryKindWord(EntryKind::batchPrepared)));
    if (!prepared) {
        return prepared.error();
    }
    for (const auto& [other, moment] : prepared.value()) {
        const auto record = shop.store().record("batch", other);
        if (!record) {
            return record.error();
        }
        const nlohmann::json body = record.value() ? record.value()->body : nlohmann::json::object();
        if (other == name || !body.contains("serials")) {
            continue;
        }
        for (const auto& serial : body["serials"]) {
            if (std::find(serials.begin(), serials.end(), serial) != serials.end()) {
                return Error{fmt::format("{} is set aside for batch {} already",
                                         serial.get_ref<const std::string&>(), other),
                             "ship that one, prepare it anew without the cylinder, or reverse it"};
            }
        }
    }
    return std::nullopt;
}

/// Entries that set these cylinders aside, or why they may not be.
Looked preparing(Shop& shop, const std::string& name, const std::string& reclaimer,
                 const std::vector<std::string>& serials) {
    Review reviewed = reviewBatch(shop, reclaimer, serials);
    if (reviewed.refused()) {
        return refusedBy(std::move(reviewed));
    }
    const auto known = batch(shop, name);
    if (known && known.value().status != "prepared") {
        return refusedBy(
            Error{fmt::format("batch {} is {} already", name, known.value().status), "take a new name"});
    }
    if (trimmed(name).empty()) {
        return refusedBy(Error{"the batch has no name", "as " + nextBatchName(shop)});
    }
    if (auto aside = setAsideAlready(shop, name, serials)) {
        return refusedBy(*std::move(aside));
    }
    return {{shop.draft(EntryKind::batchPrepared,
                        {{"batch", name}, {"reclaimer", reclaimer}, {"serials", serials}})}};
}

/// The entry by which it leaves, with the masses of the books as they are, or why it may not.
Looked leaving(Shop& shop, const std::string& name, const std::string& carrier,
               std::optional<Instant> occurred) {
    const auto known = batchThatIs(shop, name, "prepared");
    if (!known) {
        return refusedBy(known.error());
    }
    std::vector<std::string> serials;
    nlohmann::json lines = nlohmann::json::array();
    for (const BatchLine& line : known.value().lines) {
        serials.push_back(line.serial);
        lines.push_back({{"serial", line.serial},
                         {"mass_mg", line.net.milligrams()},
                         {"gross_mg", line.gross.milligrams()}});
        if (line.empty()) {
            lines.back()["last_contained"] = line.last;
        }
    }
    Review reviewed = reviewBatch(shop, known.value().reclaimer, serials);
    if (reviewed.refused()) {
        return refusedBy(std::move(reviewed));
    }
    nlohmann::json body{{"batch", name}, {"reclaimer", known.value().reclaimer}, {"lines", lines}};
    if (!carrier.empty()) {
        body["carrier"] = carrier;
    }
    return {{shop.draft(EntryKind::batchShipped, body, occurred)}};
}

} // namespace

Recorded prepareBatch(Shop& shop, const std::string& name, const std::string& reclaimer,
                      const std::vector<std::string>& serials) {
    return lookThenRecord(shop, [&] { return preparing(shop, name, reclaimer, serials); });
}

PreparedBatch prepareNextBatch(Shop& shop, const std::string& reclaimer,
                               const std::vector<std::string>& serials) {
    PreparedBatch prepared;
    prepared.recorded = lookThenRecord(shop, [&] {
        prepared.name = nextBatchName(shop); // with every look: another desk may have taken it
        return preparing(shop, prepared.name, reclaimer, serials);
    });
    return prepared;
}

Recorded shipBatch(Shop& shop, const std::string& name, const std::string& carrier,
                   std::optional<Instant> occurred) {
    return lookThenRecord(shop, [&] { return leaving(shop, name, carrier, occurred); });
}

} // namespace tarebook
