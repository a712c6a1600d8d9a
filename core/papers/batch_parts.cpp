#include "core/papers/batch_parts.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text_width.h"
#include "core/rules/vehicle_load.h"

namespace tarebook {

Result<bool> mayTravel(Shop& shop, const Batch& batch) {
    if (batch.status != "prepared") {
        return true;
    }
    std::vector<std::string> serials;
    for (const BatchLine& line : batch.lines) {
        serials.push_back(line.serial);
    }
    const Review reviewed = reviewBatch(shop, batch.reclaimer, serials);
    if (reviewed.refused()) {
        const Finding& worst = reviewed.findings.front();
        return Error{fmt::format("no paper for {}: {}: {}", batch.name, worst.subject, worst.headline),
                     worst.remedy};
    }
    return true;
}

Party reclaimerOf(Shop& shop, const Batch& batch) {
    for (const Party& party : parties(shop, "reclaimer")) {
        if (party.name == batch.reclaimer) {
            return party;
        }
    }
    return {"reclaimer", batch.reclaimer, "", ""};
}

std::vector<std::string> placardsOf(const Shop& shop, const Batch& batch) {
    std::vector<std::string> placards;
    std::vector<LoadedCylinder> cylinders;
    for (const BatchLine& line : batch.lines) {
        LoadedCylinder cylinder;
        cylinder.name = line.serial;
        cylinder.description = line.shipping;
        cylinder.division = line.division;
        cylinder.gross = line.gross;
        cylinder.net = line.net;
        cylinders.push_back(std::move(cylinder));
    }
    const auto load = vehicleLoad(shop.rulebook(), cylinders);
    if (!load) {
        return placards;
    }
    for (const Finding& finding : load.value().findings) {
        if (finding.rule != "load.placard") {
            continue;
        }
        const std::string firmness = firmnessWord(finding.firmness);
        placards.push_back(fmt::format("For these cylinders alone: {}{} {} ({}{}).", finding.headline,
                                       finding.remedy.empty() ? "" : " " + finding.remedy,
                                       finding.working.front(), finding.citation,
                                       firmness.empty() ? "" : ", " + firmness));
    }
    return placards;
}

int issuesBefore(Shop& shop, std::string_view paper, const std::string& batch) {
    int issues = 0;
    const auto entries = shop.store().entries(1, shop.store().headSeq(), {EntryKind::paperIssued});
    for (const Entry& entry : entries ? entries.value() : std::vector<Entry>()) {
        const bool its =
            entry.body.value("paper", "") == paper && entry.body.value("subject", "") == "batch:" + batch;
        issues += its && !shop.store().reversedBy(entry.seq) ? 1 : 0;
    }
    return issues;
}

std::string columnsText(const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::size_t> widths;
    for (const auto& row : rows) {
        widths.resize(std::max(widths.size(), row.size()), 0);
        for (std::size_t column = 0; column < row.size(); ++column) {
            widths[column] = std::max(widths[column], characterCount(row[column]));
        }
    }
    std::string text;
    for (const auto& row : rows) {
        std::string line;
        for (std::size_t column = 0; column < row.size(); ++column) {
            line += row[column] + std::string(widths[column] - characterCount(row[column]) + 2, ' ');
        }
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + "\n";
    }
    return text;
}

} // namespace tarebook
