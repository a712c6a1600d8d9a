#pragma once

#include <functional>
#include <memory>
#include <string>

#include "core/shop/shop.h"

namespace tarebook {

/// The books of a shop as they stood when an entry was the newest, as a shop of its own that is only read:
/// every question can be asked of it, and has the answer that it had then, whatever was entered since. Now is
/// the moment at which that entry was recorded; verdicts are those of that day, by the program of today. It
/// lies in a folder of its own among the temporary ones, readable by this user only, and goes away with the
/// object.
class EarlierBooks {
public:
    /// `clock`, where given, is asked for now instead; it must outlive the object. `progress` as in
    /// writeEarlierBooks(). Error: no such entry, stopped, or no room among the temporary files.
    [[nodiscard]] static Result<std::unique_ptr<EarlierBooks>>
    make(Shop& shop, Sequence head, const Clock* clock = nullptr,
         const std::function<bool(std::int64_t, std::int64_t)>& progress = {});
    EarlierBooks(const EarlierBooks&) = delete;
    EarlierBooks& operator=(const EarlierBooks&) = delete;
    ~EarlierBooks();

    [[nodiscard]] Shop& shop() { return *m_shop; }
    /// When the entry was recorded.
    [[nodiscard]] Instant recorded() const { return m_clock.now(); }
    [[nodiscard]] const std::string& path() const { return m_path; }
    /// Takes the shop out, for a window that owns it; the file stays as long as this object.
    [[nodiscard]] std::unique_ptr<Shop> take() { return std::move(m_shop); }

private:
    EarlierBooks(std::string folder, Instant recorded);

    std::string m_folder;
    std::string m_path;
    SetClock m_clock;
    std::unique_ptr<Shop> m_shop;
};

} // namespace tarebook
