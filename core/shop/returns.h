#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/ledger/receipt.h"
#include "core/shop/card.h"
#include "core/shop/exchanged.h"

namespace tarebook {

/// A cylinder that may go to a reclaimer, or may not and why.
struct ReturnCandidate {
    std::string serial;
    std::string content; // designation, or MIXED: ...
    std::string line;    // its own terms: designation, `mixed`, `unknown`, `empty`
    Mass net;
    Mass gross;
    std::string owner; // of the gas
    bool eligible = false;
    std::string reason; // when not
    std::string remedy;
    std::string shipping; // `UN1018, Chlorodifluoromethane, 2.2`
};
/// Those with used gas, and with `empties` also those that hold nothing: they go back to whom they belong, or
/// in exchange. What is set aside for one batch does not go with another; `batch`: the one that is prepared
/// anew, whose own cylinders may go.
[[nodiscard]] Result<std::vector<ReturnCandidate>> returnCandidates(Shop& shop, bool empties = false,
                                                                    const std::string& batch = {});

struct BatchLine {
    std::string serial;
    std::string content;
    std::string shipping;
    Mass gross;
    Mass tare;
    Mass net;
    std::map<std::string, Mass> owners; // empty name: the shop
    std::optional<Mass> receivedGross;
    std::optional<Mass> receivedTare;
    std::optional<Mass> receivedNet;
    std::string analysis;
    std::string labels = {};                 // hazard labels, as Shipping::labels
    std::string division = {};               // as Shipping::division
    std::optional<ReceiptLine> receipt = {}; // all that the reclaimer said of it, as it was last entered
    std::string residue = {};                // of an empty one: what the paper says of the residue in it
    std::string last = {};                   // of an empty one: what was last in it
    std::string freed = {}; // of an empty one that the rules let go: by which, and what is done first
    std::optional<Instant> cameBack = {}; // checked in since it was shipped, the batch not settled yet
    [[nodiscard]] bool empty() const { return net <= Mass(); }
};
struct Batch {
    std::string name;
    std::string reclaimer;
    std::string status; // prepared, shipped, received, settled
    std::vector<BatchLine> lines;
    std::string reference; // of the receipt; of its parts, where it came in several
    std::optional<Instant> shipped;
    std::vector<Sequence> entries;
    std::string certificate = {}; // number of the reclaimer's certificate; kAwaited; empty: never asked for
    nlohmann::json credit = {};   // as docs/journal.md has it; null before it was settled on known terms
    [[nodiscard]] Mass gross() const;
    [[nodiscard]] Mass net() const;
    [[nodiscard]] std::size_t empties() const;
    /// Serials that have no line on a receipt and need one: an empty needs none.
    [[nodiscard]] std::vector<std::string> unreceived() const;
    /// The entry that was written last, whenever it happened; 0 where there is none.
    [[nodiscard]] Sequence newest() const;
    /// The status as it is shown: `received in part` where one of those is left.
    [[nodiscard]] std::string standing() const;
};
[[nodiscard]] Result<std::vector<Batch>> batches(Shop& shop);
[[nodiscard]] Result<Batch> batch(Shop& shop, const std::string& name);
/// `B-2026-004`.
[[nodiscard]] std::string nextBatchName(Shop& shop);

/// Refused when a cylinder may not be offered for transport, the remedy names where its contents could go,
/// and when it is set aside for another batch than `batch`. Of one that travels only to be emptied, the rule
/// that says so is among the findings, as a caution.
[[nodiscard]] Review reviewBatch(Shop& shop, const std::string& reclaimer,
                                 const std::vector<std::string>& serials, const std::string& batch = {});
/// Sets cylinders aside, or a batch that is prepared anew, with those that are named. Not recorded: what
/// reviewBatch() refuses, a batch that has left.
[[nodiscard]] Recorded prepareBatch(Shop& shop, const std::string& name, const std::string& reclaimer,
                                    const std::vector<std::string>& serials);
struct PreparedBatch {
    std::string name;
    Recorded recorded;
};
/// The same under the next free name, which nobody else can have taken in between.
[[nodiscard]] PreparedBatch prepareNextBatch(Shop& shop, const std::string& reclaimer,
                                             const std::vector<std::string>& serials);
/// It leaves, with the masses of the books as they are. Not recorded: what reviewBatch() refuses by now, a
/// batch that has left.
[[nodiscard]] Recorded shipBatch(Shop& shop, const std::string& name, const std::string& carrier,
                                 std::optional<Instant> occurred = {});
/// What stands for the certificate of a receipt that came without one.
inline constexpr std::string_view kAwaited = "awaited";
/// What stands for it where each line of the receipt names its own.
inline constexpr std::string_view kOnEachLine = "on each line";
/// The papers that come with the reclaimer's weights.
struct ReceiptPapers {
    std::string reference;        // number of the receipt
    std::string certificate = {}; // number of their certificate; empty: it did not come along
};
/// The reclaimer's own weights; differences stay to be settled. Lines that a first part of the receipt does
/// not have can be entered until the batch is settled. Not recorded: a cylinder that was not sent, stands
/// twice or has its line already, weights that cannot be. Differences beyond the weighing tolerance that
/// nobody has decided are said: a finding `batch.difference`; so is what failed their analysis:
/// failedAnalysis().
[[nodiscard]] Recorded receiveBatch(Shop& shop, const std::string& name, const ReceiptPapers& papers,
                                    const std::vector<ReceiptLine>& lines,
                                    std::optional<Instant> occurred = {});
/// How a batch ends.
struct BatchSettling {
    std::vector<std::string> gone = {}; // leave the fleet; all others are back
    std::string note = {};
    std::optional<Instant> occurred = {};
    std::vector<Exchanged> came = {}; // in exchange: each for one that is gone too
    Sequence looked = 0;              // newest entry of the batch that was looked at; 0: as it stands
    /// Settles also what nobody has decided: lines that differ beyond the weighing tolerance, and a cylinder
    /// that is said to be back although the receipt names the empty that came for it.
    bool undecided = false;
};
/// Settles with the reclaimer: what they received counts, differences go to variance, and the credit by the
/// terms on file is kept; the cylinders that came in exchange are registered in the same transaction. Not
/// recorded while a line is disputed, a difference is not decided (but for BatchSettling::undecided), or a
/// cylinder that is said to be back has no line; an empty one needs none, and a batch of empties alone is
/// settled without a receipt. What is settled undecided is said: a finding `batch.difference`; so is an
/// exchange that the terms do not know, or know and that is missing: exchangeFindings().
[[nodiscard]] Recorded settleBatch(Shop& shop, const std::string& name, const BatchSettling& how);
/// The batch, where it stands so (`shipped`, `received`). Error: there is none, or it is further or less far.
[[nodiscard]] Result<Batch> batchThatIs(Shop& shop, const std::string& name, const std::string& status);

} // namespace tarebook
