#include "core/shop/cylinder_records.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/ledger/body_text.h"
#include "core/shop/attachments.h"
#include "core/shop/entries_between.h"
#include "core/shop/equipment.h"
#include "core/shop/gauge_reading.h"

namespace tarebook {

namespace {

constexpr std::int64_t kChronicLeaker = 12'500; // hundredths of a percent: 40 CFR 82.157(j), 84.106

/// Counts one more, and, where something is missing, says of what.
void countAsked(RecordKept& record, const std::string& subject, Sequence entry,
                const std::vector<std::pair<bool, std::string>>& fields) {
    ++record.asked;
    std::string missing;
    for (const auto& [there, name] : fields) {
        if (!there) {
            missing += (missing.empty() ? "" : ", ") + name;
        }
    }
    if (!missing.empty()) {
        record.gaps.push_back({subject, entry, missing});
    }
}

/// Cylinders that were registered in the same step, behind the entry: those that came in exchange.
Result<std::size_t> cameWith(Shop& shop, const Entry& settled) {
    std::size_t count = 0;
    for (Sequence seq = settled.seq + 1; seq <= shop.store().headSeq(); ++seq) {
        const auto next = shop.store().entry(seq);
        if (!next) {
            return next.error();
        }
        if (next.value().recorded != settled.recorded || next.value().kind == EntryKind::batchSettled ||
            next.value().kind == EntryKind::entryReversed) {
            break;
        }
        const bool stands = !shop.store().reversedBy(seq);
        count += stands && next.value().kind == EntryKind::cylinderRegistered ? 1 : 0;
    }
    return count;
}

/// Whether a copy of the report is attached to an entry about the system, recorded once the year was over.
bool isReportAttached(const std::vector<Attachment>& files, const Shop& shop, const std::string& system,
                      int year) {
    return std::any_of(files.begin(), files.end(), [&](const Attachment& one) {
        const auto& about = one.file.about;
        return !one.withdrawnBy && shop.zone().dateOf(one.recorded).month().year() > year &&
               std::find(about.begin(), about.end(), "system:" + system) != about.end() &&
               lowered(one.file.name + " " + one.file.note).find("chronic") != std::string::npos;
    });
}

} // namespace

Result<bool> checkCondition(Shop& shop, Date from, Date to, RecordKept& record) {
    using enum EntryKind;
    const auto entries = entriesBetween(
        shop, from, to,
        {weighed, returned, locationChanged, opened, bought, recovered, charged, decanted, released});
    if (!entries) {
        return entries.error();
    }
    for (const Entry& entry : entries.value()) {
        if (const auto reading = readingOf(entry)) {
            countAsked(record, "cylinder:" + reading->serial, entry.seq,
                       {{reading->secondsAtRest.has_value(), "standing time"},
                        {reading->expected.has_value(), "pressure that the contents would show"},
                        {!reading->verdict.empty(), "verdict"}});
        }
    }
    return true;
}

Result<bool> checkTare(Shop& shop, Date from, Date to, RecordKept& record) {
    const auto entries = entriesBetween(shop, from, to, {EntryKind::marksRestated});
    if (!entries) {
        return entries.error();
    }
    for (const Entry& entry : entries.value()) {
        if (entry.body.contains("tare_mg")) {
            const auto weighed = entry.body.find("weighed");
            countAsked(record, "cylinder:" + bodyText(entry.body, "serial"), entry.seq,
                       {{weighed != entry.body.end() && *weighed == true, "that it was weighed empty"},
                        {!bodyText(entry.body, "reason").empty(), "reason"}});
        }
    }
    return true;
}

Result<bool> checkExchange(Shop& shop, Date from, Date to, RecordKept& record) {
    const auto entries = entriesBetween(shop, from, to, {EntryKind::batchSettled});
    if (!entries) {
        return entries.error();
    }
    for (const Entry& entry : entries.value()) {
        const auto gone = entry.body.find("exchanged");
        if (gone == entry.body.end() || !gone->is_array()) {
            continue;
        }
        const auto came = cameWith(shop, entry);
        if (!came) {
            return came.error();
        }
        std::size_t place = 0;
        for (const auto& line : *gone) {
            countAsked(record,
                       "cylinder:" + (line.is_object() ? line.value("out", std::string()) : std::string()),
                       entry.seq, {{place++ < came.value(), "cylinder that came for it"}});
        }
    }
    return true;
}

Result<bool> checkChronicReport(Shop& shop, Date from, Date to, RecordKept& record) {
    const auto all = leaks(shop, to);
    const auto files = attachmentsOf(shop);
    if (!all || !files) {
        return all ? files.error() : all.error();
    }
    for (const SystemLeaks& one : all.value()) {
        if (!one.system.nominalCharge) {
            continue; // the record of the full charge says so
        }
        for (int year = from.month().year(); year <= to.month().year(); ++year) {
            const auto last = MonthYear::of(year, 12);
            const Date until = last ? std::min(to, Date::lastOf(last.value())) : to;
            const auto rate = calendarYearLeakRate(one.additions, *one.system.nominalCharge, until);
            if (!rate || rate.value().hundredthsOfPercent() < kChronicLeaker ||
                !isAskedOfChronic(shop, one.system, until).value_or(false)) {
                continue;
            }
            countAsked(
                record, "system:" + one.system.key(), 0,
                {{isReportAttached(files.value(), shop, one.system.key(), year),
                  fmt::format("report of {} with what was done and the day it was sent in (due by {}-03-01): "
                              "attach a copy, 'chronic' in its note",
                              year, year + 1)}});
        }
    }
    return true;
}

Result<bool> checkRequalification(Shop& shop, Date from, Date to, RecordKept& record) {
    const auto tests = entriesBetween(shop, from, to, {EntryKind::retested});
    if (!tests) {
        return tests.error();
    }
    for (const Entry& entry : tests.value()) {
        countAsked(record, "cylinder:" + bodyText(entry.body, "serial"), entry.seq,
                   {{!bodyText(entry.body, "requalifier").empty(), "requalifier"},
                    {!bodyText(entry.body, "method").empty(), "method"}});
    }
    return true;
}

Result<bool> checkWeighing(Shop& shop, Date from, Date to, RecordKept& record) {
    const auto moved = entriesBetween(shop, from, to, {EntryKind::recovered, EntryKind::charged});
    if (!moved) {
        return moved.error();
    }
    for (const Entry& entry : moved.value()) {
        countAsked(record, bodyText(entry.body, entry.kind == EntryKind::recovered ? "to" : "from"),
                   entry.seq,
                   {{entry.body.contains("gross_before_mg"), "gross before"},
                    {entry.body.contains("gross_after_mg"), "gross after"},
                    {!bodyText(entry.body, "person").empty(), "person"},
                    {!bodyText(entry.body, "job").empty(), "job"}});
    }
    return true;
}

Result<bool> checkDecant(Shop& shop, Date from, Date to, RecordKept& record) {
    const auto decants = entriesBetween(shop, from, to, {EntryKind::decanted});
    if (!decants) {
        return decants.error();
    }
    for (const Entry& entry : decants.value()) {
        countAsked(record, bodyText(entry.body, "to"), entry.seq,
                   {{!bodyText(entry.body, "person").empty() || !entry.operatorName.empty(), "person"}});
    }
    return true;
}

} // namespace tarebook
