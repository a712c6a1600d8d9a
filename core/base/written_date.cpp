#include "core/base/written_date.h"

#include <charconv>
#include <vector>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

bool isDigits(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

/// The number, or -1 when the text is not one of at most four digits.
int numberOf(std::string_view text) {
    int number = -1;
    if (isDigits(text) && text.size() <= 4) {
        std::from_chars(text.data(), text.data() + text.size(), number);
    }
    return number;
}

/// Two digits are 1950 to 2049; -1 when the text is no year.
int yearOf(std::string_view text) {
    const int number = numberOf(text);
    if (text.size() == 2 && number >= 0) {
        return number < 50 ? 2000 + number : 1900 + number;
    }
    return text.size() == 4 ? number : -1;
}

/// 1 to 12 for the name of a month, or 0.
int monthNamed(std::string_view name) {
    const auto month =
        isDigits(name) ? Result<MonthYear>(Error{}) : MonthYear::parse(std::string(name) + " 2000");
    return month ? month.value().month() : 0;
}

std::string_view example(DateOrder order) {
    return order == DateOrder::monthFirst ? "write a day as 2026-09-14 or 9/14/2026"
                                          : "write a day as 2026-09-14 or 14/9/2026";
}

/// The parts between strokes, points, dashes, commas and spaces, and the first such mark.
std::vector<std::string_view> partsOf(std::string_view text, char& mark) {
    constexpr std::string_view kMarks = "/.-, ";
    std::vector<std::string_view> parts;
    mark = '\0';
    while (!text.empty() && parts.size() < 4) {
        const std::size_t end = text.find_first_of(kMarks);
        parts.push_back(text.substr(0, end));
        if (end == std::string_view::npos) {
            break;
        }
        mark = mark == '\0' ? text[end] : mark;
        const std::size_t next = text.find_first_not_of(kMarks, end);
        text = next == std::string_view::npos ? std::string_view() : text.substr(next);
    }
    return parts;
}

Result<Date> numbersInOrder(const std::vector<std::string_view>& parts, char mark, DateOrder order,
                            std::string_view text) {
    const bool dayFirst = mark == '.' || order == DateOrder::dayFirst;
    const int year = yearOf(parts[2]);
    const int month = numberOf(parts[dayFirst ? 1 : 0]);
    const int day = numberOf(parts[dayFirst ? 0 : 1]);
    if (month > 12 && day >= 1 && day <= 12 && mark != '.' && Date::of(year, day, month)) {
        return Error{fmt::format("{} has no such month when the {} stands first, as this shop writes it",
                                 tarebook::quoted(text), dayFirst ? "day" : "month"),
                     fmt::format("write {}", Date::of(year, day, month).value().text())};
    }
    return Date::of(year, month, day);
}

} // namespace

Result<Date> readDate(std::string_view text, DateOrder order) {
    const std::string whole = tidied(text);
    const Error unreadable{fmt::format("{} is not a day", tarebook::quoted(whole)),
                           std::string(example(order))};
    if (whole.size() > 40) {
        return unreadable;
    }
    if (whole.size() == 8 && isDigits(whole)) {
        return Date::of(numberOf(whole.substr(0, 4)), numberOf(whole.substr(4, 2)),
                        numberOf(whole.substr(6, 2)));
    }
    if (whole.size() == 5 && isDigits(whole)) {
        return Error{
            fmt::format("{} looks like a spreadsheet's own number of a day", tarebook::quoted(whole)),
            "format the column as a date and save again"};
    }
    char mark = '\0';
    const auto parts = partsOf(whole, mark);
    if (parts.size() != 3) {
        return unreadable;
    }
    if (const int month = monthNamed(parts[1]); month > 0 && numberOf(parts[0]) > 0 && yearOf(parts[2]) > 0) {
        return Date::of(yearOf(parts[2]), month, numberOf(parts[0]));
    }
    if (const int month = monthNamed(parts[0]); month > 0 && numberOf(parts[1]) > 0 && yearOf(parts[2]) > 0) {
        return Date::of(yearOf(parts[2]), month, numberOf(parts[1]));
    }
    if (numberOf(parts[0]) < 0 || numberOf(parts[1]) < 0 || numberOf(parts[2]) < 0) {
        return unreadable;
    }
    if (parts[0].size() == 4) {
        return Date::of(numberOf(parts[0]), numberOf(parts[1]), numberOf(parts[2]));
    }
    if ((mark != '/' && mark != '.') || yearOf(parts[2]) < 0) {
        return unreadable;
    }
    return numbersInOrder(parts, mark, order, whole);
}

Result<MonthYear> readMonth(std::string_view text, DateOrder order) {
    const std::string whole = tidied(text);
    auto month = MonthYear::parse(whole);
    if (month) {
        return month;
    }
    char mark = '\0';
    if (whole.size() > 40 || (partsOf(whole, mark).size() != 3 && whole.size() != 8)) {
        return month;
    }
    const auto day = readDate(whole, order);
    if (!day) {
        return Error{day.error().wrong, "write a month and year as 2024-03, 03/24 or Mar 2024"};
    }
    return day.value().month();
}

Result<WrittenMoment> readMoment(std::string_view text, DateOrder order) {
    const std::string whole = tidied(text);
    const std::size_t colon = whole.find(':');
    if (colon == std::string::npos) {
        const auto day = readDate(whole, order);
        return day ? Result<WrittenMoment>(WrittenMoment{day.value(), std::nullopt})
                   : Result<WrittenMoment>(day.error());
    }
    const std::size_t cut = whole.find_last_of(" Tt", colon);
    const Error unreadable{fmt::format("{} is not a day and a time", tarebook::quoted(whole)),
                           "write it as 2026-09-14 16:30, or with its offset as 2026-09-14T16:30:00-05:00"};
    if (cut == std::string::npos || whole.size() > 60) {
        return unreadable;
    }
    const auto day = readDate(std::string_view(whole).substr(0, cut), order);
    if (!day) {
        return day.error();
    }
    std::string clock = lowered(std::string_view(whole).substr(cut + 1));
    const bool morning = clock.ends_with("am");
    const bool afternoon = clock.ends_with("pm");
    if (morning || afternoon) {
        clock = std::string(trimmed(std::string_view(clock).substr(0, clock.size() - 2)));
    }
    const auto parts = split(clock, ':');
    int hour = numberOf(parts[0]);
    const int minute = parts.size() < 2 ? -1 : numberOf(parts[1]);
    const int second = parts.size() < 3 ? 0 : numberOf(parts[2]);
    const bool twelve = morning || afternoon;
    if (parts.size() < 2 || parts.size() > 3 || parts[1].size() != 2 || minute < 0 || minute > 59 ||
        second < 0 || second > 59 || hour < (twelve ? 1 : 0) || hour > (twelve ? 12 : 23)) {
        return unreadable;
    }
    hour = twelve ? hour % 12 + (afternoon ? 12 : 0) : hour;
    return WrittenMoment{day.value(), hour * 60 + minute};
}

} // namespace tarebook
