#include "core/papers/tag.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/shop/findings.h"
#include "core/shop/shipping.h"

namespace tarebook {

namespace {

constexpr std::string_view kTagPaper = "cylinder tag"; // among the papers that the books know of

std::string contentsWord(const Shop& shop, const Holding& content) {
    if (content.empty()) {
        return "EMPTY";
    }
    if (content.byRefrigerant().contains("unknown")) {
        return "UNKNOWN";
    }
    return isMixed(shop, content) ? "MIXED" : contentName(content);
}

/// What is inside and how it may be used, in the words that a reclaimer sorts by.
std::string conditionOf(const CylinderState& state, const std::string& contents, bool burns) {
    std::vector<std::string> words;
    if (state.content.empty()) {
        words.emplace_back(state.evacuated ? "empty, evacuated" : "empty, not evacuated");
    }
    for (const auto& [gas, milligrams] : state.content.parts()) {
        const std::string word = gasStateWord(gas.state);
        if (std::find(words.begin(), words.end(), word) == words.end()) {
            words.push_back(word);
        }
    }
    if (contents == "MIXED") {
        words.emplace_back("mixed");
    } else if (contents == "UNKNOWN") {
        words.emplace_back("unknown");
    }
    if (state.plate.burnOut) {
        words.emplace_back("burn-out");
    }
    if (burns) {
        words.emplace_back("flammable");
    }
    if (state.condition != Condition::serviceable) {
        words.push_back(std::string(conditionWord(state.condition)) +
                        (state.conditionNote.empty() ? "" : " (" + state.conditionNote + ")"));
    }
    return fmt::format("{}", fmt::join(words, ", "));
}

struct Filling {
    std::string technician;
    std::string job;
};

/// Who brought what is inside and for which job: as the entry says, or who had the cylinder then.
Filling fillingOf(Shop& shop, const Card& its) {
    Filling filling;
    if (its.state.lastFillEntry > 0) {
        if (const auto entry = shop.store().entry(its.state.lastFillEntry)) {
            filling.technician = entry.value().body.value("person", std::string());
            filling.job = entry.value().body.value("job", std::string());
        }
    }
    for (const Custody& custody : its.custody) {
        const bool had = its.state.lastFilled && custody.from <= *its.state.lastFilled &&
                         (!custody.until || *custody.until >= *its.state.lastFilled);
        if (had || (!its.state.lastFilled && !custody.until)) {
            filling.technician = filling.technician.empty() ? custody.person : filling.technician;
            filling.job = filling.job.empty() ? custody.job : filling.job;
        }
    }
    return filling;
}

/// Where filling stops. Of an empty cylinder that is meant for no one refrigerant the slip knows it.
void addStopWeight(const Shop& shop, const Card& its, CylinderTag& tag) {
    const CylinderState& state = its.state;
    const StopWeight stop = stopWeightOf(shop, state);
    if (!stop.gross.empty()) {
        tag.stopAt = stop.gross;
    } else if (state.content.empty()) {
        tag.stopAt = "see slip";
    } else {
        tag.stopAt = "not known";
        tag.warnings.insert(tag.warnings.end(), stop.watch.begin(), stop.watch.end());
    }
}

/// What the tag leaves to the pen says so.
PaperField leftToPen(const std::string& label, const std::string& value) {
    return {value.empty() ? label + " (write in)" : label, value};
}

void addWarnings(const Shop& shop, const Card& its, CylinderTag& tag) {
    for (const Finding& finding : its.findings) {
        if (finding.severity == Severity::danger) {
            tag.warnings.push_back(finding.headline);
        }
    }
    if (!its.state.content.empty() && !transportOf(shop, its.state, shop.today()).reason.empty()) {
        tag.warnings.emplace_back("May not be offered for transport as it stands.");
    }
}

} // namespace

Result<CylinderTag> tagOf(Shop& shop, const std::string& serial) {
    const auto found = card(shop, serial);
    if (!found) {
        return found.error();
    }
    const Card& its = found.value();
    const CylinderState& state = its.state;
    const Display display = shop.display();
    CylinderTag tag;
    tag.serial = state.plate.serial;
    auto code = machineCode(Symbology::qr, tag.serial);
    if (!code) {
        return code.error();
    }
    tag.qr = std::move(code).value();
    if (auto bars = machineCode(Symbology::code128, tag.serial)) {
        tag.bars = std::move(bars).value();
    } else {
        tag.noBars = bars.error().text();
    }
    tag.contents = contentsWord(shop, state.content);
    tag.composition = compositionLine(state.content);
    const Mass net = state.content.total();
    tag.tare = display.mass(state.plate.tare);
    tag.net = display.mass(net);
    tag.gross = display.mass(Mass::fromMilligrams(state.plate.tare.milligrams() + net.milligrams()));
    tag.filled = state.lastFilled.has_value();
    tag.date = shop.zone().dateOf(state.lastFilled.value_or(shop.now())).text();
    const Filling filling = fillingOf(shop, its);
    tag.technician = filling.technician;
    tag.job = filling.job;
    tag.firm = firmLine(shop.settings().name, shop.settings().address);
    tag.gasOf = ownersLine(state.content);
    tag.cylinderOf = state.plate.owner.kind == OwnerKind::own ? "" : state.plate.owner.text();
    tag.due = its.due;
    const Shipping shipping = state.content.empty() ? Shipping() : shippingOf(shop, state);
    tag.shipping = shipping.problem.empty()    ? shipping.text
                   : tag.contents == "UNKNOWN" ? "none: contents not known"
                                               : "none: " + shipping.problem;
    const bool burns = shipping.division == "2.1";
    tag.condition = conditionOf(state, tag.contents, burns);
    addStopWeight(shop, its, tag);
    addWarnings(shop, its, tag);
    tag.cautions = {
        "Liquefied gas under pressure. Eye protection and gloves. Keep upright, secured, valve closed "
        "and capped.",
        "Never above 125 °F (52 °C). Never fill past the stop weight, never on top of another "
        "refrigerant. Local codes and licensed practice decide."};
    if (burns) {
        tag.cautions.insert(tag.cautions.begin(),
                            "FLAMMABLE GAS: no flame or spark; only cylinders and machines rated for it.");
    }
    tag.issue.number = issuesBefore(shop, kTagPaper, Account::cylinder(tag.serial).text()) + 1;
    tag.issued = shop.zone().localText(shop.now());
    tag.head = shownHead(shop);
    return tag;
}

std::vector<PaperField> weightsOf(const CylinderTag& tag) {
    return {{"Tare", tag.tare}, {"Gross", tag.gross}, {"Net", tag.net}, {"Stop at gross", tag.stopAt}};
}

std::vector<PaperField> factsOf(const CylinderTag& tag) {
    return {{tag.filled ? "Last filled" : "Date of tag", tag.date},
            {"Retest due", tag.due},
            leftToPen("Technician", tag.technician),
            leftToPen("Job", tag.job),
            {"Gas of", tag.gasOf},
            {"Cylinder of", tag.cylinderOf},
            {"Condition", tag.condition},
            {"Shipping", tag.shipping},
            {"Firm", tag.firm}};
}

std::string issueLine(const CylinderTag& tag) {
    return fmt::format("{}, {}, books at {}", tag.issue.text(), tag.issued, tag.head);
}

Recorded issueTags(Shop& shop, const std::vector<CylinderTag>& tags) {
    std::vector<std::string> subjects;
    subjects.reserve(tags.size());
    for (const CylinderTag& tag : tags) {
        subjects.push_back(Account::cylinder(tag.serial).text());
    }
    return issuePapers(shop, kTagPaper, subjects);
}

std::string tagText(const CylinderTag& tag, std::size_t number, std::size_t all) {
    std::vector<PaperField> fields = {
        {"Cylinder", tag.serial}, {"Contents", tag.contents}, {"By mass", tag.composition}};
    for (const auto& more : {weightsOf(tag), factsOf(tag)}) {
        fields.insert(fields.end(), more.begin(), more.end());
    }
    std::string text = fieldsText(fields);
    for (const std::string& warning : tag.warnings) {
        text += fmt::format("! {}\n", warning);
    }
    for (const std::string& caution : tag.cautions) {
        text += caution + "\n";
    }
    return text + fmt::format("Tag {} of {}, {}\n", number, all, issueLine(tag));
}

nlohmann::json jsonOf(const CylinderTag& tag) {
    return {{"serial", tag.serial},
            {"contents", tag.contents},
            {"composition", tag.composition},
            {"tare", tag.tare},
            {"gross", tag.gross},
            {"net", tag.net},
            {"stop_at", tag.stopAt},
            {"date", tag.date},
            {"date_of", tag.filled ? "filling" : "issue"},
            {"technician", tag.technician},
            {"firm", tag.firm},
            {"job", tag.job},
            {"gas_of", tag.gasOf},
            {"cylinder_of", tag.cylinderOf},
            {"condition", tag.condition},
            {"due", tag.due},
            {"shipping", tag.shipping},
            {"warnings", tag.warnings},
            {"cautions", tag.cautions},
            {"qr", tag.serial},
            {"code_128", tag.bars ? nlohmann::json(tag.serial) : nlohmann::json()},
            {"no_code_128", tag.noBars},
            {"issue", tag.issue.draft ? nlohmann::json() : nlohmann::json(tag.issue.number)},
            {"draft", tag.issue.draft},
            {"issued", tag.issued},
            {"head", tag.head}};
}

} // namespace tarebook
