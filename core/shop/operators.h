#pragma once

#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// Sets up somebody who signs in; the first of a shop must be a manager, and is the one who writes from then
/// on. Error: the name is taken or blank, the passphrase too short, or the one who is signed in is no
/// manager.
[[nodiscard]] Recorded addOperator(Shop& shop, const std::string& name, Role role,
                                   const std::string& passphrase);
/// Error: no such operator, or nobody would be a manager.
[[nodiscard]] Recorded changeRole(Shop& shop, const std::string& name, Role role);
/// A manager for anybody, others for themselves; who was signed in with the old one must sign in again.
[[nodiscard]] Recorded changePassphrase(Shop& shop, const std::string& name, const std::string& passphrase);
/// They no longer sign in; what they wrote keeps their name.
[[nodiscard]] Recorded removeOperator(Shop& shop, const std::string& name);

/// Signs in; entries carry the name from then on. `now` is the machine's clock, never that of a replay.
[[nodiscard]] Result<SignedIn> signIn(Shop& shop, const std::string& name, const std::string& passphrase,
                                      Instant now);
/// Whether entries of the kind may be written here: nobody signs in to the shop, or the role of who is signed
/// in has them, its own at least.
[[nodiscard]] bool may(Shop& shop, EntryKind kind);

} // namespace tarebook
