#include "core/papers/manifest.h"

#include <map>

#include <fmt/format.h>

#include "core/shop/exchange_checks.h"

namespace tarebook {

namespace {

constexpr const char* kManifest = "manifest";

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
        const std::string& shipping = line.residue.empty() ? line.shipping : line.residue;
        manifest.rows.push_back({line.serial, line.content, shipping, display.mass(line.gross),
                                 display.mass(line.tare), display.mass(line.net), ownersOf(display, line),
                                 labelsOf(line)});
        auto& [packages, net] = byShipping[shipping];
        ++packages;
        net += line.net.milligrams();
    }
    for (const auto& [description, sum] : byShipping) {
        manifest.shipping.push_back(
            fmt::format("{}, {} cylinder{}, {}", description, sum.first, sum.first == 1 ? "" : "s",
                        sum.second > 0 ? display.mass(Mass::fromMilligrams(sum.second)) + " net" : "empty"));
    }
    manifest.totals = {countOf(batch), "gross " + display.mass(batch.gross()),
                       "net " + display.mass(batch.net())};
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
    manifest.heading = headingOf(shop, its.value(), "Return of recovered refrigerant", kManifest);
    manifest.columns = {"Cylinder", "Contents", "Shipping description", "Gross", "Tare", "Net",
                        "Gas of",   "Label"};
    addRows(shop.display(), its.value(), manifest);
    manifest.placards = placardsOf(shop, its.value());
    for (std::string& said : emptiesSaid(its.value())) {
        manifest.placards.push_back(std::move(said));
    }
    manifest.exchange = exchangeSaid(shop, its.value());
    manifest.cautions = {
        "Liquefied gas under pressure. Keep upright, secured, valve closed and capped, away from heat.",
        "Wear eye protection and gloves: escaping liquid freezes skin and eyes; vapour displaces air.",
        "Never heat above 125 °F (52 °C). Do not open a cylinder whose contents are in doubt.",
        "This list is no shipping paper by itself: the shipper answers for description and certification "
        "under "
        "the rules that hold where it travels."};
    return manifest;
}

std::string manifestText(const Manifest& manifest) {
    std::string text =
        fmt::format("{}\n{}\n\nFrom  {}\nTo    {}\n\n", manifest.heading.title, issueLine(manifest.heading),
                    fromLine(manifest.heading), toLine(manifest.heading));
    std::vector<std::vector<std::string>> rows = manifest.rows;
    rows.insert(rows.begin(), manifest.columns);
    text += columnsText(rows);
    text += fmt::format("\n{}\n\n", fmt::join(manifest.totals, ", "));
    for (const auto* lines : {&manifest.shipping, &manifest.placards, &manifest.exchange}) {
        for (const std::string& line : *lines) {
            text += line + "\n";
        }
    }
    text += "\n";
    for (const std::string& line : manifest.cautions) {
        text += line + "\n";
    }
    text += fmt::format("\nBooks at {}\nSigned ______________________  Received ______________________\n",
                        manifest.heading.head);
    return text;
}

nlohmann::json jsonOf(const Manifest& manifest) {
    nlohmann::json object = jsonOf(manifest.heading, "shop", "reclaimer");
    object.update({{"columns", manifest.columns},
                   {"rows", manifest.rows},
                   {"totals", manifest.totals},
                   {"shipping", manifest.shipping},
                   {"placards", manifest.placards},
                   {"exchange", manifest.exchange},
                   {"cautions", manifest.cautions}});
    return object;
}

Recorded issueManifest(Shop& shop, const Manifest& manifest) {
    return issuePaper(shop, manifest.heading, kManifest);
}

} // namespace tarebook
