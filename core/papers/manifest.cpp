#include "core/papers/manifest.h"

#include <map>

#include <fmt/format.h>

#include "core/papers/batch_parts.h"
#include "core/papers/paper_parts.h"

namespace tarebook {

namespace {

std::string ownersOf(const Display& display, const BatchLine& line) {
    std::string text;
    for (const auto& [owner, mass] : line.owners) {
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ", owner.empty() ? "the shop" : owner,
                            line.owners.size() > 1 ? display.mass(mass) : "");
    }
    while (!text.empty() && text.back() == ' ') {
        text.pop_back();
    }
    return text;
}

/// `2.2`; what burns is marked in words, which black and white cannot lose.
std::string labelsOf(const BatchLine& line) {
    if (line.division.empty()) {
        return line.shipping.empty() ? "not classified" : "none";
    }
    return line.labels + (line.division == "2.1" ? " FLAMMABLE GAS" : "");
}

void addRows(const Display& display, const Batch& batch, Manifest& manifest) {
    std::map<std::string, std::pair<int, std::int64_t>> byShipping; // packages and net
    for (const BatchLine& line : batch.lines) {
        manifest.rows.push_back({line.serial, line.content, line.shipping, display.mass(line.gross),
                                 display.mass(line.tare), display.mass(line.net), ownersOf(display, line),
                                 labelsOf(line)});
        auto& [packages, net] = byShipping[line.shipping];
        ++packages;
        net += line.net.milligrams();
    }
    for (const auto& [description, sum] : byShipping) {
        manifest.shipping.push_back(fmt::format("{}, {} cylinder{}, {} net", description, sum.first,
                                                sum.first == 1 ? "" : "s",
                                                display.mass(Mass::fromMilligrams(sum.second))));
    }
    manifest.totals = {fmt::format("{} cylinder{}", batch.lines.size(), batch.lines.size() == 1 ? "" : "s"),
                       "gross " + display.mass(batch.gross()), "net " + display.mass(batch.net())};
}

} // namespace

Result<Manifest> manifestOf(Shop& shop, const std::string& name) {
    const auto its = batch(shop, name);
    if (!its) {
        return its.error();
    }
    const auto allowed = mayTravel(shop, its.value());
    if (!allowed) {
        return allowed.error();
    }
    Manifest manifest;
    manifest.title = "Return of recovered refrigerant";
    manifest.number = name;
    manifest.issued = shop.zone().localText(shop.now());
    manifest.shop = shop.settings().name;
    manifest.shopAddress = shop.settings().address;
    manifest.reclaimer = its.value().reclaimer;
    const Party reclaimer = reclaimerOf(shop, its.value());
    manifest.reclaimerAddress = reclaimer.address;
    manifest.reclaimerNumber = reclaimer.number;
    manifest.columns = {"Cylinder", "Contents", "Shipping description", "Gross", "Tare", "Net",
                        "Gas of",   "Label"};
    addRows(shop.display(), its.value(), manifest);
    manifest.placards = placardsOf(shop, its.value());
    manifest.cautions = {
        "Liquefied gas under pressure. Keep upright, secured, valve closed and capped, away from heat.",
        "Wear eye protection and gloves: escaping liquid freezes skin and eyes; vapour displaces air.",
        "Never heat above 125 °F (52 °C). Do not open a cylinder whose contents are in doubt.",
        "This list is no shipping paper by itself: the shipper answers for description and certification "
        "under "
        "the rules that hold where it travels."};
    manifest.head = shownHead(shop);
    return manifest;
}

std::string manifestText(const Manifest& manifest) {
    std::string text =
        fmt::format("{}\nBatch {}, issued {}\n\n", manifest.title, manifest.number, manifest.issued);
    text += fmt::format("From  {}{}\n", manifest.shop,
                        manifest.shopAddress.empty() ? "" : ", " + manifest.shopAddress);
    text += fmt::format("To    {}{}{}\n\n", manifest.reclaimer,
                        manifest.reclaimerAddress.empty() ? "" : ", " + manifest.reclaimerAddress,
                        manifest.reclaimerNumber.empty() ? "" : ", " + manifest.reclaimerNumber);
    std::vector<std::vector<std::string>> rows = manifest.rows;
    rows.insert(rows.begin(), manifest.columns);
    text += columnsText(rows);
    text += fmt::format("\n{}\n\n", fmt::join(manifest.totals, ", "));
    for (const auto* lines : {&manifest.shipping, &manifest.placards}) {
        for (const std::string& line : *lines) {
            text += line + "\n";
        }
    }
    text += "\n";
    for (const std::string& line : manifest.cautions) {
        text += line + "\n";
    }
    text += fmt::format("\nBooks at {}\nSigned ______________________  Received ______________________\n",
                        manifest.head);
    return text;
}

nlohmann::json jsonOf(const Manifest& manifest) {
    return {{"title", manifest.title},
            {"batch", manifest.number},
            {"issued", manifest.issued},
            {"shop", manifest.shop},
            {"shop_address", manifest.shopAddress},
            {"reclaimer", manifest.reclaimer},
            {"reclaimer_address", manifest.reclaimerAddress},
            {"reclaimer_number", manifest.reclaimerNumber},
            {"columns", manifest.columns},
            {"rows", manifest.rows},
            {"totals", manifest.totals},
            {"shipping", manifest.shipping},
            {"placards", manifest.placards},
            {"cautions", manifest.cautions},
            {"head", manifest.head}};
}

Recorded issueManifest(Shop& shop, const Manifest& manifest) {
    return shop.record({shop.draft(EntryKind::paperIssued, {{"paper", "manifest"},
                                                            {"subject", "batch:" + manifest.number},
                                                            {"head", shop.store().headDigest()}})});
}

} // namespace tarebook
