#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/ledger/receipt.h"
#include "core/ledger/reconcile.h"

namespace tarebook {

/// A cylinder as it was shipped, beside what the reclaimer says of it.
struct ReceiptEvidence {
    ReceiptLine line;
    Mass sentNet;
    Mass tare;                // in the register: what the cylinder weighs empty
    std::optional<Mass> mark; // stamped, where it was weighed empty and weighs something else
    [[nodiscard]] Mass sentGross() const;
};

/// What explains that more or less was received than shipped.
enum class ReceiptCause {
    slip,     // a weight in pounds that were kilograms, or the reverse, or ounces as decimals
    swapped,  // the numbers of two cylinders are exchanged
    tareUsed, // another tare was taken off than the one in the register
    oilTwice, // what they take off had left the weight already
    less,     // nothing explains it
    more,     // nothing explains it
};
[[nodiscard]] std::string_view receiptCauseWord(ReceiptCause cause); // `unit slip`, `swapped`, ...

struct ReceiptExplanation {
    ReceiptCause cause = ReceiptCause::less;
    std::string evidence; // one sentence with the numbers
    std::string advice;   // what to ask or to do
    int figures = 0;      // as Explanation::figures
    Mass misfit = {};     // of the difference that it leaves open, no sign
    /// The weights as they would be without it; none where the weights are right.
    std::optional<Mass> gross = {};
    std::optional<Mass> tare = {};
};

struct ReceiptDifference {
    std::string serial;
    Mass difference; // received less shipped
    bool beyond = false;
    std::vector<ReceiptExplanation> explanations; // the likeliest first; none within the tolerance
};

/// Compares each line with what was shipped, in the order given. Masses agree within the tolerance, that
/// figure included. Of equally many figures the explanation that leaves less open goes first.
[[nodiscard]] std::vector<ReceiptDifference> receiptDifferences(const std::vector<ReceiptEvidence>& lines,
                                                                Mass tolerance,
                                                                const EvidenceWords& words = {});

} // namespace tarebook
