#pragma once

#include <array>
#include <string>
#include <string_view>

#include "core/ledger/entry.h"

namespace tarebook {

/// What someone who signs in may do. The words stand in the journal and never change.
enum class Role { manager, storekeeper, technician, auditor };
inline constexpr std::array<Role, 4> kRoles = {Role::manager, Role::storekeeper, Role::technician,
                                               Role::auditor};

[[nodiscard]] std::string_view roleWord(Role role); // `manager`, ...
/// Error: no such role, with the four.
[[nodiscard]] Result<Role> roleFrom(std::string_view word);
/// Stands in the journal in place of a role for one who no longer signs in.
inline constexpr std::string_view kNoRole = "none";

/// Stands in an `operator_set` that gave a new passphrase, which itself stands nowhere.
inline constexpr std::string_view kPassphraseSet = "set";

/// How far a role may write entries of a kind: not at all; its own (the person that the entry names is the
/// one who writes it, and no cylinder of it is with somebody else); all.
enum class Leave { none, own, all };
/// The one table of who may write what. An `entry_reversed` is besides judged by the entry that it reverses.
[[nodiscard]] Leave leaveOf(Role role, EntryKind kind);
/// Who may write entries of the kind, as a clause: `a manager, a technician (what is their own) may`.
[[nodiscard]] std::string whoMay(EntryKind kind);

} // namespace tarebook
