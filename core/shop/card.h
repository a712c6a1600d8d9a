#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/ledger/cylinder_state.h"
#include "core/rules/finding.h"
#include "core/shop/shop.h"

namespace tarebook {

/// What a cylinder may hold, of what is inside (or of what is planned).
struct Limits {
    bool known = false;   // false: empty and no refrigerant intended, or contents unknown
    std::string contents; // what they were computed for
    Mass net;             // governing limit
    Mass lawful;          // least of the statutory limits; `net` where there is only practice
    Mass room;            // net minus what is inside; negative: overfilled
    Mass grossToStop;     // tare plus net
    std::string governingRule;
    std::vector<std::string> working; // line by line, every candidate
    GaugePressure at55;               // pressure of these contents at 55 degC
    GaugePressure pressureLimit;
    bool pressureSuits = true;
    bool pressureThin = false; // the margin is thinner than the model's uncertainty
    std::string pressureWorking;
    std::string problem; // why not known
    // What the pressure verdict compared, and what it rests on.
    GaugePressure pressureCompared = {};
    std::optional<Temperature> pressureComparedAt = {};
    std::string pressureCitation = {};
    Firmness pressureFirmness = Firmness::verified;
    std::string pressureRow = {}; // as Finding::row
};

/// Limits of a cylinder for the contents it has; where empty, for the intended refrigerant; `planned`
/// overrides both.
/// `on`: by the rulebook of that day; none: of today.
[[nodiscard]] Limits limitsFor(const Shop& shop, const CylinderState& state, const std::string& planned = {},
                               std::optional<Date> on = {});
/// The contents as the catalogue reads them (`R-22:0.833333+R-410A:0.166667`); empty when nothing is inside.
[[nodiscard]] std::string contentsText(const Holding& content);
/// For lists: `R-410A`, `R-22 + R-410A`, empty.
[[nodiscard]] std::string contentName(const Holding& content);

/// Who had the cylinder and when.
struct Custody {
    std::string person;
    std::string job;
    Instant from;
    std::optional<Instant> until;
    Sequence entry = 0;
};

/// One entry about a subject in a sentence.
struct HistoryLine {
    Sequence entry = 0;
    Instant occurred;
    Instant recorded;
    std::string kind;     // as entryKindWord
    std::string sentence; // `Charged 8.0 lb into ST-ALDER/GYM-1`
    std::string operatorName;
    std::optional<Sequence> reversedBy;
};

/// All that the card of a cylinder shows.
struct Card {
    CylinderState state;
    Limits limits;
    std::string due; // `2028-06`, `never`
    bool fillAllowed = false;
    bool shipAllowed = false;
    std::vector<std::string> exchange; // what it brings in exchange, by the terms of reclaimers; sentences
    std::vector<Finding> findings;     // open now, time-based ones too, worst first
    std::vector<Custody> custody;      // newest first
    std::vector<HistoryLine> history;  // newest first
};

/// Error: no such cylinder; names the nearest serial. `head` 0: now.
[[nodiscard]] Result<Card> card(Shop& shop, const std::string& serial, Sequence head = 0);
/// What the rules say of a cylinder as it stands on a day: state-based and time-based findings, worst first.
[[nodiscard]] std::vector<Finding> findingsOf(const Shop& shop, const CylinderState& state, Date on);
/// What is kept in the views: due month, limit and the findings that do not depend on the day.
[[nodiscard]] CylinderReview reviewOf(const Shop& shop, const CylinderState& state);
[[nodiscard]] std::vector<HistoryLine> historyOf(Shop& shop, const std::string& subject, Sequence head = 0);
/// One entry in a sentence of the trade.
[[nodiscard]] std::string sentenceOf(const Shop& shop, const Entry& entry);

} // namespace tarebook
