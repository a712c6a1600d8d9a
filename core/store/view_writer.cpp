#include "core/store/view_writer.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/store/journal_table.h"
#include "core/store/record_table.h"

namespace tarebook {

namespace {

constexpr const char* kEmptyViews =
    "DELETE FROM finding; DELETE FROM record; DELETE FROM cylinder_state; "
    "DELETE FROM cylinder; DELETE FROM flow; DELETE FROM leg; DELETE FROM reversal; "
    "DELETE FROM touch; DELETE FROM subject;";
constexpr std::int64_t kProgressStep = 256;

constexpr std::string_view kCylinderPrefix = "cylinder:";

std::optional<std::string> serialIn(const std::string& subject) {
    if (!subject.starts_with(kCylinderPrefix)) {
        return std::nullopt;
    }
    return subject.substr(kCylinderPrefix.size());
}

bool isBare(const MassFacts& facts) {
    return facts.weighings.empty() && facts.movements.empty() && facts.evacuated.empty();
}

} // namespace

std::vector<std::string> ViewWriter::textsOf(const Draft& draft,
                                             const std::vector<std::string>& serials) const {
    std::vector<std::string> texts = subjectsOf(draft);
    for (const std::string& serial : serials) {
        texts.push_back(Account::cylinder(serial).text());
    }
    std::sort(texts.begin(), texts.end());
    texts.erase(std::unique(texts.begin(), texts.end()), texts.end());
    return texts;
}

void ViewWriter::throwIfDatabaseFailed() const {
    if (m_book.failureCode() != 0) {
        throw SqlFailure(m_book.failureCode(), "the books could not be read or written");
    }
}

Result<bool> ViewWriter::add(const Entry& entry) {
    if (entry.kind == EntryKind::entryReversed) {
        return reverse(entry);
    }
    auto facts = massFactsOf(entry);
    if (!facts) {
        return facts.error();
    }
    const Moment moment{entry.occurred, entry.seq};
    const std::vector<std::string> serials = serialsOf(facts.value());
    const auto isMass = [&](const std::string& serial) {
        return std::binary_search(serials.begin(), serials.end(), serial);
    };
    const std::vector<std::string> texts = textsOf(entry, serials);
    for (const std::string& text : texts) {
        const auto serial = serialIn(text);
        m_subjects.addTouch(m_subjects.numberOf(text), moment, serial && isMass(*serial));
    }
    if (!isBare(facts.value())) {
        m_book.announce(moment, std::move(facts).value(), serials);
        const auto changed = post(m_book, moment, entry.seq);
        throwIfDatabaseFailed();
        if (!changed) {
            return changed.error();
        }
        for (const Account& account : changed.value()) {
            if (!isMass(account.name)) {
                m_cylinders.markStale(account.name);
            }
        }
    }
    for (const std::string& text : texts) {
        if (const auto serial = serialIn(text)) {
            m_cylinders.follow(*serial, entry, isMass(*serial));
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
    auto facts = massFactsOf(*target);
    if (!facts) {
        return facts.error();
    }
    const Moment moment{target->occurred, target->seq};
    const std::vector<std::string> serials = serialsOf(facts.value());
    std::vector<std::int64_t> subjects;
    for (const std::string& text : textsOf(*target, serials)) {
        subjects.push_back(m_subjects.numberOf(text));
        m_subjects.addTouch(subjects.back(), {entry.occurred, entry.seq}, false);
        if (const auto serial = serialIn(text)) {
            m_cylinders.markStale(*serial);
        }
    }
    m_subjects.reverse(moment, subjects, entry.seq);
    if (!isBare(facts.value())) {
        m_book.forget(serials);
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
    const Sequence head = headOf(database).seq;
    ViewWriter writer(database);
    Result<bool> done = true;
    visitEntries(database, 1, head, [&](const Entry& entry) {
        done = writer.add(entry);
        if (done && progress && entry.seq % kProgressStep == 0 && !progress(entry.seq, head)) {
            done = Error{"stopped before the end", "start again; nothing was changed"};
        }
        return done.ok();
    });
    if (done) {
        writer.finish(reviewer);
    }
    return done;
}

} // namespace tarebook
