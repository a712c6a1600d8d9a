#include "core/shop/machines.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/base/text.h"
#include "core/rules/appliance_pressure.h"
#include "core/rules/duties.h"
#include "core/rules/gas_kinds.h"
#include "core/rules/recovery_machine.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/release_duties.h"

namespace tarebook {

namespace {

constexpr const char* kSmall = "small";

Machine machineOf(const Record& record) {
    const auto text = [&](const char* key) {
        const auto place = record.body.find(key);
        return place != record.body.end() && place->is_string() ? place->get<std::string>() : std::string();
    };
    Machine machine;
    machine.name = record.key;
    machine.makerSerial = text("maker_serial");
    if (const auto made = Date::parse(text("made"))) {
        machine.made = made.value();
    }
    if (const auto rated = record.body.find("flammable_rated");
        rated != record.body.end() && rated->is_boolean()) {
        machine.flammableRated = rated->get<bool>();
    }
    machine.certification = text("certification");
    if (const auto list = record.body.find("certified_for"); list != record.body.end() && list->is_array()) {
        for (const auto& word : *list) {
            machine.certifiedFor.push_back(word.is_string() ? word.get<std::string>() : word.dump());
        }
    }
    const auto active = record.body.find("active");
    machine.active = active == record.body.end() || !active->is_boolean() || active->get<bool>();
    return machine;
}

Contents contentsOf(const Shop& shop, const std::string& refrigerant) {
    const auto contents = shop.catalogue().contents(refrigerant);
    return contents ? contents.value() : Contents{};
}

/// The pressure class of the appliance, or `small`; with its working.
Result<AppliancePressure> applianceOf(const Shop& shop, const Rulebook& book, const Recovery& recovery) {
    if (recovery.smallAppliance) {
        return AppliancePressure{kSmall, {}, {}};
    }
    return appliancePressure(book, shop.catalogue(), contentsOf(shop, recovery.refrigerant));
}

/// What the rulebook asks of the machine for such a gas; nullptr where it asks nothing.
const RuleRow* machineDuty(const Shop& shop, const Rulebook& book, const Recovery& recovery) {
    const Contents contents = contentsOf(shop, recovery.refrigerant);
    return contents.empty() ? nullptr : dutyRow(book, "machine", gasKinds(shop.catalogue(), contents));
}

std::optional<Finding> certifiedFinding(const Shop& shop, const Rulebook& book, const Machine& machine,
                                        const Recovery& recovery) {
    const RuleRow* row = machineDuty(shop, book, recovery);
    if (machine.certifiedFor.empty() || row == nullptr) {
        return {};
    }
    const auto appliance = applianceOf(shop, book, recovery);
    if (!appliance || std::find(machine.certifiedFor.begin(), machine.certifiedFor.end(),
                                appliance.value().name) != machine.certifiedFor.end()) {
        return {};
    }
    Finding finding = planFinding(
        "machine:" + machine.name, "machine.certified", Severity::refusal,
        fmt::format("Machine {} is not certified for such an appliance: it is {}, the certificate says {}.",
                    machine.name, appliance.value().name, fmt::join(machine.certifiedFor, ", ")),
        "Take a machine that is certified for it.");
    finding.working = appliance.value().working;
    citeRow(book, *row, finding);
    return finding;
}

} // namespace

const std::vector<std::string>& applianceWords() {
    static const std::vector<std::string> kWords{"low", "medium", "high", "very-high", kSmall};
    return kWords;
}

Result<std::vector<std::string>> readAppliances(const std::string& text) {
    std::string plain = lowered(text);
    std::replace(plain.begin(), plain.end(), ',', ' ');
    std::vector<std::string> words;
    std::size_t from = 0;
    while ((from = plain.find_first_not_of(' ', from)) != std::string::npos) {
        const std::size_t end = std::min(plain.find(' ', from), plain.size());
        std::string word = plain.substr(from, end - from);
        from = end;
        if (std::find(applianceWords().begin(), applianceWords().end(), word) == applianceWords().end()) {
            return Error{fmt::format("{} is no kind of appliance", tarebook::quoted(word)),
                         fmt::format("any of {}, parted by commas", fmt::join(applianceWords(), ", "))};
        }
        if (std::find(words.begin(), words.end(), word) == words.end()) {
            words.push_back(std::move(word));
        }
    }
    return words;
}

Draft draftOf(const Shop& shop, const Machine& machine) {
    nlohmann::json body{{"machine", tidied(machine.name)},
                        {"maker_serial", tidied(machine.makerSerial)},
                        {"made", machine.made ? machine.made->text() : std::string()},
                        {"certification", tidied(machine.certification)},
                        {"certified_for", machine.certifiedFor},
                        {"active", machine.active}};
    // A merge keeps what is not named and drops what is null: nothing on record is said so.
    body["flammable_rated"] =
        machine.flammableRated ? nlohmann::json(*machine.flammableRated) : nlohmann::json();
    if (machine.cleared) {
        body["cleared"] = true;
    }
    return shop.draft(EntryKind::machineSet, body);
}

std::vector<Machine> machines(Shop& shop) {
    std::vector<Machine> machines;
    if (const auto records = shop.store().records("machine")) {
        for (const Record& record : records.value()) {
            machines.push_back(machineOf(record));
        }
    }
    return machines;
}

Result<Machine> machineNamed(Shop& shop, const std::string& name) {
    const auto record = shop.store().record("machine", name);
    if (!record) {
        return record.error();
    }
    if (record.value()) {
        return machineOf(*record.value());
    }
    std::vector<std::string> known;
    for (const Machine& machine : machines(shop)) {
        known.push_back(machine.name);
    }
    return Error{fmt::format("there is no recovery machine {}", tarebook::quoted(name)),
                 "enter the machine first" + nearestName(name, known)};
}

Result<std::string> lastThrough(Shop& shop, const std::string& name, Instant until) {
    const auto entries = shop.store().entriesAbout("machine:" + name);
    if (!entries) {
        return entries.error();
    }
    for (auto entry = entries.value().rbegin(); entry != entries.value().rend(); ++entry) {
        if (entry->occurred > until || shop.store().reversedBy(entry->seq)) {
            continue;
        }
        if (entry->kind == EntryKind::recovered) {
            return entry->body.value("refrigerant", std::string());
        }
        if (entry->kind == EntryKind::machineSet && entry->body.value("cleared", false)) {
            return std::string();
        }
    }
    return std::string();
}

std::vector<Finding> machineFindings(Shop& shop, const Recovery& recovery, Instant at) {
    if (recovery.machine.empty()) {
        return {};
    }
    const std::string subject = "machine:" + recovery.machine;
    const auto found = machineNamed(shop, recovery.machine);
    if (!found) {
        return {planFinding(subject, "plan.machine", Severity::refusal,
                            fmt::format("Recovery machine {} is not in the register.", recovery.machine),
                            found.error().right)};
    }
    const Machine& machine = found.value();
    std::vector<Finding> findings;
    if (!machine.active) {
        findings.push_back(planFinding(subject, "plan.machine", Severity::refusal,
                                       fmt::format("Recovery machine {} is out of use.", machine.name),
                                       "Take another machine."));
    }
    const Rulebook& book = shop.rulebookOn(shop.zone().dateOf(at));
    const RuleRow* duty = machineDuty(shop, book, recovery);
    const auto last = lastThrough(shop, machine.name, at);
    const IncomingGas gas{recovery.refrigerant, contentsOf(shop, recovery.refrigerant)};
    for (Finding& finding :
         throughMachine(shop.limitSourceOn(shop.zone().dateOf(at)).contentsRules(), shop.catalogue(),
                        {machine.name, machine.flammableRated, last ? last.value() : std::string()}, gas)) {
        if (duty != nullptr && finding.rule == "machine.flammable") {
            citeRow(book, *duty, finding); // law, where the rulebook has it
        }
        findings.push_back(std::move(finding));
    }
    if (auto uncertified = certifiedFinding(shop, book, machine, recovery)) {
        findings.push_back(std::move(*uncertified));
    }
    return findings;
}

std::optional<Finding> evacuationFinding(Shop& shop, const Recovery& asked, Date on) {
    const Rulebook& book = shop.rulebookOn(on);
    Recovery recovery = asked;
    const auto system = systemNamed(shop, recovery.system);
    if (system && !system->refrigerant.empty()) {
        recovery.refrigerant = system->refrigerant; // what came out may not be known, what it is made for is
    }
    const Contents contents = contentsOf(shop, recovery.refrigerant);
    if (!system || contents.empty() || book.table("evacuation") == nullptr ||
        dutyRow(book, "venting", gasKinds(shop.catalogue(), contents)) == nullptr) {
        return {};
    }
    const auto untold = [&](const Error& error) {
        return planFinding("system:" + system->key(), "release.evacuation",
                           recovery.reached ? Severity::caution : Severity::note,
                           fmt::format("How far to evacuate cannot be told: {}.", error.wrong), error.right);
    };
    const auto appliance = applianceOf(shop, book, recovery);
    if (!appliance) {
        return untold(appliance.error());
    }
    if (!system->nominalCharge) {
        return untold(
            {"the full charge of " + system->key() + " is not on file", "Enter it with the system."});
    }
    EvacuationAsk ask{appliance.value().name, *system->nominalCharge, {}, recovery.work, recovery.reached};
    if (const auto machine = machineNamed(shop, recovery.machine); !recovery.machine.empty() && machine) {
        ask.machineMade = machine.value().made;
    }
    auto found = evacuation(book, ask);
    if (!found) {
        return untold(found.error());
    }
    Finding finding = std::move(found).value();
    finding.subject = "system:" + system->key();
    finding.working.insert(finding.working.begin(), appliance.value().working.begin(),
                           appliance.value().working.end());
    return finding;
}

std::optional<Finding> levelToReach(Shop& shop, const CheckOut& plan) {
    if (plan.purpose != Purpose::recover) {
        return {};
    }
    return evacuationFinding(shop, {plan.system, plan.refrigerant, plan.machine},
                             plan.occurred ? shop.zone().dateOf(*plan.occurred) : shop.today());
}

} // namespace tarebook
