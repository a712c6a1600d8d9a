#include "core/rules/retest_facts.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::array<std::pair<std::string_view, ServiceKind>, 4> kServices = {
    {{"general", ServiceKind::general},
     {"recovery", ServiceKind::recovery},
     {"clean", ServiceKind::clean},
     {"ammonia", ServiceKind::ammonia}}};

bool allDigits(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

} // namespace

std::string serviceWord(ServiceKind service) {
    for (const auto& [word, kind] : kServices) {
        if (kind == service) {
            return std::string(word);
        }
    }
    return "general";
}

Result<ServiceKind> parseService(std::string_view text) {
    const std::string wanted = lowered(trimmed(text));
    for (const auto& [word, kind] : kServices) {
        if (word == wanted) {
            return kind;
        }
    }
    return Error{fmt::format("{} is no service", tarebook::quoted(text)),
                 "write recovery, clean, ammonia or general"};
}

Result<TestMark> TestMark::parse(std::string_view text, bool yearFirst) {
    const std::string_view whole = trimmed(text);
    if (!yearFirst) {
        const auto month = MonthYear::parse(whole);
        return month ? Result<TestMark>(TestMark{month.value(), false}) : month.error();
    }
    const std::size_t cut = whole.find_first_of("/-");
    const std::string_view year = trimmed(whole.substr(0, cut));
    if (cut == std::string_view::npos && year.size() == 4 && allDigits(year)) {
        const auto january = MonthYear::parse(fmt::format("{}-01", year));
        return january ? Result<TestMark>(TestMark{january.value(), true}) : january.error();
    }
    if (cut != std::string_view::npos && year.size() == 2 && allDigits(year)) {
        // Written back as month/year for the century rule of MonthYear.
        const auto month = MonthYear::parse(fmt::format("{}/{}", trimmed(whole.substr(cut + 1)), year));
        return month ? Result<TestMark>(TestMark{month.value(), false})
                     : Error{fmt::format("{} is not a year and month", tarebook::quoted(text)),
                             "write a European mark year first, as 19/05, 2019/05 or 2019"};
    }
    const auto month = MonthYear::parse(whole);
    return month ? Result<TestMark>(TestMark{month.value(), false}) : month.error();
}

Result<std::string> parseMarkSuffix(std::string_view text) {
    static constexpr std::array<std::string_view, 8> kLetters = {"S", "E", "R", "VE", "AE", "UE", "EX", "FS"};
    std::string wanted = lowered(trimmed(text));
    std::erase(wanted, '+');
    if (wanted.empty() || wanted == "none") {
        return std::string();
    }
    if (wanted == "star" || wanted == "*" || wanted == "\xE2\x98\x85") {
        return std::string("star");
    }
    for (const std::string_view letters : kLetters) {
        if (wanted == lowered(letters)) {
            return std::string(letters);
        }
    }
    return Error{fmt::format("{} is no mark behind a retest date", tarebook::quoted(text)),
                 "write S (proof test), E (visual inspection), star, R, VE, AE, UE or EX, or leave it empty"};
}

} // namespace tarebook
