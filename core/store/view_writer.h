#pragma once

#include <vector>

#include "core/store/cylinder_table.h"
#include "core/store/entries_ahead.h"
#include "core/store/leg_book.h"

namespace tarebook {

/// Brings the views after entries of the journal, within one transaction of the caller. The only road from
/// the journal to the views: appending, rebuilding and verifying all take it. Throws SqlFailure.
class ViewWriter {
public:
    explicit ViewWriter(Database& database)
        : m_database(database), m_subjects(database), m_book(database, m_subjects),
          m_cylinders(database, m_subjects, m_book) {}

    /// The entry stands in the journal as its newest. Error: it reverses what cannot be reversed, or its
    /// masses cannot be read.
    [[nodiscard]] Result<bool> add(const Entry& entry) { return add(entry, EntryFacts(entry)); }
    /// For a caller who has its facts at hand.
    [[nodiscard]] Result<bool> add(const Entry& entry, const EntryFacts& facts);
    /// Writes the rows of touches and legs that wait in memory.
    void writeHeld() {
        m_subjects.writeTouches();
        m_book.writeLegs();
    }
    /// Writes the cylinders touched, with the reviewer's opinion of each, and the sums.
    void finish(const Reviewer& reviewer) {
        writeHeld();
        m_book.writeFlows();
        m_cylinders.write(reviewer);
    }

private:
    [[nodiscard]] Result<bool> reverse(const Entry& entry);
    void throwIfDatabaseFailed() const;

    Database& m_database;
    SubjectTable m_subjects;
    StoreLegBook m_book;
    CylinderTable m_cylinders;
};

/// Empties every view and makes it anew from the journal. `progress` may return false to end it early, which
/// is an Error. Within a transaction of the caller.
[[nodiscard]] Result<bool> rebuildViews(Database& database, const Reviewer& reviewer,
                                        const std::function<bool(std::int64_t, std::int64_t)>& progress);

} // namespace tarebook
