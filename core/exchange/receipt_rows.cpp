#include "core/exchange/receipt_rows.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostOfSerial = 40;
constexpr std::size_t kMostOfAnalysis = 200;

Result<Mass> massWritten(std::string_view text) {
    return Mass::parse(text);
}

/// The words of the books, and those that laboratories write for them.
Result<AnalysisResult> resultWritten(std::string_view text) {
    const std::string word = lowered(trimmed(text));
    if (word == "pass" || word == "ok") {
        return AnalysisResult::passed;
    }
    if (word == "fail" || word == "failed") {
        return AnalysisResult::impure;
    }
    return analysisResultFrom(word);
}

void readFigures(SheetFields& fields, ReceiptLine& line) {
    const auto gross = fields.required<Mass>("gross", "what they weighed, as 49.1 lb", massWritten);
    const auto tare = fields.required<Mass>("tare", "what they took for empty, as 28.1 lb", massWritten);
    line.gross = gross.value_or(Mass());
    line.tare = tare.value_or(Mass());
    for (const char* what : {"oil", "moisture", "other"}) {
        const auto mass = fields.optional<Mass>(what, massWritten);
        if (mass && *mass > Mass()) {
            line.deductions.push_back({what, *mass});
        }
    }
    if (!gross || !tare) {
        return;
    }
    if (const auto sound = line.sound(); !sound) {
        fields.refuse(line.net() < Mass() ? "tare" : "gross", sound.error());
    }
}

} // namespace

Result<std::vector<ReceiptRow>> readReceiptRows(const Sheet& sheet, const ColumnMap& map) {
    std::map<std::string, std::vector<int>> places;
    for (const SheetRow& row : sheet.rows) {
        places[cellOf(sheet, row, map, "serial")].push_back(row.line);
    }
    return readRows<ReceiptRow>(sheet, map, [&](SheetFields& fields, ReceiptRow& row) {
        ReceiptLine line;
        line.serial = fields.text("serial", kMostOfSerial, "write the number of the cylinder");
        readFigures(fields, line);
        line.analysis = fields.note("analysis", kMostOfAnalysis);
        line.certificate = fields.note("certificate", kMostOfSerial);
        line.exchange = fields.note("exchange", kMostOfSerial);
        line.result =
            fields.optional<AnalysisResult>("result", resultWritten).value_or(AnalysisResult::notStated);
        for (const int other : line.serial.empty() ? std::vector<int>() : places[line.serial]) {
            if (other != row.line) {
                fields.refuse(
                    "serial",
                    Error{fmt::format("{} stands in line {} too", tarebook::quoted(line.serial), other),
                          "keep the one that is right; the other may be of another cylinder"});
                break;
            }
        }
        if (row.state() != RowState::refused) {
            row.receipt = std::move(line);
        }
    });
}

} // namespace tarebook
