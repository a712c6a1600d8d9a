#include <algorithm>
#include <iterator>
#include <map>
#include <set>

#include "core/ledger/body_text.h"
#include "core/rules/disposal_record.h"
#include "core/rules/gas_kinds.h"
#include "core/shop/cylinder_records.h"
#include "core/shop/disposals.h"
#include "core/shop/entries_between.h"
#include "core/shop/machines.h"
#include "core/shop/record_keeping.h"
#include "core/shop/register.h"
#include "core/shop/returns.h"

namespace tarebook {

namespace {

/// Gathers what is missing of one thing.
class Missing {
public:
    void unless(bool there, const char* what) {
        if (!there) {
            m_text += m_text.empty() ? "" : ", ";
            m_text += what;
        }
    }
    void into(RecordKept& record, std::string subject, Sequence entry) const {
        ++record.asked;
        if (!m_text.empty()) {
            record.gaps.push_back({std::move(subject), entry, m_text});
        }
    }

private:
    std::string m_text;
};

bool isKnown(const std::string& refrigerant) {
    return !refrigerant.empty() && refrigerant != "unknown";
}

std::map<std::string, System> systemsByKey(Shop& shop) {
    std::map<std::string, System> all;
    for (System& system : systems(shop)) {
        all.emplace(system.key(), std::move(system));
    }
    return all;
}

/// The system that gas was recovered from or charged into; empty: none was.
std::string workedSystem(const Entry& entry) {
    const std::string from = bodyAccount(entry, "from", AccountKind::system);
    return from.empty() ? bodyAccount(entry, "to", AccountKind::system) : from;
}

/// Asks of every disposal within the period; nothing where the rulebook asks for no such record.
Result<bool> eachDisposal(Shop& shop, Date from, Date to,
                          const std::function<void(const DisposalMonth&, const DisposedAppliance&)>& ask) {
    const auto recovered = entriesBetween(shop, from, to, {EntryKind::recovered});
    if (!recovered) {
        return recovered.error();
    }
    std::set<MonthYear> months; // a month without a disposal is not asked: its records take long to gather
    for (const Entry& entry : recovered.value()) {
        if (bodyText(entry.body, "purpose") == "disposal") {
            months.insert(shop.zone().dateOf(entry.occurred).month());
        }
    }
    std::vector<MonthYear> asked;
    std::copy_if(months.begin(), months.end(), std::back_inserter(asked), [&](MonthYear month) {
        const auto scope = disposalScope(shop.rulebookOn(Date::lastOf(month)));
        return scope && scope.value();
    });
    const auto found = disposals(shop, asked);
    if (!found) {
        return found.error();
    }
    for (const DisposalMonth& month : found.value()) {
        for (const DisposedAppliance& one : month.appliances) {
            if (one.day >= from && one.day <= to) {
                ask(month, one);
            }
        }
    }
    return true;
}

/// An appliance without a full charge on file may be within the bounds: it is asked too.
bool mayCount(const DisposedAppliance& one) {
    return one.counted || !one.fullCharge;
}

Result<bool> checkDisposal(Shop& shop, Date from, Date to, RecordKept& record) {
    return eachDisposal(shop, from, to, [&](const DisposalMonth&, const DisposedAppliance& one) {
        if (mayCount(one)) {
            Missing missing;
            missing.unless(!shop.settings().name.empty(), "name of the company");
            missing.unless(!one.address.empty(), "address of the site");
            missing.unless(isKnown(one.refrigerant), "refrigerant");
            missing.unless(one.fullCharge.has_value(), "full charge, which decides whether it counts");
            missing.into(record, "system:" + one.system, one.entries.front());
        }
    });
}

Result<bool> checkDisposalMonth(Shop& shop, Date from, Date to, RecordKept& record) {
    std::map<std::string, bool> whole; // by month
    auto done = eachDisposal(shop, from, to, [&](const DisposalMonth& month, const DisposedAppliance& one) {
        if (mayCount(one)) {
            auto& known = whole.emplace(month.month.text(), true).first->second;
            known = known && one.fullCharge && isKnown(one.refrigerant);
        }
    });
    for (const auto& [month, known] : whole) {
        Missing missing;
        missing.unless(known, "full charge or refrigerant of an appliance: the total may be short");
        missing.into(record, "month:" + month, 0);
    }
    return done;
}

/// Batches that were shipped within the period.
Result<std::vector<Batch>> shippedBetween(Shop& shop, Date from, Date to) {
    // Putting a batch together takes long: only those are that left within the period.
    const auto entries = entriesBetween(shop, from, to, {EntryKind::batchShipped});
    if (!entries) {
        return entries.error();
    }
    std::set<std::string> names;
    for (const Entry& entry : entries.value()) {
        names.insert(bodyText(entry.body, "batch"));
    }
    std::vector<Batch> shipped;
    shipped.reserve(names.size());
    for (auto name = names.rbegin(); name != names.rend(); ++name) { // as batches() has them
        auto its = batch(shop, *name);
        if (!its) {
            return its.error();
        }
        shipped.push_back(std::move(its).value());
    }
    std::erase_if(shipped, [&](const Batch& batch) {
        const Date day = batch.shipped ? shop.zone().dateOf(*batch.shipped) : from;
        return !batch.shipped || day < from || day > to;
    });
    return shipped;
}

Result<bool> checkTransfer(Shop& shop, Date from, Date to, RecordKept& record) {
    const auto shipped = shippedBetween(shop, from, to);
    if (!shipped) {
        return shipped.error();
    }
    std::map<std::string, Party> known;
    for (const char* kind : {"reclaimer", "destroyer"}) {
        for (Party& party : parties(shop, kind)) {
            known.emplace(party.name, std::move(party));
        }
    }
    for (const Batch& batch : shipped.value()) {
        Missing missing;
        const auto to_whom = known.find(batch.reclaimer);
        missing.unless(to_whom != known.end() && !to_whom->second.address.empty(), "address of the receiver");
        bool named = true;
        for (const BatchLine& line : batch.lines) {
            named = named && isKnown(line.content);
        }
        missing.unless(named, "refrigerant");
        missing.into(record, "batch:" + batch.name, batch.entries.back());
    }
    return true;
}

/// Work on systems: `counts` says which systems the record is asked of.
Result<bool> checkWork(Shop& shop, Date from, Date to, RecordKept& record,
                       const std::function<bool(const System&)>& counts) {
    const auto work = entriesBetween(shop, from, to, {EntryKind::recovered, EntryKind::charged});
    if (!work) {
        return work.error();
    }
    const auto known = systemsByKey(shop);
    std::map<std::string, Person> certified;
    for (Person& person : people(shop)) {
        certified.emplace(person.name, person);
    }
    for (const Entry& entry : work.value()) {
        const auto system = known.find(workedSystem(entry));
        if (system == known.end() || !counts(system->second)) {
            continue;
        }
        const std::string person = bodyText(entry.body, "person");
        const auto its = certified.find(person);
        Missing missing;
        missing.unless(!person.empty(), "who did it");
        missing.unless(person.empty() || (its != certified.end() && namesNumber(its->second.certificate)),
                       "certificate number of who did it");
        missing.unless(its == certified.end() || !its->second.hadRunOut(shop.zone().dateOf(entry.occurred)),
                       "certificate that held on that day");
        missing.unless(system->second.nominalCharge.has_value(), "full charge");
        missing.unless(isKnown(system->second.refrigerant), "refrigerant of the unit");
        missing.into(record, "system:" + system->first, entry.seq);
    }
    return true;
}

/// Whether a system falls under a law by its gas and, where it is known, its charge.
bool isFrom(const Shop& shop, const System& system, const char* kind, const char* pounds) {
    const auto contents = shop.catalogue().contents(system.refrigerant);
    const auto bound = Mass::parse(std::string(pounds) + " lb");
    return contents && gasKinds(shop.catalogue(), contents.value()).contains(kind) &&
           (!system.nominalCharge || *system.nominalCharge >= bound.value());
}

Result<bool> checkServiceOds(Shop& shop, Date from, Date to, RecordKept& record) {
    return checkWork(shop, from, to, record,
                     [&](const System& system) { return isFrom(shop, system, "ods", "50"); });
}
Result<bool> checkServiceHfc(Shop& shop, Date from, Date to, RecordKept& record) {
    return checkWork(shop, from, to, record,
                     [&](const System& system) { return isFrom(shop, system, "hfc", "15"); });
}
Result<bool> checkService(Shop& shop, Date from, Date to, RecordKept& record) {
    return checkWork(shop, from, to, record, [](const System&) { return true; });
}

Result<bool> checkFullCharge(Shop& shop, Date from, Date to, RecordKept& record) {
    const auto work = entriesBetween(shop, from, to, {EntryKind::recovered, EntryKind::charged});
    if (!work) {
        return work.error();
    }
    const auto known = systemsByKey(shop);
    std::set<std::string> seen;
    for (const Entry& entry : work.value()) {
        const auto system = known.find(workedSystem(entry));
        if (system != known.end() && seen.insert(system->first).second) {
            Missing missing;
            missing.unless(system->second.nominalCharge.has_value(), "full charge");
            missing.into(record, "system:" + system->first, 0);
        }
    }
    return true;
}

Result<bool> checkTechnician(Shop& shop, Date from, Date to, RecordKept& record) {
    const auto work = entriesBetween(shop, from, to, {EntryKind::recovered, EntryKind::charged});
    if (!work) {
        return work.error();
    }
    std::map<std::string, Date> names; // and the newest day of their work
    for (const Entry& entry : work.value()) {
        const Date day = shop.zone().dateOf(entry.occurred);
        Date& newest = names.emplace(bodyText(entry.body, "person"), day).first->second;
        newest = std::max(newest, day);
    }
    names.erase("");
    std::map<std::string, Person> known;
    for (Person& person : people(shop)) {
        known.emplace(person.name, person);
    }
    for (const auto& [name, newest] : names) {
        const auto its = known.find(name);
        Missing missing;
        missing.unless(its != known.end() && namesNumber(its->second.certificate), "certificate number");
        missing.unless(its == known.end() || !its->second.hadRunOut(newest),
                       "certificate that held on the newest day of their work");
        missing.into(record, "person:" + name, 0);
    }
    return true;
}

Result<bool> checkMachine(Shop& shop, Date, Date, RecordKept& record) {
    for (const Machine& machine : machines(shop)) {
        if (!machine.active) {
            continue;
        }
        Missing missing;
        missing.unless(!machine.makerSerial.empty(), "maker's serial");
        missing.unless(machine.made.has_value(), "date made");
        missing.unless(!machine.certification.empty(), "certification label");
        missing.unless(!machine.certifiedFor.empty(), "appliances it is certified for");
        missing.unless(machine.flammableRated.has_value(), "whether it is rated for flammable gas");
        missing.into(record, "machine:" + machine.name, 0);
    }
    return true;
}

Result<bool> checkOwnership(Shop& shop, Date from, Date to, RecordKept& record) {
    const auto recovered = entriesBetween(shop, from, to, {EntryKind::recovered});
    if (!recovered) {
        return recovered.error();
    }
    for (const Entry& entry : recovered.value()) {
        Missing missing;
        missing.unless(!bodyText(entry.body, "owner").empty(), "owner of the gas");
        missing.unless(!workedSystem(entry).empty(), "appliance");
        missing.into(record, bodyText(entry.body, "from"), entry.seq);
    }
    return true;
}

Result<bool> checkSettlement(Shop& shop, Date from, Date to, RecordKept& record) {
    const auto shipped = shippedBetween(shop, from, to);
    if (!shipped) {
        return shipped.error();
    }
    for (const Batch& batch : shipped.value()) {
        bool weighed = true;
        bool analysed = true;
        bool bare = !batch.lines.empty(); // of empties alone nobody writes a receipt
        for (const BatchLine& line : batch.lines) {
            if (line.empty()) {
                continue;
            }
            bare = false;
            weighed = weighed && line.receivedNet.has_value();
            analysed = analysed && (!line.analysis.empty() ||
                                    (line.receipt && line.receipt->result != AnalysisResult::notStated));
        }
        Missing missing;
        missing.unless(bare || !batch.reference.empty(), "receipt of the reclaimer");
        missing.unless(weighed, "weights as received");
        missing.unless(analysed, "analysis");
        missing.unless(batch.certificate != kAwaited, "certificate of the reclaimer, which is awaited");
        missing.unless(batch.status == "settled", "settlement");
        missing.into(record, "batch:" + batch.name, batch.entries.back());
    }
    return true;
}

} // namespace

RecordCheck recordCheckNamed(const std::string& name) {
    static const std::map<std::string, RecordCheck> checks = {{"disposal", checkDisposal},
                                                              {"disposal-month", checkDisposalMonth},
                                                              {"transfer", checkTransfer},
                                                              {"service-ods", checkServiceOds},
                                                              {"service-hfc", checkServiceHfc},
                                                              {"service", checkService},
                                                              {"full-charge", checkFullCharge},
                                                              {"technician", checkTechnician},
                                                              {"machine", checkMachine},
                                                              {"ownership", checkOwnership},
                                                              {"requalification", checkRequalification},
                                                              {"weighing", checkWeighing},
                                                              {"settlement", checkSettlement},
                                                              {"decant", checkDecant},
                                                              {"condition", checkCondition},
                                                              {"tare", checkTare},
                                                              {"exchange", checkExchange},
                                                              {"chronic-report", checkChronicReport}};
    const auto found = checks.find(name);
    return found == checks.end() ? RecordCheck() : found->second;
}

} // namespace tarebook
