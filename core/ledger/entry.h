#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/base/instant.h"
#include "core/base/result.h"

namespace tarebook {

/// Number of an entry in its journal: 1, 2, 3, ... without gaps.
using Sequence = std::int64_t;

/// What an entry says. The words in the journal are in entryKindWord(); they never change.
enum class EntryKind {
    cylinderRegistered,
    marksRestated,
    inspected,
    retested,
    condemned,
    retired,
    handedOut,
    handedOver,
    returned,
    locationChanged,
    weighed,
    opened, // was there when the books began
    bought,
    recovered,
    charged,
    decanted,
    released,
    evacuated,
    sampleAnalysed,
    batchPrepared,
    batchShipped,
    batchReceived,
    batchSettled,
    entryReversed,
    personSet,
    siteSet,
    systemSet,
    partySet,   // a supplier, reclaimer or destroyer
    machineSet, // a recovery machine
    jobSet,
    settingSet,
    findingOverruled,
    paperIssued,
    operatorSet, // who may sign in, in which role; never a secret
    attached,    // a file belongs to an entry: a photo, a ticket, a certificate
};

[[nodiscard]] std::string_view entryKindWord(EntryKind kind); // `cylinder_registered`, ...
[[nodiscard]] Result<EntryKind> entryKindFrom(std::string_view word);

/// An entry before it stands in the journal: what the caller knows. The id is made before the first attempt,
/// so that a retry after an unknown outcome answers 'already recorded'.
struct Draft {
    std::string id; // unique, 1 to 64 printable ASCII characters
    std::string operatorName;
    Instant occurred; // when it happened
    std::string zone; // the shop's time zone then, as America/Chicago
    EntryKind kind = EntryKind::weighed;
    nlohmann::json body;   // object; masses are integers of milligrams under keys that end in _mg
    std::string file = {}; // bytes of the file of an `attached`, until it stands in the journal
};

/// An entry of the journal: immutable, chained to the one before it.
struct Entry : Draft {
    Sequence seq = 0;
    Instant recorded;     // when it was written down
    std::string previous; // digest of the entry before it; 64 zeros for the first
    std::string digest;
};

inline constexpr std::string_view kGenesisDigest =
    "0000000000000000000000000000000000000000000000000000000000000000";

/// Appends a text as the canonical text has it: a JSON string.
void appendJsonText(std::string& text, std::string_view value);
/// The canonical text that is hashed and exported: one JSON object, UTF-8, keys sorted by bytes, no
/// insignificant space, numbers as integers; without the digest.
[[nodiscard]] std::string canonicalText(const Entry& entry);
/// SHA-256 of (previous, a line feed, canonicalText), in lower-case hex.
[[nodiscard]] std::string digestOf(const Entry& entry);
/// The same for a caller who has `entry.body.dump()` at hand.
[[nodiscard]] std::string digestOf(const Entry& entry, std::string_view body);
/// The line of the export: the canonical object with its digest added, keys sorted.
[[nodiscard]] std::string exportLine(const Entry& entry);
/// Reads what exportLine wrote. Error names the missing or wrong field.
[[nodiscard]] Result<Entry> readExportLine(std::string_view line);

/// Refuses what the journal does not take: a bad id, text that is not UTF-8 or has control characters or line
/// breaks in it (controlIn(); every text stands on one line), a number that is not an integer, a body that is
/// not an object or lacks what its kind needs, an occurred outside 1900 to 2199. Entries that earlier
/// versions wrote are read as they are, and a name of theirs with such characters can be named again:
/// `isKnown` is asked whether the books hold it already.
using KnownName = std::function<bool(const std::string&)>;
[[nodiscard]] Result<bool> validated(const Draft& draft, const KnownName& isKnown = {});

/// Every subject that the entry is about, as account or subject texts: `cylinder:A101`, `person:NAME`,
/// `system:SITE/TAG`, `site:SITE`, `supplier:NAME`, `machine:NAME`,
/// `job:J-1`, `batch:B-1`, `setting:units`, `operator:NAME`.
/// Sorted, no repeats. For entryReversed only the reversed entry's own seq is in the body: the caller adds
/// the subjects of that entry.
[[nodiscard]] std::vector<std::string> subjectsOf(const Draft& draft);

} // namespace tarebook
