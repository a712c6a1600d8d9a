#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/store/store.h"
#include "core/store/subject_table.h"

namespace tarebook {

/// Which record an entry states.
struct RecordKey {
    std::string kind;    // person, site, system, party, machine, job, batch, setting, operator
    std::string key;     // the name; SITE/TAG of a system; `supplier:NAME` of a party
    std::string subject; // as in the table of subjects

    bool operator==(const RecordKey&) const = default;
};
[[nodiscard]] std::optional<RecordKey> recordKeyOf(const Draft& draft);

/// Takes over what the entry states: its body is merged (RFC 7396) into what earlier entries said; a batch
/// also keeps its newest kind as `status`. Throws SqlFailure.
void followRecord(Database& database, SubjectTable& subjects, const Entry& entry);
/// Makes the record anew from its entries, in time order; it goes away when none is left.
void refoldRecord(Database& database, SubjectTable& subjects, const RecordKey& key);
[[nodiscard]] std::vector<Record> recordsOf(Database& database, const std::string& kind);
/// Those whose text `field` lies between the two texts, both included. Throws SqlFailure.
[[nodiscard]] std::vector<Record> recordsBetween(Database& database, const std::string& kind,
                                                 const std::string& field, const std::string& from,
                                                 const std::string& to);
/// Keys of those whose text `field` is the word (letters that JSON writes as they are), each with the moment
/// at which its entry occurred. Throws SqlFailure.
[[nodiscard]] std::vector<std::pair<std::string, Instant>>
recordMoments(Database& database, const std::string& kind, const std::string& field, const std::string& word);
[[nodiscard]] std::optional<Record> recordWith(Database& database, const std::string& kind,
                                               const std::string& key);

} // namespace tarebook
