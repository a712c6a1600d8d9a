#include "core/shop/came_back.h"

#include <fmt/format.h>

namespace tarebook {

namespace {

/// When it was checked in after the batch had left with it; nothing where it was not.
std::optional<Instant> backSince(Shop& shop, const std::string& serial, const std::string& batch) {
    const auto state = shop.store().cylinder(serial);
    if (!state || !state.value() || state.value()->batch != batch ||
        state.value()->condition == Condition::away) {
        return std::nullopt;
    }
    const auto entries = shop.store().entriesAbout(Account::cylinder(serial).text());
    bool left = false;
    for (const Entry& entry : entries ? entries.value() : std::vector<Entry>()) {
        const bool ships = entry.kind == EntryKind::batchShipped;
        if ((!ships && entry.kind != EntryKind::returned) || shop.store().reversedBy(entry.seq)) {
            continue;
        }
        if (ships) {
            left = entry.body.value("batch", std::string()) == batch;
        } else if (left) {
            return entry.occurred;
        }
    }
    return std::nullopt;
}

} // namespace

Batch withThoseBack(Shop& shop, Batch batch) {
    if (batch.status == "shipped" || batch.status == "received") {
        for (BatchLine& line : batch.lines) {
            line.cameBack = backSince(shop, line.serial, batch.name);
        }
    }
    return batch;
}

std::string cameBackText(const Shop& shop, const Batch& batch) {
    std::vector<std::string> sentences;
    sentences.reserve(batch.lines.size());
    for (const BatchLine& line : batch.lines) {
        if (line.cameBack) {
            sentences.push_back(fmt::format("{} came back on {}, before the batch was settled.", line.serial,
                                            shop.zone().dateOf(*line.cameBack).text()));
        }
    }
    return fmt::format("{}", fmt::join(sentences, " "));
}

} // namespace tarebook
