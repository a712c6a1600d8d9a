#pragma once

#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/papers/issues.h"
#include "core/papers/machine_code.h"
#include "core/papers/paper_parts.h"

namespace tarebook {

/// One cylinder that a technician takes along.
struct SlipLine {
    std::string serial;
    std::string purpose; // `to recover R-410A from ST-ALDER/GYM-1`
    std::string job;
    std::string contents; // `20.0 lb R-410A`, `empty, evacuated`
    std::string tare;
    std::string stopAt; // gross to stop filling at, cut; empty: not known, or to charge from
    std::string room;   // the same as what still goes in
    bool charges = false;
    std::string grossNow;  // to charge from: by the books
    std::string chargedAt; // and when its part has gone out, `35.1 lb (10.0 lb out)`
    std::string due;
    std::vector<std::string> watch; // what to look out for
    MachineCode qr;                 // of the serial
    std::optional<MachineCode> bars;
    std::string noBars; // why there is no Code 128
};

/// What goes along with a technician, as content: a label printer or a page draws it.
struct CheckOutSlip {
    std::string title;
    std::string person;
    std::string certificate;
    std::string day;
    std::vector<std::string> jobs;
    std::string firm;
    std::string van;                     // what it all weighs against the limit; empty: nothing regulated
    std::vector<std::string> vanWorking; // cylinder by cylinder, limit and margin
    std::vector<SlipLine> lines;         // by serial
    std::vector<std::string> cautions;
    PaperIssue issue; // of the slips of this person
    std::string head; // of the books, shortened
};

/// Of all that is out with the technician now. Error: no such person, or nothing is out with them.
[[nodiscard]] Result<CheckOutSlip> slipOf(Shop& shop, const std::string& person);
/// What stands beside a cylinder in the order to be read, blank ones too.
[[nodiscard]] std::vector<PaperField> fieldsOf(const SlipLine& line);
/// `issue 1, 2026-09-14 12:00, books at 7c3a8977c69530cd`.
[[nodiscard]] std::string issueLine(const CheckOutSlip& slip);
/// Keeps in the books that this slip was issued.
[[nodiscard]] Recorded issueSlip(Shop& shop, const CheckOutSlip& slip);
/// For a terminal or a text file; a code cannot stand in it.
[[nodiscard]] std::string slipText(const CheckOutSlip& slip);
[[nodiscard]] nlohmann::json jsonOf(const CheckOutSlip& slip);

} // namespace tarebook
