#include "core/shop/batch_parents.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/ledger/provenance_before.h"

namespace tarebook {

namespace {

std::string wordIn(const nlohmann::json& body, const char* key) {
    const auto place = body.find(key);
    return place != body.end() && place->is_string() ? place->get<std::string>() : std::string();
}

std::optional<Moment> shippedMoment(Shop& shop, const Batch& batch) {
    for (const Sequence seq : batch.entries) {
        const auto entry = shop.store().entry(seq);
        if (entry && entry.value().kind == EntryKind::batchShipped) {
            return Moment{entry.value().occurred, seq};
        }
    }
    return std::nullopt;
}

std::string fieldOfRecord(Shop& shop, const char* kind, const std::string& key, const char* field) {
    const auto record = key.empty() ? Result<std::optional<Record>>(Error{}) : shop.store().record(kind, key);
    return record && record.value() ? wordIn(record.value()->body, field) : std::string();
}

ParentCharge chargeOf(Shop& shop, const BackwardPart& part, const std::string& most) {
    ParentCharge charge;
    charge.entry = part.lot.entry;
    charge.occurred = part.lot.occurred;
    charge.source = part.lot.source;
    charge.gas = part.gas;
    charge.mass = part.mass;
    charge.foreign = part.gas.refrigerant != most;
    if (const auto entry = shop.store().entry(part.lot.entry)) {
        charge.job = wordIn(entry.value().body, "job");
        charge.person = wordIn(entry.value().body, "person");
        charge.machine = wordIn(entry.value().body, "machine");
    }
    if (charge.person.empty()) {
        charge.person = fieldOfRecord(shop, "job", charge.job, "person");
    }
    if (charge.source.kind == AccountKind::system) {
        const std::string site = charge.source.name.substr(0, charge.source.name.find('/'));
        charge.customer = fieldOfRecord(shop, "site", site, "customer");
    }
    return charge;
}

/// The refrigerant of which there is most.
std::string mainRefrigerant(const BackwardTrace& trace) {
    std::map<std::string, std::int64_t> sums;
    for (const BackwardPart& part : trace.parts) {
        sums[part.gas.refrigerant] += part.mass.milligrams();
    }
    const auto most = std::max_element(sums.begin(), sums.end(), [](const auto& one, const auto& other) {
        return one.second < other.second;
    });
    return most == sums.end() ? std::string() : most->first;
}

std::string whereIs(Shop& shop, const Account& account) {
    if (account.kind != AccountKind::cylinder) {
        return {};
    }
    const auto state = shop.store().cylinder(account.name);
    if (!state || !state.value()) {
        return {};
    }
    return state.value()->holder.empty() ? state.value()->place : "with " + state.value()->holder;
}

void addKin(Shop& shop, LegReader& reader, const BackwardTrace& trace, BatchParents& its) {
    std::map<Account, std::int64_t> sums;
    std::set<std::pair<Sequence, int>> seen;
    for (const BackwardPart& part : trace.parts) {
        if (!seen.emplace(part.lot.entry, part.lot.leg).second) {
            continue; // a lot of several gases stands there once a gas
        }
        const auto forward = traceForward(reader, part.lot.entry, part.lot.leg, {});
        for (const ForwardPart& where : forward ? forward.value().parts : std::vector<ForwardPart>()) {
            if (where.account.kind == AccountKind::cylinder || where.account.kind == AccountKind::system) {
                sums[where.account] += where.mass.milligrams();
            }
        }
    }
    for (const auto& [account, milligrams] : sums) {
        its.kin.push_back({account, Mass::fromMilligrams(milligrams), whereIs(shop, account)});
    }
    std::stable_sort(its.kin.begin(), its.kin.end(),
                     [](const ParentKin& one, const ParentKin& other) { return other.mass < one.mass; });
}

void addDecants(Shop& shop, const BackwardTrace& trace, BatchParents& its) {
    for (const Sequence seq : trace.entries) {
        const auto entry = shop.store().entry(seq);
        if (entry && entry.value().kind == EntryKind::decanted) {
            its.decants.push_back({seq,
                                   entry.value().occurred,
                                   entry.value().recorded,
                                   std::string(entryKindWord(entry.value().kind)),
                                   sentenceOf(shop, entry.value()),
                                   entry.value().operatorName,
                                   {}});
        }
    }
    std::stable_sort(
        its.decants.begin(), its.decants.end(),
        [](const HistoryLine& one, const HistoryLine& other) { return one.occurred < other.occurred; });
}

Result<BatchParents> parentsOfLine(Shop& shop, const BatchLine& line, Moment shipped) {
    const auto reader = shop.store().legReader();
    const auto trace = traceBackwardBefore(*reader, Account::cylinder(line.serial), shipped);
    if (!trace) {
        return trace.error();
    }
    BatchParents its;
    its.serial = line.serial;
    its.shipped = trace.value().mass;
    its.analysis = line.analysis;
    its.result = line.receipt ? line.receipt->result : AnalysisResult::notStated;
    const std::string most = mainRefrigerant(trace.value());
    for (const BackwardPart& part : trace.value().parts) {
        its.charges.push_back(chargeOf(shop, part, most));
    }
    std::stable_sort(its.charges.begin(), its.charges.end(),
                     [](const ParentCharge& one, const ParentCharge& other) {
                         return std::tie(other.foreign, other.mass) < std::tie(one.foreign, one.mass);
                     });
    addDecants(shop, trace.value(), its);
    addKin(shop, *reader, trace.value(), its);
    return its;
}

} // namespace

Result<std::vector<BatchParents>> parentsOf(Shop& shop, const Batch& batch, const std::string& serial) {
    const auto shipped = shippedMoment(shop, batch);
    if (!shipped) {
        return Error{fmt::format("batch {} is {}: nothing of it has left", batch.name, batch.status),
                     "the card of a cylinder shows where its contents came from"};
    }
    std::vector<BatchParents> all;
    for (const BatchLine& line : batch.lines) {
        const bool wanted =
            serial.empty() ? line.receipt && failed(line.receipt->result) : line.serial == serial;
        if (!wanted) {
            continue;
        }
        auto its = parentsOfLine(shop, line, *shipped);
        if (!its) {
            return its.error();
        }
        all.push_back(std::move(its).value());
    }
    if (all.empty() && !serial.empty()) {
        return Error{fmt::format("{} was not in batch {}", tarebook::quoted(serial), batch.name),
                     "name a cylinder of the batch"};
    }
    return all;
}

} // namespace tarebook
