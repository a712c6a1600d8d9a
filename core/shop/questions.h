#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/shop/answer_chart.h"
#include "core/shop/answer_table.h"
#include "core/shop/card.h"
#include "core/shop/shop.h"

namespace tarebook {

/// What a question wants to know before it can be answered, besides the books.
enum class QuestionNeed {
    nothing,
    period,   // from, to
    cylinder, // subject: a serial
    system,   // subject: SITE/TAG
    customer, // subject: whose the gas was; from, to
    holdings, // from, to; refrigerant, owner and step where they are given
};

/// How far apart the days are at whose end is asked: by day up to two months, otherwise by month.
enum class HeldStep { automatic, day, month };

/// What the shop itself is called where owners of gas are named.
inline constexpr std::string_view kShopAsOwner = "the shop";

/// A question that auditors ask, answered from the books alone. What the books do not know (calibration of a
/// scale, papers of others) is not asked of them.
struct Question {
    std::string_view name;  // for scripts: `where-went`; never changes
    std::string_view asker; // who asks it
    std::string_view words; // as they ask it
    QuestionNeed need;
};

struct QuestionInput {
    Date from = Date::fromDayNumber(0);
    Date to = Date::fromDayNumber(0); // included
    std::string subject = {};
    std::string refrigerant = {}; // empty: all
    std::string owner = {};       // empty: all; or kShopAsOwner
    HeldStep step = HeldStep::automatic;
};

/// What a row of an answer is about, where each has entries of its own.
struct AnswerPiece {
    Date from = Date::fromDayNumber(0);
    Date to = Date::fromDayNumber(0); // included
    std::string refrigerant = {};
};

struct QuestionAnswer {
    std::string sentence;
    AnswerTable table;             // masses in kilograms, to the milligram
    std::vector<Sequence> entries; // behind it, ascending; a register answers without one
    std::optional<AnswerChart> chart = {};
    std::vector<AnswerPiece> pieces = {}; // one a row of the table, or none at all
    /// What the rules say of what the rows are about, with working and source; subject as `system:SITE/TAG`.
    std::vector<Finding> findings = {};
};

/// In the order in which a window lists them.
[[nodiscard]] const std::vector<Question>& auditQuestions();
/// nullptr: no such question.
[[nodiscard]] const Question* questionNamed(std::string_view name);
/// `--from DAY --to DAY`, `a serial`: what is to be given, in words.
[[nodiscard]] std::string_view needWords(QuestionNeed need);

/// Error: something that it needs is missing or not known, or the books cannot be read.
[[nodiscard]] Result<QuestionAnswer> answered(Shop& shop, const Question& question,
                                              const QuestionInput& input);
/// What may be chosen for holdings: refrigerants that were ever held, owners of gas.
struct HeldChoices {
    std::vector<std::string> refrigerants;
    std::vector<std::string> owners; // the shop itself first
};
[[nodiscard]] Result<HeldChoices> heldChoices(Shop& shop);
/// The entries that made the holdings of a point what they are, of the gas that was asked about.
[[nodiscard]] Result<std::vector<HistoryLine>> linesOfPoint(Shop& shop, const QuestionInput& input,
                                                            const ChartPoint& point);
/// The entries that moved what the row is about, of the gas that was asked about.
[[nodiscard]] Result<std::vector<HistoryLine>> linesOfPiece(Shop& shop, const QuestionInput& input,
                                                            const AnswerPiece& piece);
/// The entries as a person reads them.
[[nodiscard]] Result<std::vector<HistoryLine>> linesOf(Shop& shop, const std::vector<Sequence>& entries);

} // namespace tarebook
