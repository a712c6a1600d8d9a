#include "core/exchange/column_choice.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

std::string fieldNames(SheetKind kind) {
    std::string names;
    for (const SheetField& field : fieldsOf(kind)) {
        names += (names.empty() ? "" : ", ") + std::string(field.name);
    }
    return names;
}

std::string headerNames(const Sheet& sheet) {
    std::string names;
    for (const std::string& header : sheet.header) {
        names += (names.empty() ? "" : ", ") + tarebook::quoted(header);
    }
    return names;
}

/// `#3` is the third.
Result<int> placeByNumber(const std::string& column, const Sheet& sheet) {
    const std::string digits = column.substr(1);
    constexpr std::size_t kMostDigits = 6;
    const bool number =
        !digits.empty() && digits.size() <= kMostDigits &&
        std::all_of(digits.begin(), digits.end(), [](char letter) { return letter >= '0' && letter <= '9'; });
    const std::size_t place = number ? std::stoul(digits) : 0;
    if (place < 1 || place > sheet.header.size()) {
        return Error{fmt::format("{} is no column", tarebook::quoted(column)),
                     fmt::format("the sheet has #1 to #{}", sheet.header.size())};
    }
    return static_cast<int>(place) - 1;
}

Result<int> placeOf(const std::string& column, const Sheet& sheet) {
    if (column.empty()) {
        return -1;
    }
    const auto same = [&](const std::string& header) { return lowered(tidied(header)) == lowered(column); };
    const auto found = std::find_if(sheet.header.begin(), sheet.header.end(), same);
    if (found == sheet.header.end()) {
        return column.front() == '#'
                   ? placeByNumber(column, sheet)
                   : Result<int>(Error{fmt::format("the sheet has no column {}", tarebook::quoted(column)),
                                       "one of " + headerNames(sheet) + ", or its place, as #2"});
    }
    if (std::any_of(found + 1, sheet.header.end(), same)) {
        return Error{fmt::format("the column {} stands twice", tarebook::quoted(column)),
                     "say which by its place, as #2"};
    }
    return static_cast<int>(found - sheet.header.begin());
}

} // namespace

Result<ColumnChoice> columnChoiceIn(const std::string& text, const Sheet& sheet, SheetKind kind) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos) {
        return Error{fmt::format("{} names no column", tarebook::quoted(text)),
                     "as FIELD=COLUMN; the fields are " + fieldNames(kind)};
    }
    const std::string field = lowered(tidied(text.substr(0, equals)));
    const auto& fields = fieldsOf(kind);
    if (std::none_of(fields.begin(), fields.end(),
                     [&](const SheetField& one) { return one.name == field; })) {
        return Error{fmt::format("{} is no field of this sheet", tarebook::quoted(field)),
                     "one of " + fieldNames(kind)};
    }
    const auto place = placeOf(tidied(text.substr(equals + 1)), sheet);
    return place ? Result<ColumnChoice>(ColumnChoice{field, place.value()})
                 : Result<ColumnChoice>(place.error());
}

Result<ColumnMap> columnsChosen(const Sheet& sheet, SheetKind kind, const SheetHabits& habits,
                                const std::vector<std::string>& choices) {
    ColumnMap map = guessColumns(sheet, kind, habits);
    for (const std::string& text : choices) {
        const auto choice = columnChoiceIn(text, sheet, kind);
        if (!choice) {
            return choice.error();
        }
        map.assign(choice.value().field, choice.value().place, sheet, habits);
    }
    return map;
}

} // namespace tarebook
