#include "core/shop/receipts.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/base/text.h"
#include "core/shop/exchange_checks.h"
#include "core/shop/failed_analyses.h"
#include "core/shop/look_then_record.h"
#include "core/shop/names.h"
#include "core/shop/plan_rules.h"
#include "core/shop/receipt_limits.h"

namespace tarebook {

namespace {

const BatchLine* sentLine(const Batch& batch, const std::string& serial) {
    const auto line = std::find_if(batch.lines.begin(), batch.lines.end(),
                                   [&](const BatchLine& one) { return one.serial == serial; });
    return line == batch.lines.end() ? nullptr : &*line;
}

std::vector<ReceiptLine> receivedLines(const Batch& batch) {
    std::vector<ReceiptLine> lines;
    for (const BatchLine& line : batch.lines) {
        if (line.receipt) {
            lines.push_back(*line.receipt);
        }
    }
    return lines;
}

Draft receiptDraft(const Shop& shop, const Batch& batch, const std::vector<ReceiptLine>& lines,
                   std::optional<Instant> occurred) {
    nlohmann::json bodies = nlohmann::json::array();
    for (const ReceiptLine& line : lines) {
        bodies.push_back(line.body());
    }
    return shop.draft(EntryKind::batchReceived,
                      {{"batch", batch.name}, {"reclaimer", batch.reclaimer}, {"lines", std::move(bodies)}},
                      occurred);
}

/// The batch, where it is on its way or a part of it was received.
Result<Batch> batchToReceive(Shop& shop, const std::string& name) {
    auto known = batch(shop, name);
    if (known && known.value().status == "received") {
        return known;
    }
    return batchThatIs(shop, name, "shipped");
}

/// What comes with the lines. Of a further part the certificate is that of its lines, and what its papers do
/// not name stays as it was.
void addPapers(const Batch& batch, const ReceiptPapers& papers, Draft& draft) {
    const bool further = batch.status == "received";
    auto& lines = draft.body["lines"];
    if (!further || !papers.reference.empty()) {
        draft.body["reference"] = papers.reference;
    }
    if (!further && (batch.certificate.empty() || !papers.certificate.empty())) {
        const bool each = !lines.empty() && std::all_of(lines.begin(), lines.end(), [](const auto& line) {
            return line.contains("certificate");
        });
        draft.body["certificate"] =
            !papers.certificate.empty() ? papers.certificate : std::string(each ? kOnEachLine : kAwaited);
    }
    for (auto& line : lines) {
        if (further && !papers.certificate.empty() && !line.contains("certificate")) {
            line["certificate"] = papers.certificate;
        }
    }
}

/// The weights that a correction puts into the line.
Result<bool> correct(Shop& shop, const BatchLine& sent, const ReceiptDecision& decision,
                     const std::vector<ReceiptDifference>& differences, ReceiptLine& line) {
    auto gross = decision.gross;
    auto tare = decision.tare;
    if (!gross && !tare) {
        const auto its = std::find_if(differences.begin(), differences.end(),
                                      [&](const auto& one) { return one.serial == decision.serial; });
        if (its != differences.end() && !its->explanations.empty()) {
            gross = its->explanations.front().gross;
            tare = its->explanations.front().tare;
        }
    }
    if (!gross && !tare) {
        return Error{fmt::format("{}: no weights to correct it to", decision.serial),
                     "give the gross and the tare that are right"};
    }
    line.gross = gross.value_or(line.gross);
    line.tare = tare.value_or(line.tare);
    if (const auto sound = line.sound(); !sound) {
        return sound.error();
    }
    return canWeigh(shop, sent, line.gross, line.tare);
}

} // namespace

std::vector<ReceiptDifference> compareReceipt(Shop& shop, const Batch& batch,
                                              const std::vector<ReceiptLine>& lines) {
    std::vector<ReceiptEvidence> evidence;
    for (const ReceiptLine& line : lines) {
        if (const BatchLine* sent = sentLine(batch, line.serial)) {
            const auto state = shop.store().cylinder(line.serial);
            evidence.push_back({line, sent->net, sent->tare,
                                state && state.value() ? state.value()->markedTare : std::optional<Mass>()});
        }
    }
    const Display display = shop.display();
    EvidenceWords words;
    words.mass = [&display](Mass mass) { return display.mass(mass); };
    return receiptDifferences(evidence, shop.settings().weighingTolerance, words);
}

Result<std::vector<ReceiptDifference>> compareReceipt(Shop& shop, const Batch& batch) {
    const auto lines = receivedLines(batch);
    if (lines.empty()) {
        return Error{fmt::format("batch {} is {}: it has no receipt", batch.name, batch.status),
                     "enter the receipt first"};
    }
    return compareReceipt(shop, batch, lines);
}

namespace {

/// The entry of a receipt or a part of it, or why it is none of this batch.
Looked receiving(Shop& shop, const std::string& name, const ReceiptPapers& papers,
                 const std::vector<ReceiptLine>& lines, std::optional<Instant> occurred) {
    const auto sent = batchToReceive(shop, name);
    if (!sent) {
        return refusedBy(sent.error());
    }
    std::set<std::string> seen;
    for (const ReceiptLine& line : lines) {
        const BatchLine* its = sentLine(sent.value(), line.serial);
        if (its == nullptr) {
            return refusedBy(Error{fmt::format("{} was not in batch {}", tarebook::quoted(line.serial), name),
                                   "look at the receipt again"});
        }
        if (its->receipt) {
            return refusedBy(
                Error{fmt::format("{} has its line on the receipt of batch {}", line.serial, name),
                      "accept, dispute or correct that line"});
        }
        if (!seen.insert(line.serial).second) {
            return refusedBy(Error{fmt::format("{} stands twice on the receipt", line.serial),
                                   "give each cylinder one line"});
        }
        if (line.gross < line.tare) {
            return refusedBy(
                Error{fmt::format("{}: gross {} is below tare {}", line.serial,
                                  shop.display().mass(line.gross), shop.display().mass(line.tare)),
                      "look at the receipt again"});
        }
        if (const auto sound = line.sound(); !sound) {
            return refusedBy(sound.error());
        }
    }
    Draft draft = receiptDraft(shop, sent.value(), lines, occurred);
    addPapers(sent.value(), papers, draft);
    return {{std::move(draft)}};
}

/// The lines anew with what is said to them, or why that cannot be said.
Looked deciding(Shop& shop, const std::string& name, const std::vector<ReceiptDecision>& decisions,
                std::optional<Instant> occurred, Sequence looked) {
    const auto known = batchThatIs(shop, name, "received");
    if (!known) {
        return refusedBy(known.error());
    }
    if (looked != 0 && known.value().newest() != looked) {
        return refusedBy(Error{fmt::format("batch {} was changed at another desk meanwhile", name),
                               "look at its receipt again"});
    }
    const auto differences = compareReceipt(shop, known.value(), receivedLines(known.value()));
    std::vector<ReceiptLine> lines;
    lines.reserve(decisions.size());
    std::set<std::string> decided;
    for (const ReceiptDecision& decision : decisions) {
        if (!decided.insert(decision.serial).second) {
            return refusedBy(Error{fmt::format("{} is named twice", decision.serial),
                                   "give each cylinder one verdict: accepted, disputed or corrected"});
        }
        const BatchLine* sent = sentLine(known.value(), decision.serial);
        if (sent == nullptr || !sent->receipt) {
            return refusedBy(Error{fmt::format("the receipt of batch {} has no line for {}", name,
                                               tarebook::quoted(decision.serial)),
                                   "name cylinders of the receipt"});
        }
        ReceiptLine line = *sent->receipt;
        line.verdict = decision.verdict;
        line.why = tidied(decision.why);
        if (decision.verdict == ReceiptVerdict::disputed && line.why.empty()) {
            return refusedBy(Error{fmt::format("{}: disputed without a reason", decision.serial),
                                   "say what the reclaimer is asked"});
        }
        if (decision.verdict == ReceiptVerdict::corrected) {
            if (const auto corrected = correct(shop, *sent, decision, differences, line); !corrected) {
                return refusedBy(corrected.error());
            }
        }
        lines.push_back(std::move(line));
    }
    if (lines.empty()) {
        return refusedBy(Error{"nothing is decided", "name a cylinder to accept, to dispute or to correct"});
    }
    return {{receiptDraft(shop, known.value(), lines, occurred)}};
}

Looked filing(Shop& shop, const std::string& name, const std::string& certificate,
              std::optional<Instant> occurred) {
    const auto known = batch(shop, name);
    const std::string number = tidied(certificate);
    if (!known) {
        return refusedBy(known.error());
    }
    if (known.value().status != "received" && known.value().status != "settled") {
        return refusedBy(Error{fmt::format("batch {} is {}: it has no receipt", name, known.value().status),
                               "enter the receipt, with the number of the certificate"});
    }
    if (number.empty()) {
        return refusedBy(Error{"the certificate has no number", "as it stands on the paper"});
    }
    const bool settled = known.value().status == "settled";
    return {{shop.draft(settled ? EntryKind::batchSettled : EntryKind::batchReceived,
                        {{"batch", name},
                         {"reclaimer", known.value().reclaimer},
                         {"certificate", number},
                         {"lines", nlohmann::json::array()}},
                        occurred)}};
}

} // namespace

Recorded receiveBatch(Shop& shop, const std::string& name, const ReceiptPapers& papers,
                      const std::vector<ReceiptLine>& lines, std::optional<Instant> occurred) {
    Recorded recorded = lookThenRecord(shop, [&] { return receiving(shop, name, papers, lines, occurred); });
    if (!recorded.ok()) {
        return recorded;
    }
    if (const auto now = batch(shop, name)) {
        for (Finding& finding : exchangeFindings(shop, now.value())) {
            recorded.findings.insert(recorded.findings.begin(), std::move(finding));
        }
        if (auto failed = failedAnalysis(shop, now.value())) {
            recorded.findings.insert(recorded.findings.begin(), std::move(*failed));
        }
        if (auto open = undecided(shop, now.value())) {
            recorded.findings.insert(recorded.findings.begin(), std::move(*open));
        }
    }
    return recorded;
}

Recorded decideReceipt(Shop& shop, const std::string& name, const std::vector<ReceiptDecision>& decisions,
                       std::optional<Instant> occurred, Sequence looked) {
    return lookThenRecord(shop, [&] { return deciding(shop, name, decisions, occurred, looked); });
}

Recorded fileCertificate(Shop& shop, const std::string& name, const std::string& certificate,
                         std::optional<Instant> occurred) {
    return lookThenRecord(shop, [&] { return filing(shop, name, certificate, occurred); });
}

std::optional<Finding> undecided(Shop& shop, const Batch& batch) {
    const auto lines = receivedLines(batch);
    const auto differences = compareReceipt(shop, batch, lines);
    std::vector<std::string> told;
    std::vector<std::string> working;
    for (const ReceiptDifference& one : differences) {
        const BatchLine* sent = sentLine(batch, one.serial);
        if (!one.beyond || one.explanations.empty() || sent->receipt->verdict != ReceiptVerdict::open) {
            continue;
        }
        told.push_back(one.explanations.front().evidence);
        working.push_back(fmt::format("{}: {}", one.serial, one.explanations.front().advice));
    }
    if (told.empty()) {
        return std::nullopt;
    }
    constexpr std::size_t kMostNamed = 3; // the working has all
    if (const std::size_t all = told.size(); all > kMostNamed) {
        told.resize(kMostNamed);
        told.push_back(fmt::format("and {} more", all - kMostNamed));
    }
    Finding finding = planFinding("batch:" + batch.name, "batch.difference", Severity::caution,
                                  fmt::format("Undecided: {}.", fmt::join(told, "; ")),
                                  "Accept, dispute or correct these lines before the batch is settled.");
    finding.citation = fmt::format("the shop's own setting: a weighing tolerance of {}",
                                   shop.display().mass(shop.settings().weighingTolerance));
    finding.working = std::move(working);
    return finding;
}

} // namespace tarebook
