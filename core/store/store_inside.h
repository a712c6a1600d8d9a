#pragma once

#include <memory>
#include <new>
#include <optional>

#include "core/store/journal_table.h"
#include "core/store/shop_file.h"
#include "core/store/store.h"

namespace tarebook {

/// What a Store holds.
struct Store::Inside {
    std::unique_ptr<ShopFile> file;
    const Clock& clock;
    Reviewer reviewer;
    std::optional<SignedIn> signedIn = {};
    std::optional<Head> wreckHead = {}; // see lastLegible()

    /// Of a damaged file that is only read, and whose newest entry cannot be: the last that can. Read once.
    [[nodiscard]] const Head& lastLegible();

    /// Runs the work on the connection; failures of SQLite become Errors.
    template <typename Work> auto ask(Work work) -> Result<decltype(work(std::declval<Database&>()))> {
        const ShopFile::Use use(*file);
        try {
            return work(file->database());
        } catch (const SqlFailure& failure) {
            file->note(failure);
            return errorOf(failure);
        } catch (const std::bad_alloc&) {
            return Error{"there is not enough memory", "close other programs and try again"};
        }
    }
};

} // namespace tarebook
