// A batch is set aside, and leaves.
#include "core/shop/returns.h"

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/look_then_record.h"

namespace tarebook {

namespace {

/// Entries that set these cylinders aside, or why they may not be.
Looked preparing(Shop& shop, const std::string& name, const std::string& reclaimer,
                 const std::vector<std::string>& serials) {
    Review reviewed = reviewBatch(shop, reclaimer, serials, name);
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
    Review reviewed = reviewBatch(shop, known.value().reclaimer, serials, name);
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
