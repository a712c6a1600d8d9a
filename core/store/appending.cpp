#include "core/store/appending.h"

#include <algorithm>
#include <unordered_map>

#include <fmt/format.h>

#include "core/store/attachment_table.h"
#include "core/store/journal_table.h"
#include "core/store/named_before.h"
#include "core/store/operator_table.h"
#include "core/store/subject_table.h"
#include "core/store/view_writer.h"
#include "core/store/writer_check.h"

namespace tarebook {

namespace {

constexpr std::int64_t kProgressStep = 256;

AppendAnswer refused(Error error) {
    AppendAnswer answer;
    answer.error = std::move(error);
    return answer;
}

Error inDraft(std::size_t place, std::size_t count, const Error& error) {
    return count == 1 ? error
                      : Error{fmt::format("entry {} of {}: {}", place + 1, count, error.wrong), error.right};
}

/// Where each draft stands in the journal already, 0 where it does not. Error: an id stands there with other
/// content.
Result<std::vector<Sequence>> standing(Database& database, const std::vector<Draft>& drafts) {
    std::vector<Sequence> places(drafts.size(), 0);
    for (std::size_t place = 0; place < drafts.size(); ++place) {
        const auto entry = entryWithId(database, drafts[place].id);
        if (!entry) {
            continue;
        }
        if (!sameContent(*entry, drafts[place])) {
            return inDraft(
                place, drafts.size(),
                {fmt::format("the id {} stands for another entry, {}", drafts[place].id, entry->seq),
                 "make a fresh id"});
        }
        places[place] = entry->seq;
    }
    return places;
}

/// Another entry about what was looked at has come since. Drafts that all stand in the journal already were
/// not outrun: they are tried a second time.
bool isOutrun(Database& database, const LookedAt& looked, const std::vector<Draft>& drafts) {
    if (headOf(database).seq <= looked.head) {
        return false;
    }
    const bool changed =
        looked.subjects.empty() ||
        std::any_of(looked.subjects.begin(), looked.subjects.end(),
                    [&](const auto& subject) { return newestTouch(database, subject) > looked.head; });
    const auto places = standing(database, drafts);
    return changed && (!places || std::count(places.value().begin(), places.value().end(), 0) > 0);
}

AppendAnswer outrun() {
    AppendAnswer answer = refused({"the books were changed at another desk meanwhile", "look again"});
    answer.outrun = true;
    return answer;
}

/// One append, from BEGIN to just before COMMIT.
class Writing {
public:
    Writing(Store::Inside& inside, const std::vector<Draft>& drafts,
            const std::function<bool(std::int64_t, std::int64_t)>& progress, const std::string& verifier)
        : m_database(inside.file->database()), m_now(inside.clock.now()), m_drafts(drafts),
          m_progress(progress), m_verifier(verifier), m_writer(m_database, inside.signedIn),
          m_views(m_database), m_head(headOf(m_database)) {}

    Result<bool> write(const Reviewer& reviewer) {
        for (std::size_t place = 0; place < m_drafts.size(); ++place) {
            const auto written = writeOne(m_drafts[place]);
            if (!written) {
                return inDraft(place, m_drafts.size(), written.error());
            }
            const auto done = static_cast<std::int64_t>(place + 1);
            const auto total = static_cast<std::int64_t>(m_drafts.size());
            if (m_progress && (done % kProgressStep == 0 || done == total) && !m_progress(done, total)) {
                return Error{"stopped before the end", "start again; nothing was written"};
            }
        }
        if (m_new) {
            m_views.finish(reviewer);
        }
        return m_new;
    }

    [[nodiscard]] std::vector<Sequence> places() const { return m_places; }

private:
    Result<bool> writeOne(const Draft& draft) {
        if (const auto known = entryWithId(m_database, draft.id)) {
            if (!sameContent(*known, draft)) {
                return Error{fmt::format("the id {} stands for another entry, {}", draft.id, known->seq),
                             "make a fresh id"};
            }
            m_places.push_back(known->seq);
            return true;
        }
        if (auto may = m_writer.may(draft); !may) {
            return may;
        }
        Entry entry;
        static_cast<Draft&>(entry) = draft;
        entry.seq = m_head.seq + 1;
        entry.recorded = m_now;
        entry.previous = m_head.digest;
        if (entry.kind == EntryKind::attached) {
            if (auto kept = keepFile(m_database, draft); !kept) {
                return kept;
            }
            entry.file.clear();
        }
        const std::string body = entry.body.dump();
        entry.digest = digestOf(entry, body);
        insertEntry(m_database, entry, body);
        m_head = {entry.seq, entry.digest};
        m_places.push_back(entry.seq);
        m_new = true;
        if (entry.kind == EntryKind::operatorSet) {
            if (auto followed = followOperator(m_database, entry, m_verifier); !followed) {
                return followed;
            }
        }
        return m_views.add(entry);
    }

    Database& m_database;
    Instant m_now;
    const std::vector<Draft>& m_drafts;
    const std::function<bool(std::int64_t, std::int64_t)>& m_progress;
    const std::string& m_verifier;
    WriterCheck m_writer;
    ViewWriter m_views;
    Head m_head;
    std::vector<Sequence> m_places;
    bool m_new = false;
};

AppendAnswer answered(Outcome outcome, std::vector<Sequence> places) {
    AppendAnswer answer;
    answer.outcome = outcome;
    answer.entries = std::move(places);
    return answer;
}

/// After a COMMIT that reported a failure: are the entries there?
AppendAnswer settled(ShopFile& file, const std::vector<Draft>& drafts, const Error& why) {
    file.close();
    try {
        const auto places = standing(file.database(), drafts);
        if (!places) {
            return refused(places.error());
        }
        for (const Sequence place : places.value()) {
            if (place == 0) {
                return refused(why);
            }
        }
        if (file.doubtful()) {
            file.rewrite();
        }
        return answered(Outcome::recorded, places.value());
    } catch (const SqlFailure& failure) {
        file.note(failure);
        file.close();
    } catch (const std::bad_alloc&) {
        file.close();
    }
    AppendAnswer answer;
    answer.outcome = Outcome::unknown;
    answer.error = {why.wrong + " while the entry was being kept", "the program checks whether it is there"};
    return answer;
}

} // namespace

AppendAnswer appendDrafts(Store::Inside& inside, const std::vector<Draft>& drafts,
                          const std::function<bool(std::int64_t, std::int64_t)>& progress,
                          const std::string& verifier, const std::optional<LookedAt>& looked) {
    ShopFile& file = *inside.file;
    if (inside.signedIn && inside.signedIn->role == Role::auditor) {
        return refused(
            {inside.signedIn->name + ", auditor, only reads", "sign in as somebody who may write"});
    }
    if (file.readOnly()) {
        return refused({"the shop file is open for reading only: nothing was written",
                        "restore a backup where it is damaged, or let it be written"});
    }
    bool committing = false;
    const ShopFile::Use use(file);
    try {
        const KnownName isKnown = [&](const std::string& name) { return isNamed(file.database(), name); };
        for (std::size_t place = 0; place < drafts.size(); ++place) {
            if (const auto valid = validated(drafts[place], isKnown); !valid) {
                return refused(inDraft(place, drafts.size(), valid.error()));
            }
        }
        if (file.doubtful()) {
            file.rewrite();
        }
        WriteTransaction transaction(file.database());
        if (looked && isOutrun(file.database(), *looked, drafts)) {
            return outrun();
        }
        Writing writing(inside, drafts, progress, verifier);
        const auto written = writing.write(inside.reviewer);
        if (!written) {
            return refused(written.error());
        }
        if (!written.value()) {
            return answered(Outcome::alreadyRecorded, writing.places());
        }
        committing = true;
        transaction.commit();
        return answered(Outcome::recorded, writing.places());
    } catch (const SqlFailure& failure) {
        file.note(failure);
        if (!committing || failure.primary() == SQLITE_BUSY) {
            return refused(errorOf(failure));
        }
        return settled(file, drafts, errorOf(failure));
    } catch (const std::bad_alloc&) {
        const Error why{"there is not enough memory", "close other programs and try again"};
        return committing ? settled(file, drafts, why) : refused(why);
    }
}

} // namespace tarebook
