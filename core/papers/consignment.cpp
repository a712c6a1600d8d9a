#include "core/papers/consignment.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/rules/gas_kinds.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

constexpr const char* kSheet = "consignment data sheet";

std::string inKilograms(std::int64_t milligrams) {
    constexpr std::int64_t kTenGrams = 10'000;
    const std::int64_t tens = (milligrams + kTenGrams / 2) / kTenGrams; // the nearest, as weights are found
    return fmt::format("{}.{:02} kg", tens / 100, tens % 100);
}

std::string countOfCylinders(std::size_t count) {
    return fmt::format("{} cylinder{}", count, count == 1 ? "" : "s");
}

/// `14 06 01* ... (check against your edition)`.
std::string withFirmness(const RuleRow& row) {
    const std::string firmness = firmnessWord(row.firmness);
    const std::string source = row.section.empty() || row.firmness == Firmness::practice ? firmness
                               : firmness.empty()                                        ? row.section
                                                  : row.section + ", " + firmness;
    return source.empty() ? row.cell("text") : fmt::format("{} ({})", row.cell("text"), source);
}

/// What a cylinder of the batch held when the batch left, or holds where it has not.
Contents contentsIn(Shop& shop, const Batch& batch, const std::string& serial) {
    Sequence left = 0;
    for (const Sequence seq : batch.entries) {
        const auto entry = shop.store().entry(seq);
        if (entry && entry.value().kind == EntryKind::batchShipped) {
            left = seq;
        }
    }
    const auto state = left == 0 ? shop.store().cylinder(serial) : shop.store().cylinderAt(serial, left - 1);
    const auto contents = state && state.value()
                              ? shop.catalogue().contents(contentsText(state.value()->content))
                              : Result<Contents>(Error{});
    return contents ? contents.value() : Contents{};
}

std::string componentsText(const Catalogue& catalogue, const Contents& contents) {
    constexpr double kPercent = 100;
    std::string text;
    for (const Component& component : contents) {
        fmt::format_to(std::back_inserter(text), "{}{} {:.1f} %", text.empty() ? "" : ", ",
                       catalogue.displayName({{component.designation, 1}}), kPercent * component.massShare);
    }
    return text.empty() ? "unknown" : text;
}

bool holdsAny(const RuleRow& row, std::string_view column, const std::set<std::string>& kinds) {
    const std::vector<std::string> names = namesIn(row, column, " ");
    return std::any_of(names.begin(), names.end(),
                       [&](const std::string& name) { return kinds.contains(name); });
}

/// The code for such contents, where the table has one.
std::string codeOf(const Shop& shop, const RuleTable& table, const Contents& contents) {
    const std::set<std::string> kinds =
        contents.empty() ? std::set<std::string>() : gasKinds(shop.catalogue(), contents);
    for (const RuleRow& row : table.rows) {
        if (row.cell("part") == "code" && holdsAny(row, "applies", kinds) &&
            !holdsAny(row, "not_with", kinds)) {
            return row.cell("label");
        }
    }
    return {};
}

Result<std::vector<ConsignmentLine>> linesOf(Shop& shop, const RuleTable& table, const Batch& batch) {
    struct Sum {
        std::size_t count = 0;
        std::int64_t net = 0;
        std::int64_t gross = 0;
        std::string serials;
        std::string code;
    };
    std::map<std::pair<std::string, std::string>, Sum> sums; // by description, then by components
    for (const BatchLine& line : batch.lines) {
        if (line.empty()) {
            continue; // a packaging that is used again is no waste
        }
        if (line.shipping.empty()) {
            return Error{
                fmt::format("no consignment data sheet for {}: the contents of {} have no description",
                            batch.name, line.serial),
                "have the contents analysed, or take it out of the batch"};
        }
        const Contents contents = contentsIn(shop, batch, line.serial);
        Sum& sum = sums[{line.shipping, componentsText(shop.catalogue(), contents)}];
        sum.code = codeOf(shop, table, contents);
        ++sum.count;
        sum.net += line.net.milligrams();
        sum.gross += line.gross.milligrams();
        sum.serials += (sum.serials.empty() ? "" : ", ") + line.serial;
    }
    if (sums.empty()) {
        return Error{fmt::format("no consignment data sheet for {}: its cylinders are empty", batch.name),
                     "the manifest lists what goes; a packaging that is used again is no waste"};
    }
    std::vector<ConsignmentLine> lines;
    lines.reserve(sums.size());
    for (const auto& [key, sum] : sums) {
        lines.push_back({sum.code, key.first, key.second, countOfCylinders(sum.count), inKilograms(sum.net),
                         inKilograms(sum.gross), sum.serials});
    }
    return lines;
}

void takeRows(const RuleTable& table, ConsignmentSheet& sheet) {
    for (const RuleRow& row : table.rows) {
        const std::string& part = row.cell("part");
        if (part == "waste") {
            sheet.waste.push_back({row.cell("label"), withFirmness(row)});
        } else if (part == "blank") {
            sheet.blanks.push_back({row.cell("label"), withFirmness(row)});
        } else if (part == "code") {
            sheet.waste.push_back({"Code " + row.cell("label"), withFirmness(row)});
        } else {
            sheet.records.push_back(fmt::format("{}: {}", row.cell("label"), withFirmness(row)));
        }
    }
}

} // namespace

Result<ConsignmentSheet> consignmentSheetOf(Shop& shop, const std::string& name) {
    const RuleTable* table = shop.rulebook().table("consignment");
    if (table == nullptr) {
        return Error{
            fmt::format("no consignment data sheet by the rulebook {}", shop.settings().rulebook),
            "it belongs to the law of waste of Europe and Great Britain; the manifest lists what goes"};
    }
    const auto found = batch(shop, name);
    if (!found) {
        return found.error();
    }
    const Batch& its = found.value();
    auto lines = linesOf(shop, *table, its);
    if (!lines) {
        return lines.error();
    }
    if (const auto allowed = mayTravel(shop, its); !allowed) {
        return allowed.error();
    }
    ConsignmentSheet sheet;
    sheet.heading = headingOf(shop, its, "Consignment data sheet", kSheet);
    sheet.lines = std::move(lines).value();
    sheet.totals = {countOfCylinders(its.lines.size()), "gross " + inKilograms(its.gross().milligrams()),
                    "net " + inKilograms(its.net().milligrams())};
    takeRows(*table, sheet);
    if (its.shipped) {
        sheet.late =
            fmt::format("The batch left on {}: a paper of this kind is made before that, and goes with it.",
                        shop.zone().dateOf(*its.shipped).text());
    }
    sheet.cautions = {"This is no form of an authority: copy what the form of the place asks for, and let "
                      "who classifies the waste answer for it. "
                      "Local rules and licensed practice decide.",
                      "Liquefied gas under pressure. Keep upright, secured, ventilated, valve closed and "
                      "capped, away from heat. Eye protection and gloves: "
                      "escaping liquid freezes skin and eyes; vapour displaces air."};
    return sheet;
}

std::vector<std::vector<std::string>> rowsOf(const ConsignmentSheet& sheet) {
    std::vector<std::vector<std::string>> rows = {
        {"Code", "Packages", "Description", "Components by mass", "Net", "Gross", "Cylinders"}};
    rows.reserve(sheet.lines.size() + 1);
    for (const ConsignmentLine& line : sheet.lines) {
        rows.push_back({line.code.empty() ? "________" : line.code, line.packages, line.description,
                        line.components, line.net, line.gross, line.serials});
    }
    return rows;
}

std::string consignmentText(const ConsignmentSheet& sheet) {
    std::string text = fmt::format("{}\n{}\n\nConsignor  {}\nConsignee  {}\n\n", sheet.heading.title,
                                   issueLine(sheet.heading), fromLine(sheet.heading), toLine(sheet.heading));
    if (!sheet.late.empty()) {
        text += sheet.late + "\n\n";
    }
    text += fieldsText(sheet.waste) + "\n" + columnsText(rowsOf(sheet));
    text += fmt::format("{}\n\nTo be filled in by hand:\n", fmt::join(sheet.totals, ", "));
    for (const PaperField& blank : sheet.blanks) {
        text += fmt::format("{} ______________________\n    {}\n", blank.label, blank.value);
    }
    text += "\nConsignor, signed ______________________  Date ____________\n"
            "Carrier, signed   ______________________  Date ____________\n"
            "Consignee, signed ______________________  Date ____________\n\n";
    for (const auto* lines : {&sheet.records, &sheet.cautions}) {
        for (const std::string& line : *lines) {
            text += line + "\n";
        }
    }
    return text + fmt::format("\nBooks at {}\n", sheet.heading.head);
}

nlohmann::json jsonOf(const ConsignmentSheet& sheet) {
    nlohmann::json lines = nlohmann::json::array();
    for (const ConsignmentLine& line : sheet.lines) {
        lines.push_back({{"code", line.code},
                         {"packages", line.packages},
                         {"description", line.description},
                         {"components", line.components},
                         {"net", line.net},
                         {"gross", line.gross},
                         {"serials", line.serials}});
    }
    nlohmann::json object = jsonOf(sheet.heading, "consignor", "consignee");
    object.update({{"lines", lines},
                   {"totals", sheet.totals},
                   {"records", sheet.records},
                   {"late", sheet.late},
                   {"cautions", sheet.cautions}});
    for (const auto& [name, fields] :
         {std::pair{"waste", &sheet.waste}, std::pair{"by_hand", &sheet.blanks}}) {
        nlohmann::json list = nlohmann::json::array();
        for (const PaperField& field : *fields) {
            list.push_back({{"label", field.label}, {"text", field.value}});
        }
        object[name] = std::move(list);
    }
    return object;
}

Recorded issueConsignmentSheet(Shop& shop, const ConsignmentSheet& sheet) {
    return issuePaper(shop, sheet.heading, kSheet);
}

} // namespace tarebook
