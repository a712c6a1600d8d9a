// Readers of the rows of people's sheets, and of files that are kept with an entry. A row that is refused
// says why; what was taken keeps what its type promises.

#include "core/base/sheet.h"
#include "core/exchange/job_rows.h"
#include "core/exchange/people_rows.h"
#include "core/exchange/receipt_rows.h"
#include "core/exchange/stock_rows.h"
#include "core/exchange/system_rows.h"
#include "core/ledger/attached_file.h"
#include "tests/fuzz/target.h"

namespace tarebook::tests {

namespace {

constexpr int kMinutesOfDay = 24 * 60;

template <typename Row>
void standsFor(const Sheet& sheet, const Result<std::vector<Row>>& rows, bool (*taken)(const Row&),
               std::string_view input) {
    if (!rows) {
        demand(!rows.error().wrong.empty() && !rows.error().right.empty(),
               "an error says what is wrong and what would be right", input);
        return;
    }
    demand(rows.value().size() <= sheet.rows.size(), "no row is read that is not there", input);
    for (const Row& row : rows.value()) {
        for (const RowProblem& problem : row.problems) {
            demand(!problem.error.wrong.empty(), "a problem says what is wrong", input);
        }
        demand(row.state() == RowState::refused || taken(row), "what is not refused has been read", input);
    }
}

ColumnMap mapOf(const Sheet& sheet, SheetKind kind) {
    return guessColumns(sheet, kind, SheetHabits{});
}

} // namespace

void feedRows(std::string_view bytes) {
    if (const auto minute = readHour(bytes)) {
        demand(minute.value() >= 0 && minute.value() < kMinutesOfDay, "an hour is one of a day", bytes);
    }
    const auto read = readSheet(bytes);
    if (!read) {
        return;
    }
    const Sheet& sheet = read.value();
    standsFor<JobRow>(
        sheet, readJobRows(sheet, mapOf(sheet, SheetKind::jobs)),
        [](const JobRow& row) {
            return row.job &&
                   (!row.job->minute || (*row.job->minute >= 0 && *row.job->minute < kMinutesOfDay));
        },
        bytes);
    standsFor<ReceiptRow>(
        sheet, readReceiptRows(sheet, mapOf(sheet, SheetKind::receipt)),
        [](const ReceiptRow& row) {
            return row.receipt && !row.receipt->serial.empty() &&
                   row.receipt->deducted() <= row.receipt->net();
        },
        bytes);
    standsFor<StockRow>(
        sheet, readStockRows(sheet, mapOf(sheet, SheetKind::stocktake)),
        [](const StockRow& row) { return row.weighing && !row.weighing->serial.empty(); }, bytes);
    (void)readPeopleRows(sheet, mapOf(sheet, SheetKind::people), DateOrder::dayFirst);
    (void)readSystemRows(sheet, mapOf(sheet, SheetKind::systems), nullptr);
}

void feedAttached(std::string_view bytes) {
    const auto type = typeOfFile(bytes);
    demand(type.ok() ? type.value() == "image/png" || type.value() == "image/jpeg" ||
                           type.value() == "application/pdf"
                     : !type.error().wrong.empty(),
           "a file has one of three types, or it is said what is wrong", bytes);
    const std::string name = plainFileName(bytes);
    demand(name.size() <= 120 && name.find('/') == std::string::npos && name.find('\\') == std::string::npos,
           "a name has no folder and is not long", bytes);
    demand(plainFileName(name) == name, "a plain name stays as it is", bytes);
    const auto body = nlohmann::json::parse(bytes, nullptr, false);
    if (!body.is_object()) {
        return;
    }
    if (const auto file = AttachedFile::from(body)) {
        const auto again = AttachedFile::from(file.value().body());
        demand(again.ok() && again.value().body() == file.value().body(), "what is written reads back",
               bytes);
    }
}

} // namespace tarebook::tests
