#include <map>

#include <fmt/format.h>

#include "core/rules/disposal_record.h"
#include "core/shop/disposals.h"
#include "core/shop/held_then.h"
#include "core/shop/question_answers.h"
#include "core/shop/receipts.h"
#include "core/shop/record_keeping.h"
#include "core/shop/register.h"
#include "core/shop/returns.h"

namespace tarebook {

namespace {

/// The disposal records of every month that the period touches. Error: the rulebook asks for none.
Result<std::vector<DisposalMonth>> disposalMonths(Shop& shop, const QuestionInput& input) {
    std::vector<MonthYear> months;
    for (MonthYear month = input.from.month(); month <= input.to.month(); month = month.plusMonths(1)) {
        months.push_back(month);
    }
    return disposals(shop, months);
}

/// What the record of an appliance lacks (record_checks.cpp), by the first entry of it.
Result<std::map<Sequence, std::string>> lackingOf(Shop& shop, const QuestionInput& input) {
    RecordKept record;
    const auto checked = recordCheckNamed("disposal")(shop, input.from, input.to, record);
    if (!checked) {
        return checked.error();
    }
    std::map<Sequence, std::string> lacking;
    for (const RecordGap& gap : record.gaps) {
        lacking[gap.entry] = gap.missing;
    }
    return lacking;
}

std::string missingOf(const std::map<Sequence, std::string>& lacking, const DisposedAppliance& one) {
    const auto found = one.entries.empty() ? lacking.end() : lacking.find(one.entries.front());
    return found == lacking.end() ? std::string() : found->second;
}

struct Receiver {
    std::string address;
    std::string number;
};

std::map<std::string, Receiver> receivers(Shop& shop) {
    std::map<std::string, Receiver> all;
    for (const char* kind : {"reclaimer", "destroyer"}) {
        for (const Party& party : parties(shop, kind)) {
            all[party.name] = {party.address, party.number};
        }
    }
    return all;
}

bool isShippedIn(const Shop& shop, const Batch& batch, const QuestionInput& input) {
    if (!batch.shipped) {
        return false;
    }
    const Date day = shop.zone().dateOf(*batch.shipped);
    return day >= input.from && day <= input.to;
}

/// The likeliest cause of each difference beyond the tolerance, by serial.
std::map<std::string, std::string> causesOf(Shop& shop, const Batch& batch) {
    std::map<std::string, std::string> causes;
    const auto differences = compareReceipt(shop, batch);
    for (const ReceiptDifference& one :
         differences ? differences.value() : std::vector<ReceiptDifference>()) { // without a receipt: none
        if (one.beyond) {
            causes[one.serial] = one.explanations.empty()
                                     ? "not known"
                                     : fmt::format("{}: {}", receiptCauseWord(one.explanations.front().cause),
                                                   one.explanations.front().evidence);
        }
    }
    return causes;
}

bool isOpen(const ReceiptLine& line) {
    return line.verdict == ReceiptVerdict::open || line.verdict == ReceiptVerdict::disputed;
}

std::string verdictText(const ReceiptLine& line) {
    return fmt::format("{}{}{}", receiptVerdictWord(line.verdict), line.why.empty() ? "" : ": ", line.why);
}

} // namespace

Result<QuestionAnswer> answerDisposed(Shop& shop, const QuestionInput& input) {
    const auto months = disposalMonths(shop, input);
    if (!months) {
        return months.error();
    }
    const auto lacking = lackingOf(shop, input);
    if (!lacking) {
        return lacking.error();
    }
    QuestionAnswer told;
    told.table.columns = {"day",          "location", "address", "customer", "refrigerant", "full_charge_kg",
                          "recovered_kg", "counts",   "missing"};
    for (const DisposalMonth& month : months.value()) {
        told.findings.insert(told.findings.end(), month.findings.begin(), month.findings.end());
        for (const DisposedAppliance& one : month.appliances) {
            if (one.day < input.from || one.day > input.to) {
                continue;
            }
            told.table.rows.push_back({one.day.text(), one.system, one.address, one.customer, one.refrigerant,
                                       one.fullCharge ? kilogramCell(one.fullCharge->milligrams()) : "",
                                       kilogramCell(one.recovered.milligrams()), one.counted ? "yes" : "no",
                                       missingOf(lacking.value(), one)});
            told.entries.insert(told.entries.end(), one.entries.begin(), one.entries.end());
        }
    }
    told.sentence =
        fmt::format("{} appliances were disposed of from {} to {}, as entered; which of them the "
                    "law counts stands beside each, and what its record lacks ({} do).",
                    told.table.rows.size(), input.from.text(), input.to.text(), lacking.value().size());
    return told;
}

Result<QuestionAnswer> answerDisposalTotals(Shop& shop, const QuestionInput& input) {
    const auto months = disposalMonths(shop, input);
    if (!months) {
        return months.error();
    }
    QuestionAnswer told;
    told.table.columns = {"month", "refrigerant", "recovered_kg"};
    for (const DisposalMonth& month : months.value()) {
        for (const auto& [refrigerant, mass] : month.totals) {
            told.table.rows.push_back({month.month.text(), refrigerant, kilogramCell(mass.milligrams())});
        }
        for (const DisposedAppliance& one : month.appliances) {
            if (one.counted) {
                told.entries.insert(told.entries.end(), one.entries.begin(), one.entries.end());
            }
        }
    }
    told.sentence =
        fmt::format("Totals of whole calendar months from {} to {}, of the appliances that count.",
                    input.from.month().text(), input.to.month().text());
    return told;
}

Result<QuestionAnswer> answerSent(Shop& shop, const QuestionInput& input) {
    const auto all = batches(shop);
    if (!all) {
        return all.error();
    }
    auto known = receivers(shop);
    QuestionAnswer told;
    told.table.columns = {"day", "batch", "to", "address", "number", "refrigerant", "mass_kg"};
    std::int64_t sum = 0;
    int sent = 0;
    for (const Batch& batch : all.value()) {
        if (!isShippedIn(shop, batch, input)) {
            continue;
        }
        ++sent;
        std::map<std::string, std::int64_t> contents;
        for (const BatchLine& line : batch.lines) {
            contents[line.content] += line.net.milligrams();
            sum += line.net.milligrams();
        }
        const Receiver& receiver = known[batch.reclaimer];
        for (const auto& [content, mass] : contents) {
            told.table.rows.push_back({shop.zone().dateOf(*batch.shipped).text(), batch.name, batch.reclaimer,
                                       receiver.address, receiver.number, content, kilogramCell(mass)});
        }
        told.entries.insert(told.entries.end(), batch.entries.begin(), batch.entries.end());
    }
    told.sentence =
        fmt::format("{} batches with {} went off from {} to {}.", sent,
                    shop.display().mass(Mass::fromMilligrams(sum)), input.from.text(), input.to.text());
    return told;
}

Result<QuestionAnswer> answerReceipts(Shop& shop, const QuestionInput& input) {
    const auto all = batches(shop);
    if (!all) {
        return all.error();
    }
    QuestionAnswer told;
    told.table.columns = {"batch",   "to",          "status",        "receipt", "certificate", "serial",
                          "sent_kg", "received_kg", "difference_kg", "verdict", "cause"};
    int sent = 0;
    int without = 0;
    int open = 0;
    for (const Batch& batch : all.value()) {
        if (!isShippedIn(shop, batch, input)) {
            continue;
        }
        ++sent;
        const auto causes = causesOf(shop, batch);
        bool whole = true;
        for (const BatchLine& line : batch.lines) {
            const bool came = line.receipt && line.receivedNet;
            const std::int64_t difference = came ? line.receivedNet->milligrams() - line.net.milligrams() : 0;
            const auto cause = causes.find(line.serial);
            whole = whole && (came || line.empty());
            open += came && cause != causes.end() && isOpen(*line.receipt) ? 1 : 0;
            told.table.rows.push_back({batch.name, batch.reclaimer, batch.standing(), batch.reference,
                                       batch.certificate, line.serial, kilogramCell(line.net.milligrams()),
                                       came ? kilogramCell(line.receivedNet->milligrams()) : "",
                                       came ? kilogramCell(difference) : "",
                                       came ? verdictText(*line.receipt) : "not received",
                                       cause == causes.end() ? "" : cause->second});
        }
        without += whole ? 0 : 1;
        told.entries.insert(told.entries.end(), batch.entries.begin(), batch.entries.end());
    }
    told.sentence = fmt::format(
        "Of {} batches that went off from {} to {}, {} are without the weights of the receiver for "
        "a cylinder or for all; {} differences beyond the tolerance of weighing are disputed or "
        "not decided. Settling posts a difference between the receiver and variance; the balance "
        "of the cylinders keeps what was shipped as returned.",
        sent, input.from.text(), input.to.text(), without, open);
    return told;
}

} // namespace tarebook
