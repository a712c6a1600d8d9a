#include "core/base/month_year.h"

#include <array>
#include <charconv>

#include <fmt/format.h>

#include "core/base/digits.h"
#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::string_view kAccepted = "write a month and year as 2024-03, 03/24 or Mar 2024";

Error unreadable(std::string_view text) {
    return Error{fmt::format("{} is not a month and year", tarebook::quoted(text)), std::string(kAccepted)};
}

bool readNumber(std::string_view text, int& number) {
    if (text.empty() || text.size() > 4) {
        return false;
    }
    const auto [end, code] = std::from_chars(text.data(), text.data() + text.size(), number);
    return code == std::errc() && end == text.data() + text.size() && number >= 0;
}

int monthByName(std::string_view name) {
    static constexpr std::array<std::string_view, 12> kNames = {
        "january", "february", "march",     "april",   "may",      "june",
        "july",    "august",   "september", "october", "november", "december"};
    const std::string lower = lowered(name);
    for (std::size_t place = 0; place < kNames.size(); ++place) {
        if (lower == kNames[place] || lower == kNames[place].substr(0, 3) ||
            (place == 8 && lower == "sept")) {
            return static_cast<int>(place) + 1;
        }
    }
    return 0;
}

} // namespace

Result<MonthYear> MonthYear::of(int year, int month) {
    if (month < 1 || month > 12 || year < 1900 || year > 2199) {
        return Error{fmt::format("there is no month {} of the year {}", month, year), std::string(kAccepted)};
    }
    return MonthYear(year * 12 + month - 1);
}

Result<MonthYear> MonthYear::parse(std::string_view text) {
    const std::string_view whole = trimmed(text);
    const std::size_t cut = whole.find_first_of("-/ .");
    if (cut == std::string_view::npos) {
        if (whole.size() == 5 && whole.find_first_not_of("0123456789") == std::string_view::npos) {
            return Error{
                fmt::format("{} looks like a spreadsheet's own number of a day", tarebook::quoted(text)),
                "format the column as a date and save again, or write it as 2024-03"};
        }
        return unreadable(text);
    }
    const std::string_view first = trimmed(whole.substr(0, cut));
    const std::string_view second = trimmed(whole.substr(cut + 1));
    const bool yearFirst =
        first.size() == 4 && first.find_first_not_of("0123456789") == std::string_view::npos;
    const std::string_view yearText = yearFirst ? first : second;
    const std::string_view monthText = yearFirst ? second : first;
    int year = 0;
    int month = monthByName(monthText);
    if (!readNumber(yearText, year) || (yearText.size() != 2 && yearText.size() != 4)) {
        return unreadable(text);
    }
    if (month == 0 && (monthText.size() > 2 || !readNumber(monthText, month))) {
        return unreadable(text);
    }
    if (yearText.size() == 2) {
        year += year < 50 ? 2000 : 1900;
    }
    return of(year, month);
}

std::string MonthYear::text() const {
    std::string text;
    addDigits(text, year(), 4);
    text += '-';
    addDigits(text, month(), 2);
    return text;
}

} // namespace tarebook
