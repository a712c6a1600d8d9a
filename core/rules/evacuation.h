#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/date.h"
#include "core/quantity/mass.h"
#include "core/rules/rulebook.h"

namespace tarebook {

/// What a gauge showed in an appliance after recovery, or the share of the charge that came out.
class EvacuationReading {
public:
    /// Reads `10 inHg` (of vacuum), `25 mmHg` (absolute), `0 psig`, `90 %` (of the charge recovered). Error:
    /// no number, another unit, more than a whole vacuum or charge.
    [[nodiscard]] static Result<EvacuationReading> parse(std::string_view text);
    /// The level of a row of evacuation.csv.
    [[nodiscard]] static Result<EvacuationReading> ofRow(const RuleRow& row);

    [[nodiscard]] bool isShare() const { return m_share; }
    /// Inches of mercury above vacuum, with the 29.9 inches of 40 CFR 82.156 as the air's; or per cent of the
    /// charge.
    [[nodiscard]] double value() const { return m_value; }
    [[nodiscard]] const std::string& text() const { return m_text; }

private:
    bool m_share = false;
    double m_value = 0;
    std::string m_text;
};

/// What an appliance is and what is to be done to it.
struct EvacuationAsk {
    std::string appliance;           // pressure class as appliancePressure() names it, or `small`
    Mass fullCharge;                 // of one circuit
    std::optional<Date> machineMade; // the recovery machine; not known: the stricter level
    std::string work = "any"; // any, not-major, leaking; for small ones compressor-works, compressor-dead
    std::optional<EvacuationReading> reached;
};

/// The words that EvacuationAsk::work takes.
[[nodiscard]] const std::vector<std::string>& evacuationWorks();

/// How far it is evacuated before it is opened or disposed of (evacuation.csv, 40 CFR 82.156). Rule
/// `release.evacuation`: a note with the level, or, with a reading that falls short of it, a refusal. Error:
/// no such table, no row for such an appliance or work, a reading of another kind than the level.
[[nodiscard]] Result<Finding> evacuation(const Rulebook& book, const EvacuationAsk& ask);

} // namespace tarebook
