#pragma once

#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/store/leg_book.h"
#include "core/store/store.h"

namespace tarebook {

/// One cylinder folded from its entries, as the books stood at `head` (kNow for the present). Nothing when it
/// was not registered. Throws SqlFailure.
[[nodiscard]] std::optional<CylinderState> foldedCylinder(Database& database, const std::string& serial,
                                                          Sequence head);
/// Its marks as the books stood then, from the entries that say something of marks. Throws SqlFailure.
[[nodiscard]] std::optional<Nameplate> foldedNameplate(Database& database, const std::string& serial,
                                                       Sequence head);
/// The state kept beside its row.
[[nodiscard]] std::optional<CylinderState> keptCylinder(Database& database, const std::string& serial);
/// Those kept that are not retired or hold something all the same, by serial, at most so many behind a
/// serial. Throws SqlFailure.
[[nodiscard]] std::vector<CylinderState> keptCylinders(Database& database, const std::string& after,
                                                       int most);

/// Asks the reviewer about every cylinder anew; the states stay as they are. Throws SqlFailure.
void reviewCylinders(Database& database, const Reviewer& reviewer);

/// The cylinders that one transaction touches: their states follow the entries, and are written once.
class CylinderTable {
public:
    CylinderTable(Database& database, SubjectTable& subjects, StoreLegBook& book)
        : m_database(database), m_subjects(subjects), m_book(book) {}

    /// The entry touches the cylinder and is posted already.
    void follow(const std::string& serial, const Entry& entry, bool mass);
    /// What was known of it is void: it is folded anew from its entries at the end.
    void markStale(const std::string& serial);
    /// Writes all of them with the reviewer's opinion. Returns their number.
    std::int64_t write(const Reviewer& reviewer);

private:
    struct Kept {
        std::optional<CylinderState> state; // nothing before its registration
        std::optional<Moment> newest;
        bool stale = false;
    };
    [[nodiscard]] Kept& kept(const std::string& serial, Sequence except);

    Database& m_database;
    SubjectTable& m_subjects;
    StoreLegBook& m_book;
    std::unordered_map<std::string, Kept> m_kept; // by serial
};

} // namespace tarebook
