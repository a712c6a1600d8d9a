#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/store/database.h"
#include "core/store/store.h"

namespace tarebook {

/// SQL of the third version of the file: who may sign in. Not a view: the verifiers stand nowhere else.
extern const char* const kOperatorSchemaV3;

/// The table of those who sign in. A file of an older version that is only read has none. All throw
/// SqlFailure.
[[nodiscard]] bool anyOperator(Database& database);
[[nodiscard]] std::vector<Operator> operatorsOf(Database& database);
/// As the file knows them now; nothing when the name does not sign in, or its passphrase has been set anew
/// since.
[[nodiscard]] std::optional<SignedIn> stillSignedIn(Database& database, const SignedIn& signedIn);
/// Follows an `operator_set` that was just written. `verifier` where it set a passphrase, else empty. Error:
/// it would leave the shop without a manager, or somebody without a passphrase.
[[nodiscard]] Result<bool> followOperator(Database& database, const Entry& entry,
                                          const std::string& verifier);
/// Checks a passphrase. The try is counted before it is looked at, so that none goes uncounted however many
/// programs try at once; a file that cannot be written counts none. Error: no such name, wrong, or still to
/// wait, each with what to do.
[[nodiscard]] Result<SignedIn> signInto(Database& database, const std::string& name,
                                        const std::string& passphrase, Instant now, bool counts);
/// Seconds to wait after so many wrong tries in a row: none before the fifth, then 30, 60, 120 ... 3600.
[[nodiscard]] std::int64_t waitAfter(std::int64_t wrongTries);
/// Where the table and the journal differ about who is what; empty when they do not.
[[nodiscard]] std::vector<std::string> operatorProblems(Database& database);

} // namespace tarebook
