#include "core/ledger/receipt.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::array<std::pair<AnalysisResult, std::string_view>, 5> kResultWords = {
    {{AnalysisResult::notStated, ""},
     {AnalysisResult::passed, "passed"},
     {AnalysisResult::impure, "impure"},
     {AnalysisResult::mixed, "mixed"},
     {AnalysisResult::contaminated, "contaminated"}}};
constexpr std::array<std::pair<ReceiptVerdict, std::string_view>, 4> kVerdictWords = {
    {{ReceiptVerdict::open, "open"},
     {ReceiptVerdict::accepted, "accepted"},
     {ReceiptVerdict::disputed, "disputed"},
     {ReceiptVerdict::corrected, "corrected"}}};

template <typename Table, typename Value> std::string_view wordIn(const Table& table, Value value) {
    const auto* const found =
        std::find_if(table.begin(), table.end(), [&](const auto& pair) { return pair.first == value; });
    return found->second;
}

std::string textAt(const nlohmann::json& object, const char* key) {
    const auto place = object.find(key);
    return place != object.end() && place->is_string() ? place->get<std::string>() : std::string();
}

Mass massAt(const nlohmann::json& object, const char* key) {
    const auto place = object.find(key);
    return Mass::fromMilligrams(
        place != object.end() && place->is_number_integer() ? place->get<std::int64_t>() : 0);
}

Result<std::vector<Deduction>> deductionsIn(const nlohmann::json& line) {
    std::vector<Deduction> deductions;
    const auto list = line.find("deductions");
    if (list == line.end()) {
        return deductions;
    }
    if (!list->is_array()) {
        return Error{"deductions is no list", "docs/journal.md has its fields"};
    }
    for (const auto& one : *list) {
        if (!one.is_object() || textAt(one, "what").empty() || massAt(one, "mass_mg") <= Mass()) {
            return Error{"a deduction has no name or no mass above zero", "as what: oil, mass_mg: 90718"};
        }
        deductions.push_back({textAt(one, "what"), massAt(one, "mass_mg")});
    }
    return deductions;
}

} // namespace

std::string_view analysisResultWord(AnalysisResult result) {
    return wordIn(kResultWords, result);
}

Result<AnalysisResult> analysisResultFrom(std::string_view word) {
    const std::string plain = lowered(trimmed(word));
    for (const auto& [result, its] : kResultWords) {
        if (its == plain) {
            return result;
        }
    }
    return Error{fmt::format("{} is no result of an analysis", tarebook::quoted(word)),
                 "one of passed, impure, mixed, contaminated; blank where they state none"};
}

bool failed(AnalysisResult result) {
    return result != AnalysisResult::notStated && result != AnalysisResult::passed;
}

std::string_view receiptVerdictWord(ReceiptVerdict verdict) {
    return wordIn(kVerdictWords, verdict);
}

Mass ReceiptLine::net() const {
    return Mass::fromMilligrams(gross.milligrams() - tare.milligrams());
}

Mass ReceiptLine::deducted() const {
    std::int64_t sum = 0;
    for (const Deduction& one : deductions) {
        sum += one.mass.milligrams();
    }
    return Mass::fromMilligrams(sum);
}

Mass ReceiptLine::payable() const {
    return Mass::fromMilligrams(net().milligrams() - deducted().milligrams());
}

Result<bool> ReceiptLine::sound() const {
    if (tare < Mass() || net() < Mass()) {
        return Error{
            fmt::format("{}: gross {} is below tare {}", serial, gross.kilogramsText(), tare.kilogramsText()),
            "look at the receipt again"};
    }
    if (payable() < Mass()) {
        return Error{fmt::format("{}: {} is taken off, more than the {} received", serial,
                                 deducted().kilogramsText(), net().kilogramsText()),
                     "look at the receipt again"};
    }
    return true;
}

nlohmann::json ReceiptLine::body() const {
    nlohmann::json line{{"serial", serial},
                        {"gross_mg", gross.milligrams()},
                        {"tare_mg", tare.milligrams()},
                        {"net_mg", net().milligrams()}};
    if (!analysis.empty()) {
        line["analysis"] = analysis;
    }
    if (!certificate.empty()) {
        line["certificate"] = certificate;
    }
    for (const Deduction& one : deductions) {
        line["deductions"].push_back({{"what", one.what}, {"mass_mg", one.mass.milligrams()}});
    }
    if (result != AnalysisResult::notStated) {
        line["result"] = analysisResultWord(result);
    }
    if (verdict != ReceiptVerdict::open) {
        line["verdict"] = receiptVerdictWord(verdict);
    }
    if (!why.empty()) {
        line["why"] = why;
    }
    if (!exchange.empty()) {
        line["exchange"] = exchange;
    }
    return line;
}

Result<ReceiptLine> ReceiptLine::from(const nlohmann::json& written) {
    if (!written.is_object()) {
        return Error{"a line of the receipt is no object", "docs/journal.md has its fields"};
    }
    ReceiptLine line{textAt(written, "serial"), massAt(written, "gross_mg"), massAt(written, "tare_mg")};
    line.analysis = textAt(written, "analysis");
    line.certificate = textAt(written, "certificate");
    line.why = textAt(written, "why");
    line.exchange = textAt(written, "exchange");
    auto deductions = deductionsIn(written);
    if (!deductions) {
        return deductions.error();
    }
    line.deductions = std::move(deductions).value();
    const auto result = analysisResultFrom(textAt(written, "result"));
    if (!result) {
        return result.error();
    }
    line.result = result.value();
    const std::string verdict = textAt(written, "verdict");
    const auto* const known = std::find_if(kVerdictWords.begin(), kVerdictWords.end(),
                                           [&](const auto& pair) { return pair.second == verdict; });
    if (!verdict.empty() && known == kVerdictWords.end()) {
        return Error{fmt::format("{} is no verdict on a receipt", tarebook::quoted(verdict)),
                     "one of open, accepted, disputed, corrected"};
    }
    line.verdict = verdict.empty() ? ReceiptVerdict::open : known->first;
    return line;
}

} // namespace tarebook
