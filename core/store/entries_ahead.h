#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/ledger/facts.h"
#include "core/store/journal_table.h"

namespace tarebook {

/// What an entry is about.
struct EntrySubject {
    std::string text;   // as in the table of subjects
    std::string serial; // of a cylinder; empty for everything else
    bool mass = false;  // its masses are about this cylinder
};

/// What the views are made of as far as the entry says it itself, and no database is asked.
struct EntryFacts {
    explicit EntryFacts(const Entry& entry);

    Result<MassFacts> masses;
    std::vector<std::string> serials;   // cylinders of its masses, sorted
    std::vector<EntrySubject> subjects; // those cylinders too, sorted; none where masses are an Error
};

struct PreparedEntry {
    explicit PreparedEntry(Entry read) : entry(std::move(read)), facts(entry) {}

    Entry entry;
    EntryFacts facts;
};

/// The road through the whole journal: calls for each entry first..last in its order, with its body as the
/// file has it. The next entries, some thousand at most, are made on another core while the visitor is busy;
/// the database is asked by the caller's thread alone, between two calls of the visitor. False from the
/// visitor ends it. Throws SqlFailure, where a row is damaged before any of the rows read with it is visited,
/// and std::bad_alloc, wherever it was thrown.
void visitPrepared(Database& database, Sequence first, Sequence last,
                   const std::function<bool(PreparedEntry&, std::string_view body)>& visit);

} // namespace tarebook
