#include "core/papers/pdf_date.h"

#include <charconv>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr std::string_view kStartOfTable = "startxref\n";
constexpr std::size_t kPlaceDigits = 10; // of a row of the table: `0000000015 00000 n`
constexpr std::size_t kRow = 20;

std::optional<std::size_t> numberAt(const std::string& text, std::size_t place) {
    std::size_t number = 0;
    const auto read = std::from_chars(text.data() + place, text.data() + text.size(), number);
    return read.ec == std::errc() ? std::optional(number) : std::nullopt;
}

/// Moves each place behind `from` in the table that begins with `xref` at `table`.
void moveTable(std::string& pdf, std::size_t table, std::size_t from, std::ptrdiff_t by) {
    for (std::size_t row = pdf.find('\n', pdf.find('\n', table) + 1) + 1;
         row + kRow <= pdf.size() && pdf.compare(row + kPlaceDigits, 1, " ") == 0; row += kRow) {
        const auto place = numberAt(pdf, row);
        if (place && *place > from) {
            const auto moved = static_cast<std::size_t>(static_cast<std::ptrdiff_t>(*place) + by);
            pdf.replace(row, kPlaceDigits, fmt::format("{:0{}}", moved, kPlaceDigits));
        }
    }
}

} // namespace

ZipTime localTime(const Zone& zone, Instant moment) {
    constexpr std::int64_t kMinute = 60;
    constexpr std::int64_t kHour = 60 * kMinute;
    constexpr std::int64_t kDay = 24 * kHour;
    const Date day = zone.dateOf(moment);
    const std::int64_t local = moment.seconds() + zone.offsetSecondsAt(moment);
    const std::int64_t within = ((local % kDay) + kDay) % kDay;
    return {day, static_cast<int>(within / kHour), static_cast<int>(within % kHour / kMinute),
            static_cast<int>(within % kMinute)};
}

ZipTime timeOfBooks(Shop& books) {
    const auto newest = books.store().entry(books.store().headSeq());
    return localTime(books.zone(), newest ? newest.value().recorded : books.now());
}

std::string datedPdf(std::string pdf, const ZipTime& when) {
    constexpr std::string_view kKey = "/CreationDate (";
    const std::size_t key = pdf.rfind(kKey);
    const std::size_t last = pdf.rfind(kStartOfTable);
    if (key == std::string::npos || last == std::string::npos) {
        return pdf;
    }
    const std::size_t begin = key + kKey.size();
    const std::size_t end = pdf.find(')', begin);
    const auto table = numberAt(pdf, last + kStartOfTable.size());
    if (end == std::string::npos || !table || pdf.compare(*table, 4, "xref") != 0) {
        return pdf;
    }
    std::string day = when.day.text(); // 2026-09-14
    std::erase(day, '-');
    const std::string date = fmt::format("D:{}{:02}{:02}{:02}", day, when.hour, when.minute, when.second);
    const auto by = static_cast<std::ptrdiff_t>(date.size()) - static_cast<std::ptrdiff_t>(end - begin);
    moveTable(pdf, *table, begin, by);
    const std::size_t tail = last + kStartOfTable.size();
    if (*table > begin) {
        pdf.replace(tail, pdf.find('\n', tail) - tail,
                    std::to_string(static_cast<std::ptrdiff_t>(*table) + by));
    }
    pdf.replace(begin, end - begin, date);
    return pdf;
}

} // namespace tarebook
