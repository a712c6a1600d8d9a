#pragma once

#include <string>
#include <vector>

#include "core/exchange/sample_random.h"
#include "core/ledger/acceptance.h"
#include "core/ledger/receipt.h"
#include "core/shop/machines.h"
#include "core/shop/returns.h"

namespace tarebook {

/// The recovery machines of the invented shop: one for every three technicians, and one more that takes R-22
/// alone.
[[nodiscard]] std::vector<Machine> sampleMachines(std::size_t technicians, Date firstDay);
/// On what terms the nth reclaimer takes gas back. Invented figures, of no market.
[[nodiscard]] AcceptanceTerms sampleTerms(std::size_t number);
/// What the reclaimer's laboratory says of what came in a cylinder: nearly always that it passed.
void addSampleAnalysis(SampleRandom& random, const BatchLine& shipped, ReceiptLine& line);
/// A page of lines as PDF (ISO 32000-1, its smallest form: one page, one of the fonts that every reader has).
/// Letters beyond ASCII are left out.
[[nodiscard]] std::string samplePaper(const std::vector<std::string>& lines);
/// The certificate that a reclaimer sends for a batch, as such a page.
[[nodiscard]] std::string sampleCertificate(const Batch& batch, Date day);

} // namespace tarebook
