#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/base/result.h"
#include "core/quantity/mass.h"

namespace tarebook {

/// What a reclaimer takes off the weight before paying: oil, moisture, air, or what else they call it.
struct Deduction {
    std::string what;
    Mass mass; // from zero up
    bool operator==(const Deduction&) const = default;
};

/// What the reclaimer's analysis came to. Failed is all but the first two: below the purity they ask for,
/// several refrigerants, or spoilt by what is no refrigerant (acid, chlorides, a burn-out).
enum class AnalysisResult { notStated, passed, impure, mixed, contaminated };
[[nodiscard]] std::string_view analysisResultWord(AnalysisResult result); // empty, `passed`, `impure`, ...
/// Blank is notStated. Error: none of the words.
[[nodiscard]] Result<AnalysisResult> analysisResultFrom(std::string_view word);
[[nodiscard]] bool failed(AnalysisResult result);

/// What the shop says to a line of a receipt.
enum class ReceiptVerdict { open, accepted, disputed, corrected };
[[nodiscard]] std::string_view receiptVerdictWord(ReceiptVerdict verdict); // `open`, ...

/// What the reclaimer says of one cylinder. Three masses are told apart: what the books shipped (not here),
/// what was received, and what is paid for.
struct ReceiptLine {
    std::string serial;
    Mass gross;
    Mass tare;
    std::string analysis = {};    // in their words
    std::string certificate = {}; // its number, where each cylinder has its own
    std::vector<Deduction> deductions = {};
    AnalysisResult result = AnalysisResult::notStated;
    ReceiptVerdict verdict = ReceiptVerdict::open;
    std::string why = {};      // of the verdict
    std::string exchange = {}; // serial of the empty that they gave for it

    /// Received: gross less tare.
    [[nodiscard]] Mass net() const;
    /// Sum of the deductions.
    [[nodiscard]] Mass deducted() const;
    /// What they pay for: received less the deductions.
    [[nodiscard]] Mass payable() const;
    /// Error: the tare is above the gross or below zero, or more is taken off than was received.
    [[nodiscard]] Result<bool> sound() const;

    /// A line of a `batch_received`, without what is not known.
    [[nodiscard]] nlohmann::json body() const;
    /// Reads it back; fields of later versions are passed over. Error names the field that is wrong.
    [[nodiscard]] static Result<ReceiptLine> from(const nlohmann::json& written);
};

/// Whether the body of a `batch_received` can stand in the journal: each line's masses are there, add up and
/// are sound, its words are those above, a dispute has its reason. Error names the line and the field.
[[nodiscard]] Result<bool> receiptFits(const nlohmann::json& body);
/// Whether an entry of a batch brings its certificate and nothing else. Such an entry says nothing of how far
/// the batch is: what it came after may be reversed while the certificate stays.
[[nodiscard]] bool bringsOnlyCertificate(const nlohmann::json& body);

} // namespace tarebook
