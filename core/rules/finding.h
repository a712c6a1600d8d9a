#pragma once

#include <string>
#include <vector>

namespace tarebook {

/// How much a finding weighs. A plan is refused by `refusal`; a recorded fact raises one that stays open.
enum class Severity {
    note,    // worth knowing, nothing to do
    caution, // to be seen to soon, or a thin margin
    refusal, // the plan must not go ahead as it is; a recorded fact that breaks a rule
    danger,  // someone can be hurt: overfilled, pressure class too low
};

/// How firm the source of a rule is, carried from the reference into the data.
enum class Firmness {
    verified, // read in the text of the law or standard
    reading,  // our reading of a text that can be read otherwise
    practice, // common practice, no law
    memory,   // from memory: check against your edition
    doubt,    // sources disagree: check before relying on it
};

/// What a rule says about a plan or a fact, with its working: a person can disagree with a number only if
/// they can see it.
struct Finding {
    std::string rule; // the rule's own name, as `retest.overdue`; stable, scripts rely on it
    Severity severity = Severity::note;
    std::string subject;  // the account or thing it is about, as `cylinder:A103`; empty for calculators
    std::string headline; // one sentence, with the numbers that matter
    std::vector<std::string> working; // inputs, the formula with its numbers, the limit, line by line
    std::string citation;             // `49 CFR 180.205(d)` or `common practice`
    std::string edition;              // the rulebook's edition, as `us 2024-10`
    Firmness firmness = Firmness::verified;
    std::string
        remedy; // the one step that starts the remedy, an imperative sentence; empty when none is needed
    bool overrulable = false; // a person may go on with a stated reason
    std::string row = {};     // the row of the rulebook behind it, as RuleRow::place; empty: none

    bool operator==(const Finding&) const = default;
};

/// `note`, `caution`, `refusal`, `danger`.
[[nodiscard]] std::string severityWord(Severity severity);
/// What a person reads beside the citation; empty for verified. `check against your edition` for memory.
[[nodiscard]] std::string firmnessWord(Firmness firmness);
/// The word in the data files: VERIFIED, READING, PRACTICE, MEMORY, DOUBT; unknown words count as DOUBT.
[[nodiscard]] Firmness firmnessFromData(const std::string& word);

} // namespace tarebook
