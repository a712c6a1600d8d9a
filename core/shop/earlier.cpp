#include "core/shop/earlier.h"

#include <cstdlib>
#include <filesystem>

#include "core/store/earlier_books.h"

namespace tarebook {

namespace {

/// A new folder that only this user may enter.
Result<std::string> newFolder() {
    std::error_code problem;
    std::string name = (std::filesystem::temp_directory_path(problem) / "tarebook-XXXXXX").string();
    if (problem || ::mkdtemp(name.data()) == nullptr) {
        return Error{"no folder for temporary files can be made",
                     "see that TMPDIR names a folder that can be written, with room for a copy of the shop"};
    }
    return name;
}

} // namespace

EarlierBooks::EarlierBooks(std::string folder, Instant recorded)
    : m_folder(std::move(folder)), m_path(m_folder + "/shop.tarebook"), m_clock(recorded) {}

EarlierBooks::~EarlierBooks() {
    m_shop.reset();
    std::error_code problem;
    std::filesystem::remove_all(m_folder, problem);
}

Result<std::unique_ptr<EarlierBooks>>
EarlierBooks::make(Shop& shop, Sequence head, const Clock* clock,
                   const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    const auto entry = shop.store().entry(head);
    if (!entry) {
        return entry.error();
    }
    auto folder = newFolder();
    if (!folder) {
        return folder.error();
    }
    std::unique_ptr<EarlierBooks> books(new EarlierBooks(std::move(folder).value(), entry.value().recorded));
    const auto written =
        writeEarlierBooks(shop.store().path(), head, books->m_path, books->m_clock, progress);
    if (!written) {
        return written.error();
    }
    Environment environment = shop.environment();
    environment.clock = clock != nullptr ? clock : &books->m_clock;
    // Once for writing: every cylinder is judged by the rules of the day.
    auto opened = Shop::open(books->m_path, environment);
    if (opened.shop) {
        opened.shop.reset();
        opened = Shop::open(books->m_path, environment, true);
    }
    if (!opened.shop) {
        return opened.error;
    }
    books->m_shop = std::move(opened.shop);
    return books;
}

} // namespace tarebook
