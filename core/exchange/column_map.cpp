#include "core/exchange/column_map.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/exchange/column_names.h"

namespace tarebook {

namespace {

bool isBareNumber(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789.,") == std::string_view::npos;
}

/// `47,7` for `47.7`: a single comma with digits at both sides and no point.
std::string withPoint(std::string text) {
    const std::size_t comma = text.find(',');
    const auto digitAt = [&](std::size_t place) {
        return place < text.size() && text[place] >= '0' && text[place] <= '9';
    };
    if (comma != std::string::npos && comma > 0 && digitAt(comma - 1) && digitAt(comma + 1) &&
        text.find(',', comma + 1) == std::string::npos && text.find('.') == std::string::npos) {
        text[comma] = '.';
    }
    return text;
}

bool suits(FieldMeasure measure, std::string_view unit) {
    return measure == FieldMeasure::waterCapacity ? true : measure == FieldMeasure::mass && unit != "l";
}

void settleUnit(MappedColumn& column, const SheetHabits& habits) {
    column.unit.clear();
    column.unitFromHeader = false;
    if (column.place < 0 || column.field.measure == FieldMeasure::none) {
        return;
    }
    const std::string unit = headerWords(column.header).unit;
    column.unitFromHeader = !unit.empty() && suits(column.field.measure, unit);
    column.unit = column.unitFromHeader                                 ? unit
                  : column.field.measure == FieldMeasure::waterCapacity ? habits.capacityUnit
                                                                        : habits.massUnit;
}

void put(MappedColumn& column, int place, const Sheet& sheet, const SheetHabits& habits) {
    const bool inside = place >= 0 && static_cast<std::size_t>(place) < sheet.header.size();
    column.place = inside ? place : -1;
    column.header = inside ? sheet.header[static_cast<std::size_t>(place)] : std::string();
    settleUnit(column, habits);
}

MappedColumn* columnOf(ColumnMap& map, std::string_view field) {
    const auto found = std::find_if(map.columns.begin(), map.columns.end(),
                                    [&](const MappedColumn& column) { return column.field.name == field; });
    return found == map.columns.end() ? nullptr : &*found;
}

/// Tells what was assumed: units by habit, decimal commas, columns that were left out.
void remark(ColumnMap& map, const Sheet& sheet, const std::vector<bool>& taken) {
    for (const MappedColumn& column : map.columns) {
        if (column.place < 0 || column.unit.empty()) {
            continue;
        }
        int bare = 0;
        int commas = 0;
        for (const SheetRow& row : sheet.rows) {
            const auto place = static_cast<std::size_t>(column.place);
            const std::string cell = place < row.cells.size() ? tidied(row.cells[place]) : std::string();
            bare += isBareNumber(cell) ? 1 : 0;
            commas += sheet.separator == ';' && withPoint(cell) != cell ? 1 : 0;
        }
        if (bare > 0 && !column.unitFromHeader) {
            map.remarks.push_back(fmt::format(
                "{}: {} number{} without a unit {} taken as {}, as this shop writes them", column.header,
                bare, bare == 1 ? "" : "s", bare == 1 ? "is" : "are", column.unit));
        }
        if (commas > 0) {
            map.remarks.push_back(fmt::format("{}: the comma is taken as the decimal mark", column.header));
        }
    }
    for (std::size_t place = 0; place < sheet.header.size(); ++place) {
        if (!taken[place] && !sheet.header[place].empty()) {
            map.remarks.push_back(fmt::format("{}: this column is not read", sheet.header[place]));
        }
    }
}

} // namespace

const std::vector<SheetField>& fieldsOf(SheetKind kind) {
    static const std::vector<SheetField> kCylinders = {{"serial", true},
                                                       {"specification", true},
                                                       {"water_capacity", true, FieldMeasure::waterCapacity},
                                                       {"tare", true, FieldMeasure::mass},
                                                       {"manufactured", true},
                                                       {"last_test"},
                                                       {"test_method"},
                                                       {"owner"},
                                                       {"overfill_sensor"},
                                                       {"refrigerant"},
                                                       {"requalifier"},
                                                       {"mark_suffix"},
                                                       {"service_until"},
                                                       {"clean_service"},
                                                       {"evacuated"}};
    static const std::vector<SheetField> kPeople = {
        {"name", true}, {"certificate"}, {"certificate_expires"}, {"role"}};
    static const std::vector<SheetField> kSystems = {{"site", true},
                                                     {"tag", true},
                                                     {"customer"},
                                                     {"refrigerant"},
                                                     {"nominal_charge", false, FieldMeasure::mass},
                                                     {"kind"},
                                                     {"between_ports"},
                                                     {"address"}};
    static const std::vector<SheetField> kMovements = {
        {"occurred", true}, {"kind", true}, {"from", true}, {"to", true}, {"mass", true, FieldMeasure::mass},
        {"refrigerant"},    {"job"},        {"person"},     {"note"}};
    static const std::vector<SheetField> kStocktake = {
        {"serial", true}, {"gross", true, FieldMeasure::mass}, {"remark"}};
    static const std::vector<SheetField> kJobs = {{"technician", true},
                                                  {"job"},
                                                  {"owner"},
                                                  {"direction", true},
                                                  {"refrigerant"},
                                                  {"mass", true, FieldMeasure::mass},
                                                  {"method"},
                                                  {"system"},
                                                  {"machine"},
                                                  {"hour"},
                                                  {"burn_out"}};
    static const std::vector<SheetField> kReceipt = {{"serial", true},
                                                     {"gross", true, FieldMeasure::mass},
                                                     {"tare", true, FieldMeasure::mass},
                                                     {"oil", false, FieldMeasure::mass},
                                                     {"moisture", false, FieldMeasure::mass},
                                                     {"other", false, FieldMeasure::mass},
                                                     {"analysis"},
                                                     {"result"},
                                                     {"certificate"},
                                                     {"exchange"}};
    switch (kind) {
    case SheetKind::receipt:
        return kReceipt;
    case SheetKind::cylinders:
        return kCylinders;
    case SheetKind::people:
        return kPeople;
    case SheetKind::systems:
        return kSystems;
    case SheetKind::stocktake:
        return kStocktake;
    case SheetKind::jobs:
        return kJobs;
    case SheetKind::movements:
        break;
    }
    return kMovements;
}

const MappedColumn* ColumnMap::find(std::string_view field) const {
    const auto found = std::find_if(columns.begin(), columns.end(),
                                    [&](const MappedColumn& column) { return column.field.name == field; });
    return found == columns.end() ? nullptr : &*found;
}

std::vector<std::string> ColumnMap::missing() const {
    std::vector<std::string> names;
    for (const MappedColumn& column : columns) {
        if (column.field.required && column.place < 0) {
            names.emplace_back(column.field.name);
        }
    }
    return names;
}

void ColumnMap::assign(std::string_view field, int place, const Sheet& sheet, const SheetHabits& habits) {
    if (MappedColumn* column = columnOf(*this, field)) {
        put(*column, place, sheet, habits);
        std::vector<bool> taken(sheet.header.size(), false);
        for (const MappedColumn& one : columns) {
            if (one.place >= 0) {
                taken[static_cast<std::size_t>(one.place)] = true;
            }
        }
        remarks.clear(); // what was assumed of the columns as they are now
        remark(*this, sheet, taken);
    }
}

ColumnMap guessColumns(const Sheet& sheet, SheetKind kind, const SheetHabits& habits) {
    ColumnMap map;
    map.kind = kind;
    for (const SheetField& field : fieldsOf(kind)) {
        map.columns.push_back(MappedColumn{field, -1, {}, {}, false});
    }
    std::vector<bool> taken(sheet.header.size(), false);
    // The contract's own names first, whatever else the sheet has.
    for (const bool exact : {true, false}) {
        for (std::size_t place = 0; place < sheet.header.size(); ++place) {
            const std::string& header = sheet.header[place];
            MappedColumn* column =
                columnOf(map, exact ? header : fieldCalled(kind, headerWords(header).words));
            if (column != nullptr && column->place < 0 && !taken[place]) {
                put(*column, static_cast<int>(place), sheet, habits);
                taken[place] = true;
            }
        }
    }
    remark(map, sheet, taken);
    return map;
}

std::string cellOf(const Sheet& sheet, const SheetRow& row, const ColumnMap& map, std::string_view field) {
    const MappedColumn* column = map.find(field);
    if (column == nullptr || column->place < 0 ||
        static_cast<std::size_t>(column->place) >= row.cells.size()) {
        return {};
    }
    std::string cell = tidied(row.cells[static_cast<std::size_t>(column->place)]);
    if (column->field.measure != FieldMeasure::none) {
        if (sheet.separator == ';') {
            cell = withPoint(std::move(cell));
        }
        if (isBareNumber(cell)) {
            cell += " " + column->unit;
        }
    }
    return cell;
}

} // namespace tarebook
