#include "core/base/csv_write.h"

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

void skipDigits(std::string_view& text) {
    while (!text.empty() && text.front() >= '0' && text.front() <= '9') {
        text.remove_prefix(1);
    }
}

/// `-3.5`, `+2e-3`, `-40 C`, `-40 °F`: a sign, digits, no operator behind them and no name of a cell.
bool isPlainNumber(std::string_view text) {
    if (text.size() < 2 || (text[0] != '-' && text[0] != '+') || text[1] < '0' || text[1] > '9') {
        return false;
    }
    text.remove_prefix(1);
    skipDigits(text);
    if (!text.empty() && (text.front() == '.' || text.front() == ',')) {
        text.remove_prefix(1);
        skipDigits(text);
    }
    if (text.size() > 1 && (text.front() == 'e' || text.front() == 'E')) {
        text.remove_prefix(text[1] == '-' || text[1] == '+' ? 2 : 1);
        skipDigits(text);
    }
    const std::string unit = lowered(trimmed(text));
    return unit.empty() || unit == "c" || unit == "f" || unit == "k" || unit == "°c" || unit == "°f";
}

bool needsQuotes(std::string_view shown) {
    return shown.find_first_of(",;\t\"\n\r") != std::string_view::npos || trimmed(shown) != shown ||
           shown.starts_with('#') || shown.starts_with(kByteOrderMark) ||
           lowered(shown.substr(0, 4)) == "sep=";
}

} // namespace

std::string csvCell(std::string_view text) {
    std::string shown(text);
    if (!text.empty() && std::string_view("=+-@\t\r\n").find(text[0]) != std::string_view::npos &&
        !isPlainNumber(text)) {
        shown.insert(0, 1, '\'');
    }
    if (!needsQuotes(shown)) {
        return shown;
    }
    std::string field = "\"";
    for (const char character : shown) {
        field.append(character == '"' ? 2U : 1U, character);
    }
    return field + "\"";
}

std::string csvLine(const std::vector<std::string>& cells) {
    if (cells.size() == 1 && cells.front().empty()) {
        return "\"\"";
    }
    std::string line;
    for (std::size_t place = 0; place < cells.size(); ++place) {
        line += (place == 0 ? "" : ",") + csvCell(cells[place]);
    }
    return line;
}

} // namespace tarebook
