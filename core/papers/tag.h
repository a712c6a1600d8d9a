#pragma once

#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/papers/issues.h"
#include "core/papers/machine_code.h"
#include "core/papers/paper_parts.h"

namespace tarebook {

/// What hangs on a cylinder, as content: a label printer or a page draws it. The fields are those that the
/// trade's return tags have: refrigerant, number, tare, gross, net, date, technician, firm, owner or job,
/// condition.
struct CylinderTag {
    std::string serial;
    std::string contents;    // `R-410A`, `MIXED`, `UNKNOWN`, `EMPTY`
    std::string composition; // by the books, of what is more than one refrigerant
    std::string tare;
    std::string gross; // by the books
    std::string net;
    std::string stopAt;  // gross, cut; or `see slip`, `not known`, `do not fill`
    std::string date;    // when it was last filled; of the issue where nothing ever was
    bool filled = false; // the date is that of the filling
    std::string technician;
    std::string firm;
    std::string job;
    std::string gasOf;      // owner of the gas
    std::string cylinderOf; // owner of the cylinder, where that is not the shop
    std::string condition;  // `recovered, mixed`, `condemned: dent`
    std::string due;        // `2028-06`, `never`
    std::string shipping;   // description of the contents, or why there is none; empty: nothing inside
    std::vector<std::string> warnings; // of danger, and that it may not travel
    std::vector<std::string> cautions;
    MachineCode qr; // of the serial
    std::optional<MachineCode> bars;
    std::string noBars; // why there is no Code 128
    PaperIssue issue;   // of the tags of this cylinder
    std::string issued; // local time
    std::string head;   // of the books, shortened
};

/// Error: no such cylinder, or a serial that cannot be coded at all.
[[nodiscard]] Result<CylinderTag> tagOf(Shop& shop, const std::string& serial);
/// Tare, gross, net and the gross to stop at; and the rest in the order to be read, blank ones too: the label
/// of one that is left to the pen says so.
[[nodiscard]] std::vector<PaperField> weightsOf(const CylinderTag& tag);
[[nodiscard]] std::vector<PaperField> factsOf(const CylinderTag& tag);
/// `issue 1, 2026-09-14 12:00, books at 7c3a8977c69530cd`.
[[nodiscard]] std::string issueLine(const CylinderTag& tag);
/// Keeps in the books that these tags were issued.
[[nodiscard]] Recorded issueTags(Shop& shop, const std::vector<CylinderTag>& tags);
/// For a terminal or a text file; a code cannot stand in it.
[[nodiscard]] std::string tagText(const CylinderTag& tag, std::size_t number = 1, std::size_t all = 1);
[[nodiscard]] nlohmann::json jsonOf(const CylinderTag& tag);

} // namespace tarebook
