#include "core/papers/slip.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/card.h"
#include "core/shop/register.h"
#include "core/shop/van.h"

namespace tarebook {

namespace {

constexpr std::string_view kSlipPaper = "check-out slip"; // among the papers that the books know of

/// What the hand-out says that it is for.
struct Errand {
    std::string purpose; // recover, charge, carry; empty where it was handed over on the way
    std::string system;
    std::string refrigerant;
    std::optional<Mass> stop; // to charge: the gross at which its part has gone out
};

Errand errandOf(Shop& shop, const Card& its) {
    Errand errand;
    if (its.custody.empty()) {
        return errand;
    }
    const auto entry = shop.store().entry(its.custody.front().entry);
    if (entry) {
        const nlohmann::json& body = entry.value().body;
        errand.purpose = body.value("purpose", std::string());
        errand.system = body.value("system", std::string());
        errand.refrigerant = body.value("refrigerant", std::string());
        if (const auto stop = body.find("stop_gross_mg"); stop != body.end()) {
            errand.stop = Mass::fromMilligrams(stop->get<std::int64_t>());
        }
    }
    if (const auto system = systemNamed(shop, errand.system); system && errand.refrigerant.empty()) {
        errand.refrigerant = system->refrigerant;
    }
    return errand;
}

std::string purposeText(const Errand& errand) {
    const bool charge = errand.purpose == "charge";
    if (!charge && errand.purpose != "recover") {
        return errand.purpose.empty() ? "handed over on the way" : "only to carry";
    }
    return fmt::format("to {}{}{}", errand.purpose,
                       errand.refrigerant.empty() ? "" : " " + errand.refrigerant,
                       errand.system.empty() ? "" : (charge ? " into " : " from ") + errand.system);
}

std::string insideText(const Display& display, const CylinderState& state) {
    if (state.content.empty()) {
        return state.evacuated ? "empty, evacuated" : "empty, not evacuated";
    }
    return fmt::format("{} {}", display.mass(state.content.total()), contentName(state.content));
}

/// Nothing goes into it: where it stands, and where it stands when its part has gone out.
void putCharge(const Display& display, const CylinderState& state, const Errand& errand, SlipLine& line) {
    const Mass now = Mass::fromMilligrams(state.plate.tare.milligrams() + state.content.total().milligrams());
    line.charges = true;
    line.grossNow = display.mass(now);
    if (!errand.stop) {
        line.chargedAt = "not said: weigh before and after";
    } else if (*errand.stop >= now) {
        line.chargedAt = display.mass(*errand.stop) + ": its part is out";
    } else {
        line.chargedAt =
            fmt::format("{} ({} out)", display.mass(*errand.stop),
                        display.mass(Mass::fromMilligrams(now.milligrams() - errand.stop->milligrams())));
    }
}

Result<SlipLine> lineOf(Shop& shop, const std::string& serial) {
    const auto found = card(shop, serial);
    if (!found) {
        return found.error();
    }
    const Card& its = found.value();
    const Display display = shop.display();
    const Errand errand = errandOf(shop, its);
    SlipLine line;
    line.serial = serial;
    auto code = machineCode(Symbology::qr, serial);
    if (!code) {
        return code.error();
    }
    line.qr = std::move(code).value();
    if (auto bars = machineCode(Symbology::code128, serial)) {
        line.bars = std::move(bars).value();
    } else {
        line.noBars = bars.error().text();
    }
    line.purpose = purposeText(errand);
    line.job = its.state.job;
    line.contents = insideText(display, its.state);
    line.tare = display.mass(its.state.plate.tare);
    line.due = its.due;
    if (errand.purpose == "charge") {
        putCharge(display, its.state, errand, line);
    } else {
        StopWeight stop = stopWeightOf(shop, its.state, errand.refrigerant);
        line.stopAt = stop.gross;
        line.room = stop.room;
        line.watch = std::move(stop.watch);
    }
    for (const Finding& finding : its.findings) {
        if (finding.severity >= Severity::caution) {
            line.watch.push_back(finding.headline);
        }
    }
    if (!its.state.content.empty()) {
        line.watch.push_back(
            fmt::format("Holds {}: nothing else on top of it.", contentName(its.state.content)));
    } else if (!its.state.evacuated) {
        line.watch.emplace_back("Not evacuated: what was in it last mixes with what goes in.");
    }
    return line;
}

} // namespace

Result<CheckOutSlip> slipOf(Shop& shop, const std::string& person) {
    CheckOutSlip slip;
    const auto all = people(shop);
    const auto its = std::find_if(all.begin(), all.end(), [&](const Person& one) {
        return lowered(one.name) == lowered(trimmed(person));
    });
    if (its == all.end()) {
        return Error{fmt::format("there is no person {}", tarebook::quoted(person)),
                     "a name from the list of people"};
    }
    slip.title = "Check-out slip";
    slip.person = its->name;
    slip.certificate = its->certificate;
    slip.day = shop.zone().localText(shop.now());
    slip.firm = firmLine(shop.settings().name, shop.settings().address);
    const auto rows = shop.store().fleet({its->name, {}, 0, 0});
    if (!rows) {
        return rows.error();
    }
    for (const FleetRow& row : rows.value()) {
        if (row.holder != its->name) {
            continue;
        }
        auto line = lineOf(shop, row.serial);
        if (!line) {
            return line.error();
        }
        const std::string& job = line.value().job;
        if (!job.empty() && std::find(slip.jobs.begin(), slip.jobs.end(), job) == slip.jobs.end()) {
            slip.jobs.push_back(job);
        }
        slip.lines.push_back(std::move(line).value());
    }
    if (slip.lines.empty()) {
        return Error{fmt::format("nothing is out with {}", its->name), "check cylinders out first"};
    }
    slip.cautions = {
        "Eye protection and gloves. Weigh while filling and stop at the stop weight. One refrigerant a "
        "cylinder, "
        "nothing on top of another. Flammable refrigerants only with cylinder and machine rated for them.",
        "Cylinders upright, secured, valves closed and capped, never above 125 °F (52 °C). Local codes and "
        "licensed practice decide."};
    // A rulebook without rules for small loads leaves it blank.
    const auto van = vanLoad(shop, slip.person);
    if (const auto total = van ? totalOf(van.value()) : std::nullopt) {
        slip.van = total->headline;
        slip.vanWorking = total->working;
    }
    slip.issue.number = issuesBefore(shop, kSlipPaper, "person:" + slip.person) + 1;
    slip.head = shownHead(shop);
    return slip;
}

std::vector<PaperField> fieldsOf(const SlipLine& line) {
    if (line.charges) {
        return {{"For", line.purpose},        {"Job", line.job},
                {"Inside", line.contents},    {"Tare", line.tare},
                {"Gross now", line.grossNow}, {"Charged at gross", line.chargedAt},
                {"Retest due", line.due}};
    }
    return {
        {"For", line.purpose},          {"Job", line.job},   {"Inside", line.contents}, {"Tare", line.tare},
        {"Stop at gross", line.stopAt}, {"Room", line.room}, {"Retest due", line.due}};
}

std::string issueLine(const CheckOutSlip& slip) {
    return fmt::format("{}, {}, books at {}", slip.issue.text(), slip.day, slip.head);
}

Recorded issueSlip(Shop& shop, const CheckOutSlip& slip) {
    return issuePapers(shop, kSlipPaper, {"person:" + slip.person});
}

std::string slipText(const CheckOutSlip& slip) {
    std::string text = slip.title + "\n" +
                       fieldsText({{"Technician", slip.person},
                                   {"Certificate", slip.certificate},
                                   {"Day", slip.day},
                                   {"Jobs", fmt::format("{}", fmt::join(slip.jobs, ", "))},
                                   {"Firm", slip.firm},
                                   {"Van", slip.van}});
    for (const std::string& line : slip.vanWorking) {
        text += fmt::format("  {}\n", line);
    }
    for (const SlipLine& line : slip.lines) {
        text += fmt::format("\n{}\n{}", line.serial, fieldsText(fieldsOf(line), "  "));
        for (const std::string& watch : line.watch) {
            text += fmt::format("  ! {}\n", watch);
        }
    }
    text += "\n";
    for (const std::string& caution : slip.cautions) {
        text += caution + "\n";
    }
    return text + fmt::format("\nSlip of {}, {}\n"
                              "Taken ______________________  Given ______________________\n",
                              slip.person, issueLine(slip));
}

nlohmann::json jsonOf(const CheckOutSlip& slip) {
    nlohmann::json lines = nlohmann::json::array();
    for (const SlipLine& line : slip.lines) {
        lines.push_back({{"serial", line.serial},
                         {"purpose", line.purpose},
                         {"job", line.job},
                         {"contents", line.contents},
                         {"tare", line.tare},
                         {"stop_at", line.stopAt},
                         {"room", line.room},
                         {"gross_now", line.grossNow},
                         {"charged_at", line.chargedAt},
                         {"due", line.due},
                         {"watch", line.watch},
                         {"qr", line.serial},
                         {"code_128", line.bars ? nlohmann::json(line.serial) : nlohmann::json()},
                         {"no_code_128", line.noBars}});
    }
    return {{"title", slip.title},
            {"person", slip.person},
            {"certificate", slip.certificate},
            {"day", slip.day},
            {"jobs", slip.jobs},
            {"firm", slip.firm},
            {"van", slip.van},
            {"van_working", slip.vanWorking},
            {"cylinders", lines},
            {"cautions", slip.cautions},
            {"issue", slip.issue.draft ? nlohmann::json() : nlohmann::json(slip.issue.number)},
            {"draft", slip.issue.draft},
            {"head", slip.head}};
}

} // namespace tarebook
