#include "core/base/zone_rule.h"

#include <chrono>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

namespace chrono = std::chrono;

constexpr std::int64_t kDaySeconds = 86'400;
constexpr int kMostHours = 167;

/// Reads the rule from left to right; once something does not fit, nothing is read any more.
class RuleReader {
public:
    explicit RuleReader(std::string_view text) : m_rest(text) {}
    [[nodiscard]] bool ok() const { return m_ok; }
    [[nodiscard]] bool atEnd() const { return m_rest.empty(); }
    [[nodiscard]] char peek() const { return m_rest.empty() ? '\0' : m_rest.front(); }

    bool take(char wanted) {
        if (peek() != wanted || m_rest.empty()) {
            return false;
        }
        m_rest.remove_prefix(1);
        return true;
    }

    void need(char wanted) { m_ok = take(wanted) && m_ok; }

    int number(int least, int most) {
        int value = 0;
        int digits = 0;
        while (peek() >= '0' && peek() <= '9' && digits < 4) {
            value = value * 10 + (peek() - '0');
            m_rest.remove_prefix(1);
            ++digits;
        }
        m_ok = m_ok && digits > 0 && value >= least && value <= most;
        return m_ok ? value : least;
    }

    /// `CST` or `<-03>`.
    void designation() {
        const bool bracketed = take('<');
        std::size_t length = 0;
        while (!m_rest.empty() && (bracketed ? peek() != '>' : isLetter(peek()))) {
            m_rest.remove_prefix(1);
            ++length;
        }
        if (bracketed) {
            need('>');
        }
        m_ok = m_ok && length >= 3;
    }

    /// `6`, `-5:30`, `+2:00:00` in seconds.
    int time() {
        const bool negative = take('-');
        if (!negative) {
            take('+');
        }
        int seconds = 3'600 * number(0, kMostHours);
        if (take(':')) {
            seconds += 60 * number(0, 59);
            if (take(':')) {
                seconds += number(0, 59);
            }
        }
        return negative ? -seconds : seconds;
    }

    ZoneChange change() {
        ZoneChange change;
        if (take('M')) {
            change.month = number(1, 12);
            need('.');
            change.week = number(1, 5);
            need('.');
            change.day = number(0, 6);
        } else if (take('J')) {
            change.kind = ZoneChange::Kind::withoutLeapDay;
            change.day = number(1, 365);
        } else {
            change.kind = ZoneChange::Kind::withLeapDay;
            change.day = number(0, 365);
        }
        if (take('/')) {
            change.seconds = time();
        }
        return change;
    }

private:
    static bool isLetter(char character) {
        return (character >= 'A' && character <= 'Z') || (character >= 'a' && character <= 'z');
    }

    std::string_view m_rest;
    bool m_ok = true;
};

std::int64_t dayNumber(chrono::year_month_day day) {
    return chrono::sys_days(day).time_since_epoch().count();
}

} // namespace

std::int64_t ZoneChange::localSeconds(int year) const {
    const chrono::year calendarYear(year);
    std::int64_t found = dayNumber(calendarYear / chrono::January / 1);
    if (kind == Kind::withLeapDay) {
        found += day;
    } else if (kind == Kind::withoutLeapDay) {
        found += day - 1 + (calendarYear.is_leap() && day >= 60 ? 1 : 0);
    } else {
        const chrono::month calendarMonth(static_cast<unsigned>(month));
        const chrono::weekday weekday(static_cast<unsigned>(day));
        found = chrono::sys_days(
                    week == 5 ? chrono::year_month_day(calendarYear / calendarMonth / weekday[chrono::last])
                              : chrono::year_month_day(calendarYear / calendarMonth /
                                                       weekday[static_cast<unsigned>(week)]))
                    .time_since_epoch()
                    .count();
    }
    return found * kDaySeconds + seconds;
}

int ZoneRule::offsetAt(std::int64_t utcSeconds) const {
    if (!hasSummer) {
        return standardOffset;
    }
    const std::int64_t localDays =
        chrono::floor<chrono::days>(chrono::seconds(utcSeconds + standardOffset)).count();
    const chrono::year_month_day day{chrono::sys_days(chrono::days(localDays))};
    const int year = static_cast<int>(day.year());
    const std::int64_t begins = summerBegins.localSeconds(year) - standardOffset;
    const std::int64_t ends = summerEnds.localSeconds(year) - summerOffset;
    const bool summer =
        begins < ends ? utcSeconds >= begins && utcSeconds < ends : utcSeconds >= begins || utcSeconds < ends;
    return summer ? summerOffset : standardOffset;
}

Result<ZoneRule> ZoneRule::parse(std::string_view text) {
    RuleReader reader(text);
    ZoneRule rule;
    reader.designation();
    rule.standardOffset = -reader.time();
    if (!reader.atEnd()) {
        rule.hasSummer = true;
        reader.designation();
        rule.summerOffset = reader.peek() == ',' ? rule.standardOffset + 3'600 : -reader.time();
        reader.need(',');
        rule.summerBegins = reader.change();
        reader.need(',');
        rule.summerEnds = reader.change();
    }
    if (!reader.ok() || !reader.atEnd()) {
        return Error{fmt::format("{} is no rule of a time zone", tarebook::quoted(text)),
                     "it should read as CST6CDT,M3.2.0,M11.1.0"};
    }
    return rule;
}

} // namespace tarebook
