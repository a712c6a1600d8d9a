#include "core/exchange/stock_rows.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostCharacters = 40; // of a serial
constexpr std::size_t kMostRemark = 100;

using LinesBySerial = std::map<std::string, std::vector<int>>;

LinesBySerial linesBySerial(const Sheet& sheet, const ColumnMap& map) {
    LinesBySerial lines;
    for (const SheetRow& row : sheet.rows) {
        lines[cellOf(sheet, row, map, "serial")].push_back(row.line);
    }
    return lines;
}

void refuseTwice(const LinesBySerial& lines, const std::string& serial, int line, SheetFields& fields) {
    const std::vector<int>& its = lines.at(serial);
    const auto other = std::find_if(its.begin(), its.end(), [&](int one) { return one != line; });
    if (other != its.end()) {
        fields.refuse("serial",
                      Error{fmt::format("{} stands in line {} too", tarebook::quoted(serial), *other),
                            "keep the one that is right; the other may be of another cylinder"});
    }
}

} // namespace

Result<std::vector<StockRow>> readStockRows(const Sheet& sheet, const ColumnMap& map) {
    const LinesBySerial lines = linesBySerial(sheet, map);
    return readRows<StockRow>(sheet, map, [&](SheetFields& fields, StockRow& row) {
        StockWeighing weighing;
        weighing.serial = fields.text("serial", kMostCharacters, "write the number of the cylinder");
        const auto gross = fields.required<Mass>("gross", "weigh the cylinder, as 59.6 lb",
                                                 [](std::string_view text) { return Mass::parse(text); });
        weighing.gross = gross.value_or(Mass());
        if (gross && gross->milligrams() <= 0) {
            fields.refuse("gross", Error{"a cylinder weighs more than nothing", "weigh it again"});
        }
        weighing.remark = fields.note("remark", kMostRemark);
        if (!weighing.serial.empty()) {
            refuseTwice(lines, weighing.serial, row.line, fields);
        }
        if (row.state() != RowState::refused) {
            row.weighing = std::move(weighing);
        }
    });
}

} // namespace tarebook
