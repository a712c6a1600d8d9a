#include "app/receipt_sheet.h"

#include <fmt/core.h>

#include "app/file_bytes.h"
#include "app/shop_session.h"
#include "core/exchange/column_choice.h"
#include "core/exchange/importing.h"
#include "core/exchange/receipt_rows.h"

namespace tarebook {

Result<int> addReceiptSheet(Shop& shop, const std::string& file, const std::vector<std::string>& columns,
                            std::vector<ReceiptLine>& lines) {
    const auto bytes = bytesOf(file);
    if (!bytes) {
        return bytes.error();
    }
    const auto about = [&](const Error& error) { return Error{file + ": " + error.wrong, error.right}; };
    const auto sheet = readSheet(bytes.value());
    if (!sheet) {
        return about(sheet.error());
    }
    const auto map = columnsChosen(sheet.value(), SheetKind::receipt, habitsOf(shop), columns);
    if (!map) {
        return inOption("--column", map.error());
    }
    const auto rows = readReceiptRows(sheet.value(), map.value());
    if (!rows) {
        return about(rows.error());
    }
    for (const std::string& remark : map.value().remarks) {
        fmt::print(stderr, "{}: {}\n", file, remark);
    }
    int refused = 0;
    for (const ReceiptRow& row : rows.value()) {
        for (const RowProblem& problem : row.problems) {
            fmt::print(stderr, "{}:{}: {}: {}\n", file, row.line, problem.column, problem.error.text());
        }
        if (row.receipt) {
            lines.push_back(*row.receipt);
        } else {
            ++refused;
        }
    }
    return refused;
}

} // namespace tarebook
