#include "core/papers/shipping_paper.h"

#include <map>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr const char* kPaper = "shipping paper";

/// The name that stands between number and class: between the first comma and the parenthesis of the
/// technical names, or the last comma. A name may have commas of its own.
std::string nameIn(const std::string& description) {
    const std::size_t first = description.find(", ");
    const std::size_t last = std::min(description.find(" ("), description.rfind(", "));
    return first == std::string::npos || last <= first ? description
                                                       : description.substr(first + 2, last - first - 2);
}

Result<bool> mayBeWritten(Shop& shop, const Batch& batch) {
    if (shop.settings().rulebook != "us") {
        return Error{fmt::format("no shipping paper of 49 CFR by the rulebook {}", shop.settings().rulebook),
                     "the manifest lists what goes; the papers of its own country go with it"};
    }
    if (shop.settings().emergencyTelephone.empty()) {
        return Error{"no shipping paper without an emergency telephone (49 CFR 172.604)",
                     "enter the setting emergency_telephone: a number answered all the time while goods are "
                     "on the road by somebody who knows them"};
    }
    for (const BatchLine& line : batch.lines) {
        if (line.shipping.empty()) {
            return Error{fmt::format("no shipping paper for {}: the contents of {} have no description",
                                     batch.name, line.serial),
                         "have the contents analysed, or take it out of the batch"};
        }
    }
    return mayTravel(shop, batch);
}

} // namespace

std::string residueDescription(const std::string& description, const std::string& name) {
    return fmt::format("{}, RESIDUE: Last Contained {}", description, name);
}

std::vector<ShippingEntry> shippingEntries(const Display& display, const std::vector<BatchLine>& lines) {
    struct Sum {
        std::size_t count = 0;
        std::int64_t net = 0;
        std::int64_t gross = 0;
        std::string serials;
    };
    std::map<std::pair<std::string, std::string>, Sum> sums; // by division, then by description
    for (const BatchLine& line : lines) {
        if (line.division.empty()) {
            continue;
        }
        const bool residue = line.net.milligrams() <= 0;
        Sum& sum = sums[{line.division,
                         residue ? residueDescription(line.shipping, nameIn(line.shipping)) : line.shipping}];
        ++sum.count;
        sum.net += residue ? 0 : line.net.milligrams();
        sum.gross += line.gross.milligrams();
        sum.serials += (sum.serials.empty() ? "" : ", ") + line.serial;
    }
    std::vector<ShippingEntry> entries;
    entries.reserve(sums.size());
    for (const auto& [key, sum] : sums) {
        entries.push_back({fmt::format("{} cyl.", sum.count), key.second,
                           sum.net > 0 ? display.mass(Mass::fromMilligrams(sum.net)) : "",
                           display.mass(Mass::fromMilligrams(sum.gross)), sum.serials});
    }
    return entries;
}

Result<ShippingPaper> shippingPaperOf(Shop& shop, const std::string& name) {
    const auto found = batch(shop, name);
    if (!found) {
        return found.error();
    }
    const Batch& its = found.value();
    if (const auto allowed = mayBeWritten(shop, its); !allowed) {
        return allowed.error();
    }
    ShippingPaper paper;
    paper.heading = headingOf(shop, its, "Shipping paper", kPaper);
    paper.emergency = shop.settings().emergencyTelephone;
    paper.entries = shippingEntries(shop.display(), its.lines);
    std::size_t hazardous = 0;
    for (const BatchLine& line : its.lines) {
        hazardous += line.division.empty() ? 0 : 1;
        if (line.division.empty()) {
            const std::string what =
                line.empty() ? line.content
                             : fmt::format("{}, {} net", line.content, shop.display().mass(line.net));
            paper.others.push_back(fmt::format("1 cyl., {}: not regulated as a hazardous material", what));
        }
    }
    paper.totals = {countOf(its), "gross " + shop.display().mass(its.gross()),
                    "net " + shop.display().mass(its.net())};
    if (hazardous > 0) {
        paper.certification =
            "This is to certify that the above-named materials are properly classified, described, packaged, "
            "marked and labeled, and are in proper condition for transportation according to the applicable "
            "regulations of the Department of Transportation.";
        paper.certificationBasis = "49 CFR 172.204(a)(1), wording from memory: check against your edition. "
                                   "Not asked for where your own "
                                   "truck carries it and hands it to no other carrier (172.204(b)).";
        paper.placards = placardsOf(shop, its);
    }
    paper.cautions = {
        "The shipper answers for classification and description. Whoever fills this in or signs it is "
        "trained for "
        "it (49 CFR 172.704).",
        "Liquefied gas under pressure. Keep upright, secured, valve closed and capped, below 125 °F (52 °C). "
        "Eye protection and gloves: escaping liquid freezes skin and eyes; vapour displaces air.",
        "Keep within the driver's reach, and a copy for two years (49 CFR 177.817, 172.201(e), from memory: "
        "check "
        "against your edition)."};
    for (std::string& said : emptiesSaid(its)) {
        paper.cautions.push_back(std::move(said));
    }
    return paper;
}

std::vector<std::vector<std::string>> rowsOf(const ShippingPaper& paper) {
    std::vector<std::vector<std::string>> rows = {
        {"HM", "Packages", "Description", "Quantity", "Gross", "Cylinders"}};
    for (const ShippingEntry& entry : paper.entries) {
        rows.push_back({"X", entry.packages, entry.description, entry.quantity, entry.gross, entry.serials});
    }
    return rows;
}

std::string shippingPaperText(const ShippingPaper& paper) {
    std::string text = fmt::format("{}\n{}\n\nShipper    {}\nConsignee  {}\nEMERGENCY TELEPHONE  {}\n\n",
                                   paper.heading.title, issueLine(paper.heading), fromLine(paper.heading),
                                   toLine(paper.heading), paper.emergency);
    text += columnsText(rowsOf(paper));
    for (const std::string& line : paper.others) {
        text += line + "\n";
    }
    text += fmt::format("\n{}\n\n", fmt::join(paper.totals, ", "));
    if (!paper.certification.empty()) {
        text += fmt::format("{}\nSigned ______________________  Date ____________\n({})\n\n",
                            paper.certification, paper.certificationBasis);
    }
    for (const auto* lines : {&paper.placards, &paper.cautions}) {
        for (const std::string& line : *lines) {
            text += line + "\n";
        }
    }
    return text + fmt::format("\nBooks at {}\n", paper.heading.head);
}

nlohmann::json jsonOf(const ShippingPaper& paper) {
    nlohmann::json entries = nlohmann::json::array();
    for (const ShippingEntry& entry : paper.entries) {
        entries.push_back({{"packages", entry.packages},
                           {"description", entry.description},
                           {"quantity", entry.quantity},
                           {"gross", entry.gross},
                           {"serials", entry.serials}});
    }
    nlohmann::json object = jsonOf(paper.heading, "shipper", "consignee");
    object.update({{"emergency_telephone", paper.emergency},
                   {"entries", entries},
                   {"not_hazardous", paper.others},
                   {"totals", paper.totals},
                   {"certification", paper.certification},
                   {"certification_basis", paper.certificationBasis},
                   {"placards", paper.placards},
                   {"cautions", paper.cautions}});
    return object;
}

Recorded issueShippingPaper(Shop& shop, const ShippingPaper& paper) {
    return issuePaper(shop, paper.heading, kPaper);
}

} // namespace tarebook
