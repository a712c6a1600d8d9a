#pragma once

#include <optional>

#include "core/store/database.h"
#include "core/store/store.h"

namespace tarebook {

/// Whether the one who is signed in may write what is about to be written. Made and asked within the
/// transaction that writes it, so that a role taken away by another program meanwhile counts. Throws
/// SqlFailure.
class WriterCheck {
public:
    WriterCheck(Database& database, const std::optional<SignedIn>& signedIn);
    /// Error says who may.
    [[nodiscard]] Result<bool> may(const Draft& draft) const;

private:
    [[nodiscard]] Result<bool> mayFirst(const Draft& draft) const;
    [[nodiscard]] Result<bool> mayReverse(const Draft& draft) const;
    [[nodiscard]] Result<bool> isOwn(const Draft& draft) const;
    [[nodiscard]] Error refusal(EntryKind kind) const;

    Database& m_database;
    bool m_any;                       // somebody signs in to this shop
    bool m_named = false;             // somebody had signed in here
    std::optional<SignedIn> m_writer; // as the file knows them now
};

} // namespace tarebook
