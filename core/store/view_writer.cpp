#include "core/store/view_writer.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "core/store/journal_table.h"
#include "core/store/leg_orders.h"
#include "core/store/record_table.h"
#include "core/store/schema_v1.h"

namespace tarebook {

namespace {

constexpr const char* kEmptyViews =
    "DELETE FROM finding; DELETE FROM record; DELETE FROM cylinder_state; "
    "DELETE FROM cylinder; DELETE FROM flow; DELETE FROM leg; DELETE FROM reversal; "
    "DELETE FROM touch; DELETE FROM subject;";
constexpr std::int64_t kProgressStep = 256;

Error stoppedEarly() {
    return {"stopped before the end", "start again; nothing was changed"};
}

bool isBare(const MassFacts& facts) {
    return facts.weighings.empty() && facts.movements.empty() && facts.evacuated.empty();
}

} // namespace

void ViewWriter::throwIfDatabaseFailed() const {
    if (m_book.failureCode() != 0) {
        throw SqlFailure(m_book.failureCode(), "the books could not be read or written");
    }
}

Result<bool> ViewWriter::add(const Entry& entry, const EntryFacts& facts) {
    if (entry.kind == EntryKind::entryReversed) {
        return reverse(entry);
    }
    if (!facts.masses) {
        return facts.masses.error();
    }
    const Moment moment{entry.occurred, entry.seq};
    for (const EntrySubject& subject : facts.subjects) {
        m_subjects.addTouch(m_subjects.numberOf(subject.text), moment, subject.mass);
    }
    if (!isBare(facts.masses.value())) {
        m_book.announce(moment, facts.masses.value(), facts.serials);
        const auto changed = post(m_book, moment, entry.seq);
        m_book.posted();
        throwIfDatabaseFailed();
        if (!changed) {
            return changed.error();
        }
        for (const Account& account : changed.value()) {
            if (!std::binary_search(facts.serials.begin(), facts.serials.end(), account.name)) {
                m_cylinders.markStale(account.name);
            }
        }
    }
    for (const EntrySubject& subject : facts.subjects) {
        if (!subject.serial.empty()) {
            m_cylinders.follow(subject.serial, entry, subject.mass);
        }
    }
    followRecord(m_database, m_subjects, entry);
    return true;
}

Result<bool> ViewWriter::reverse(const Entry& entry) {
    const auto number = entry.body.value("entry", Sequence{0});
    const auto target = number < entry.seq ? entryWith(m_database, number) : std::nullopt;
    if (!target) {
        return Error{fmt::format("there is no entry {} to reverse", number), "name an entry of the journal"};
    }
    if (target->kind == EntryKind::entryReversed) {
        return Error{fmt::format("entry {} is a reversal itself", number), "enter the thing again"};
    }
    if (target->kind == EntryKind::operatorSet) {
        return Error{fmt::format("entry {} says who may sign in", number), "set role or passphrase anew"};
    }
    if (const auto earlier = reversedBy(m_database, number)) {
        return Error{fmt::format("entry {} is reversed already, by entry {}", number, *earlier),
                     "nothing is left to do"};
    }
    const EntryFacts facts(*target);
    if (!facts.masses) {
        return facts.masses.error();
    }
    const Moment moment{target->occurred, target->seq};
    std::vector<std::int64_t> subjects;
    for (const EntrySubject& subject : facts.subjects) {
        subjects.push_back(m_subjects.numberOf(subject.text));
        m_subjects.addTouch(subjects.back(), {entry.occurred, entry.seq}, false);
        if (!subject.serial.empty()) {
            m_cylinders.markStale(subject.serial);
        }
    }
    m_subjects.reverse(moment, subjects, entry.seq);
    if (!isBare(facts.masses.value())) {
        m_book.forget(facts.serials);
        const auto changed = unpost(m_book, moment, entry.seq);
        throwIfDatabaseFailed();
        if (!changed) {
            return changed.error();
        }
        for (const Account& account : changed.value()) {
            m_cylinders.markStale(account.name);
        }
    }
    if (const auto key = recordKeyOf(*target)) {
        refoldRecord(m_database, m_subjects, *key);
    }
    return true;
}

Result<bool> rebuildViews(Database& database, const Reviewer& reviewer,
                          const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    database.execute(kEmptyViews);
    database.execute(kDropLegOrdersV1);
    const Sequence head = headOf(database).seq;
    ViewWriter writer(database);
    Result<bool> done = true;
    visitPrepared(database, 1, head, [&](PreparedEntry& prepared, std::string_view /*body*/) {
        const Entry& entry = prepared.entry;
        done = writer.add(entry, prepared.facts);
        if (done && progress && entry.seq % kProgressStep == 0 && !progress(entry.seq, head)) {
            done = stoppedEarly();
        }
        return done.ok();
    });
    if (done) {
        writer.writeHeld();
        if (!makeLegOrders(database, head, progress)) { // the reviewer may ask for legs
            done = stoppedEarly();
        }
    }
    if (done) {
        writer.finish(reviewer);
    }
    return done;
}

} // namespace tarebook
