#include "core/shop/head_asked.h"

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::size_t kFewest = 16; // that papers print
constexpr std::size_t kAll = 64;
constexpr const char* kRight = "give all 16 digits that the paper has, or the 64 of the whole digest";

} // namespace

Result<std::string> readHead(const std::string& text) {
    std::string digits = text;
    for (const std::string_view mark : {"…", "...", " ", "\t", "\n", "\r", "\u00a0"}) {
        for (std::size_t place = digits.find(mark); place != std::string::npos; place = digits.find(mark)) {
            digits.erase(place, mark.size());
        }
    }
    digits = lowered(digits);
    if (digits.empty()) {
        return Error{"no digest is given", kRight};
    }
    if (digits.find_first_not_of("0123456789abcdef") != std::string::npos || digits.size() > kAll) {
        return Error{fmt::format("{} is no digest", tarebook::quoted(text)), kRight};
    }
    if (digits.size() < kFewest) {
        return Error{fmt::format("{} has {} digits: so few may fit an entry by chance",
                                 tarebook::quoted(text), digits.size()),
                     kRight};
    }
    return digits;
}

Result<std::optional<Sequence>> entryOfHead(Shop& shop, const std::string& digits) {
    std::optional<Sequence> found;
    const auto read = shop.store().eachLegibleEntry([&](const Entry& entry) {
        if (entry.digest.starts_with(digits)) {
            found = entry.seq;
        }
        return !found;
    });
    if (!read) {
        return read.error();
    }
    return found;
}

} // namespace tarebook
