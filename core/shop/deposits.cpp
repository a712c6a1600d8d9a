#include "core/shop/deposits.h"

#include <algorithm>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/shop/look_then_record.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/register.h"

namespace tarebook {

namespace {

/// Why the entry ends the deposit; empty when it does not.
std::string endedBy(const Entry& entry, const Deposit& deposit) {
    if (entry.kind == EntryKind::retired) { // not that of the one for which it came
        return entry.body.value("serial", std::string()) == deposit.loan.serial ? "it left the fleet" : "";
    }
    if (deposit.loan.away) {
        return entry.kind == EntryKind::returned       ? "it came back"
               : entry.kind == EntryKind::batchSettled ? "its batch was settled"
                                                       : "";
    }
    const bool toOwner = entry.kind == EntryKind::batchShipped &&
                         entry.body.value("reclaimer", std::string()) == deposit.party;
    return toOwner ? "it was shipped back" : "";
}

/// Looks in the books for the end that nobody has entered.
Result<bool> findEnd(Shop& shop, Deposit& deposit) {
    if (deposit.loan.until) {
        deposit.ended = "entered";
        return true;
    }
    const auto entries = shop.store().entriesAbout("cylinder:" + deposit.loan.serial);
    if (!entries) {
        return entries.error();
    }
    for (const Entry& entry : entries.value()) {
        const Date day = shop.zone().dateOf(entry.occurred);
        const std::string why = day > deposit.loan.since ? endedBy(entry, deposit) : "";
        if (!why.empty() && !shop.store().reversedBy(entry.seq)) {
            deposit.loan.until = day;
            deposit.ended = why;
            return true;
        }
    }
    return true;
}

/// All that are on file of a party's record, or only that of one cylinder.
Result<std::vector<Deposit>> onFile(Shop& shop, const std::string& serial) {
    const auto records = shop.store().records("party");
    if (!records) {
        return records.error();
    }
    std::vector<Deposit> found;
    for (const Record& record : records.value()) {
        const auto loans = record.body.find("loans");
        if (loans == record.body.end() || !loans->is_object()) {
            continue;
        }
        for (const auto& [its, written] : loans->items()) {
            if (!serial.empty() && its != serial) {
                continue;
            }
            const auto loan = CylinderLoan::from(its, written);
            if (!loan) {
                return loan.error();
            }
            found.push_back({record.body.value("kind", std::string()),
                             record.body.value("name", std::string()),
                             loan.value(),
                             {}});
        }
    }
    return found;
}

Result<std::vector<Deposit>> begunBy(Shop& shop, const std::string& serial, Date on) {
    auto found = onFile(shop, serial);
    if (!found) {
        return found;
    }
    std::vector<Deposit> begun;
    for (Deposit deposit : found.value()) {
        if (deposit.loan.since > on) {
            continue;
        }
        const auto looked = findEnd(shop, deposit);
        if (!looked) {
            return looked.error();
        }
        begun.push_back(std::move(deposit));
    }
    return begun;
}

Result<Party> partyOnFile(Shop& shop, const std::string& name) {
    std::vector<Party> found;
    for (const char* kind : {"supplier", "reclaimer", "destroyer"}) {
        for (Party& party : parties(shop, kind)) {
            if (party.name == name) {
                found.push_back(std::move(party));
            }
        }
    }
    if (found.empty()) {
        return Error{fmt::format("there is no party {} on file", tarebook::quoted(name)),
                     "enter the supplier or the reclaimer first"};
    }
    return found.front();
}

Draft loanDraft(const Shop& shop, const std::string& kind, const std::string& party,
                const CylinderLoan& loan) {
    return shop.draft(EntryKind::partySet,
                      {{"kind", kind}, {"name", party}, {"loans", {{loan.serial, loan.body()}}}});
}

} // namespace

Result<std::vector<Deposit>> deposits(Shop& shop, Date on) {
    return begunBy(shop, "", on);
}

Result<std::optional<Deposit>> depositOf(Shop& shop, const std::string& serial, Date on) {
    auto found = begunBy(shop, serial, on);
    if (!found) {
        return found.error();
    }
    std::optional<Deposit> newest;
    for (const Deposit& one : found.value()) {
        if (!newest || one.loan.since >= newest->loan.since) {
            newest = one;
        }
    }
    return newest;
}

namespace {

/// The entry of the deposit, or why it cannot be.
Looked depositing(Shop& shop, const std::string& party, const CylinderLoan& loan) {
    const auto known = partyOnFile(shop, party);
    if (!known) {
        return refusedBy(known.error());
    }
    const auto state = shop.store().cylinder(loan.serial);
    if (!state || !state.value()) {
        return refusedBy(!state
                             ? state.error()
                             : Error{fmt::format("there is no cylinder {}", tarebook::quoted(loan.serial)),
                                     "register it first; the list of the fleet names those that there are"});
    }
    if (const auto sound = loan.sound(); !sound) {
        return refusedBy(sound.error());
    }
    const Date today = shop.today();
    if (loan.since > today || (loan.until && *loan.until > today)) {
        return refusedBy(
            Error{fmt::format("{}: the day lies in the future", loan.serial), "look at the day again"});
    }
    const auto before = begunBy(shop, loan.serial, today);
    if (!before) {
        return refusedBy(before.error());
    }
    for (const Deposit& one : before.value()) {
        if (one.out(loan.since) && (one.party != party || one.kind != known.value().kind)) {
            return refusedBy(Error{fmt::format("{} is on deposit with {} since {}", loan.serial, one.party,
                                               one.loan.since.text()),
                                   "end that first"});
        }
    }
    return {{loanDraft(shop, known.value().kind, party, loan)}};
}

Looked ending(Shop& shop, const std::string& serial, Date day) {
    const auto known = depositOf(shop, serial, shop.today());
    if (!known) {
        return refusedBy(known.error());
    }
    if (!known.value() || known.value()->loan.until) {
        return refusedBy(
            Error{known.value() ? fmt::format("{} went back on {}", serial, known.value()->loan.until->text())
                                : fmt::format("{} is not on deposit", serial),
                  "the list of deposits names those that are out"});
    }
    CylinderLoan loan = known.value()->loan;
    loan.until = day;
    return depositing(shop, known.value()->party, loan);
}

} // namespace

Recorded enterDeposit(Shop& shop, const std::string& party, const CylinderLoan& loan) {
    return lookThenRecord(shop, [&] { return depositing(shop, party, loan); });
}

Recorded endDeposit(Shop& shop, const std::string& serial, Date day) {
    return lookThenRecord(shop, [&] { return ending(shop, serial, day); });
}

std::vector<DepositSum> depositSums(const std::vector<Deposit>& deposits, Date on) {
    std::map<std::pair<bool, std::string>, DepositSum> sums;
    for (const Deposit& one : deposits) {
        if (!one.out(on)) {
            continue;
        }
        DepositSum& sum = sums[{one.loan.away, one.loan.currency}];
        sum.away = one.loan.away;
        sum.currency = one.loan.currency;
        ++sum.cylinders;
        sum.deposit += one.loan.deposit;
        sum.cost += one.loan.cost(on);
    }
    std::vector<DepositSum> list;
    list.reserve(sums.size());
    for (const auto& [side, sum] : sums) {
        list.push_back(sum);
    }
    return list;
}

Result<std::vector<Finding>> rentalsRunning(Shop& shop, Date on) {
    const auto known = deposits(shop, on);
    if (!known) {
        return known.error();
    }
    std::vector<Finding> findings;
    for (const Deposit& one : known.value()) {
        if (one.out(on) && one.loan.cost(on) > 0) {
            findings.push_back(depositFinding(one, on));
        }
    }
    return findings;
}

Finding depositFinding(const Deposit& deposit, Date on) {
    const CylinderLoan& loan = deposit.loan;
    const std::string whose =
        loan.away ? fmt::format("With {}", deposit.party) : fmt::format("Belongs to {}", deposit.party);
    const int charged = loan.daysCharged(on);
    const bool runs = charged > 0 && loan.rental > 0;
    Finding finding = planFinding(
        "cylinder:" + loan.serial, runs ? "deposit.rental" : "deposit.out",
        runs ? Severity::caution : Severity::note,
        runs ? fmt::format("{} since {}: rental for {} of {} days, {} {} so far.", whose, loan.since.text(),
                           charged, loan.days(on), moneyText(loan.cost(on)), loan.currency)
             : fmt::format("{} since {}, {} days.", whose, loan.since.text(), loan.days(on)),
        runs ? (loan.away ? "Ask for the cylinder, or for the rental." : "Send the cylinder back.") : "");
    finding.working = {loan.text(), fmt::format("{} days less {} without rental: {}", loan.days(on),
                                                std::min(loan.freeDays, loan.days(on)), charged)};
    if (runs) {
        finding.working.push_back(fmt::format("{} x {} = {} {}", charged, moneyText(loan.rental),
                                              moneyText(loan.cost(on)), loan.currency));
    }
    finding.citation = "what the shop has entered of it";
    return finding;
}

} // namespace tarebook
