#include "core/papers/batch_parts.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/base/text_width.h"
#include "core/papers/issues.h"
#include "core/papers/paper_parts.h"
#include "core/rules/vehicle_load.h"

namespace tarebook {

BatchHeading headingOf(Shop& shop, const Batch& batch, std::string_view title, std::string_view paper) {
    const Party reclaimer = reclaimerOf(shop, batch);
    BatchHeading heading;
    heading.title = title;
    heading.batch = batch.name;
    heading.issue = issuesBefore(shop, paper, "batch:" + batch.name) + 1;
    heading.issued = shop.zone().localText(shop.now());
    heading.from = shop.settings().name;
    heading.fromAddress = shop.settings().address;
    heading.to = reclaimer.name;
    heading.toAddress = reclaimer.address;
    heading.toNumber = reclaimer.number;
    heading.head = shownHead(shop);
    return heading;
}

namespace {

std::string issueText(const BatchHeading& heading) {
    return PaperIssue{heading.draft, heading.issue}.text();
}

} // namespace

std::string issueLine(const BatchHeading& heading) {
    return fmt::format("Batch {}, {}, {}", heading.batch, issueText(heading), heading.issued);
}

std::string fromLine(const BatchHeading& heading) {
    return firmLine(heading.from, heading.fromAddress);
}

std::string toLine(const BatchHeading& heading) {
    return firmLine(firmLine(heading.to, heading.toAddress), heading.toNumber);
}

std::string footLine(const BatchHeading& heading) {
    return fmt::format("{}, batch {}, {}, books at {}", heading.title, heading.batch, issueText(heading),
                       heading.head);
}

nlohmann::json jsonOf(const BatchHeading& heading, const std::string& from, const std::string& to) {
    return {{"title", heading.title},
            {"batch", heading.batch},
            {"issue", heading.draft ? nlohmann::json() : nlohmann::json(heading.issue)},
            {"draft", heading.draft},
            {"issued", heading.issued},
            {from, heading.from},
            {from + "_address", heading.fromAddress},
            {to, heading.to},
            {to + "_address", heading.toAddress},
            {to + "_number", heading.toNumber},
            {"head", heading.head}};
}

Recorded issuePaper(Shop& shop, const BatchHeading& heading, std::string_view paper) {
    return issuePapers(shop, paper, {"batch:" + heading.batch});
}

Result<bool> mayTravel(Shop& shop, const Batch& batch) {
    if (batch.status != "prepared") {
        return true;
    }
    std::vector<std::string> serials;
    for (const BatchLine& line : batch.lines) {
        serials.push_back(line.serial);
    }
    const Review reviewed = reviewBatch(shop, batch.reclaimer, serials, batch.name);
    if (reviewed.refused()) {
        const Finding& worst = reviewed.findings.front();
        return Error{fmt::format("no paper for {}: {}: {}", batch.name, worst.subject, worst.headline),
                     worst.remedy};
    }
    return true;
}

Party reclaimerOf(Shop& shop, const Batch& batch) {
    for (const char* kind : {"reclaimer", "supplier", "destroyer"}) { // empties go back to whom they belong
        for (const Party& party : parties(shop, kind)) {
            if (party.name == batch.reclaimer) {
                return party;
            }
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
        cylinder.residue = line.empty();
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

std::string countOf(const Batch& batch) {
    const std::size_t empties = batch.empties();
    return fmt::format("{} cylinder{}{}", batch.lines.size(), batch.lines.size() == 1 ? "" : "s",
                       empties == 0 ? std::string() : fmt::format(", {} of them empty", empties));
}

std::vector<std::string> emptiesSaid(const Batch& batch) {
    std::map<std::string, std::string> serials; // by what is said
    for (const BatchLine& line : batch.lines) {
        if (!line.freed.empty()) {
            std::string& its = serials[line.freed];
            its += (its.empty() ? "" : ", ") + line.serial;
        }
    }
    std::vector<std::string> said;
    said.reserve(serials.size());
    for (const auto& [what, its] : serials) {
        said.push_back(fmt::format("{}: {}", its, what));
    }
    return said;
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
