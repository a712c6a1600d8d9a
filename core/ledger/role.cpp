#include "core/ledger/role.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::array<std::pair<Role, std::string_view>, kRoles.size()> kWords = {
    {{Role::manager, "manager"},
     {Role::storekeeper, "storekeeper"},
     {Role::technician, "technician"},
     {Role::auditor, "auditor"}}};

/// A manager may all, an auditor nothing.
struct Row {
    EntryKind kind;
    Leave storekeeper;
    Leave technician;
};
constexpr Leave kNone = Leave::none;
constexpr Leave kOwn = Leave::own;
constexpr Leave kAll = Leave::all;
constexpr std::array kTable = {
    Row{EntryKind::cylinderRegistered, kAll, kNone},
    Row{EntryKind::marksRestated, kAll, kNone},
    Row{EntryKind::inspected, kAll, kNone},
    Row{EntryKind::retested, kAll, kNone},
    Row{EntryKind::condemned, kAll, kNone}, // what is found unfit is said at once
    Row{EntryKind::retired, kNone, kNone},  // what the shop owns leaves it
    Row{EntryKind::handedOut, kAll, kOwn},
    Row{EntryKind::handedOver, kAll, kOwn},
    Row{EntryKind::returned, kAll, kOwn},
    Row{EntryKind::locationChanged, kAll, kOwn},
    Row{EntryKind::weighed, kAll, kOwn},
    Row{EntryKind::opened, kAll, kNone},
    Row{EntryKind::bought, kAll, kNone},
    Row{EntryKind::recovered, kAll, kOwn},
    Row{EntryKind::charged, kAll, kOwn},
    Row{EntryKind::decanted, kAll, kOwn},
    Row{EntryKind::released, kAll, kOwn},
    Row{EntryKind::evacuated, kAll, kNone},
    Row{EntryKind::sampleAnalysed, kAll, kNone},
    Row{EntryKind::batchPrepared, kAll, kNone},
    Row{EntryKind::batchShipped, kAll, kNone},
    Row{EntryKind::batchReceived, kAll, kNone},
    Row{EntryKind::batchSettled, kAll, kNone},
    Row{EntryKind::entryReversed, kAll, kOwn},
    Row{EntryKind::personSet, kAll, kNone},
    Row{EntryKind::siteSet, kAll, kNone},
    Row{EntryKind::systemSet, kAll, kNone},
    Row{EntryKind::partySet, kAll, kNone},
    Row{EntryKind::machineSet, kAll, kNone},
    Row{EntryKind::jobSet, kAll, kOwn},
    Row{EntryKind::settingSet, kNone, kNone},
    Row{EntryKind::findingOverruled, kNone, kNone},
    Row{EntryKind::paperIssued, kAll, kNone},
    Row{EntryKind::attached, kAll, kOwn},
    Row{EntryKind::operatorSet, kOwn, kOwn}, // own: a new passphrase for oneself
};

} // namespace

std::string_view roleWord(Role role) {
    const auto* const found =
        std::find_if(kWords.begin(), kWords.end(), [&](const auto& pair) { return pair.first == role; });
    return found->second;
}

Result<Role> roleFrom(std::string_view word) {
    const std::string wanted = lowered(trimmed(word));
    for (const auto& [role, itsWord] : kWords) {
        if (itsWord == wanted) {
            return role;
        }
    }
    return Error{fmt::format("{} is no role", tarebook::quoted(word)),
                 "one of manager, storekeeper, technician, auditor"};
}

Leave leaveOf(Role role, EntryKind kind) {
    const auto* const row =
        std::find_if(kTable.begin(), kTable.end(), [&](const Row& one) { return one.kind == kind; });
    if (role == Role::manager) {
        return kAll;
    }
    if (role == Role::auditor || row == kTable.end()) {
        return kNone;
    }
    return role == Role::storekeeper ? row->storekeeper : row->technician;
}

std::string whoMay(EntryKind kind) {
    std::string who;
    for (const Role role : kRoles) {
        const Leave leave = leaveOf(role, kind);
        if (leave != kNone) {
            who += fmt::format("{}a {}{}", who.empty() ? "" : ", ", roleWord(role),
                               leave == kOwn ? " (what is their own)" : "");
        }
    }
    return who + " may";
}

} // namespace tarebook
