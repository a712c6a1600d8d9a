#pragma once

#include <vector>

#include "core/shop/questions.h"

namespace tarebook {

// What questions about gas over time are given, for question_held.cpp and question_balances.cpp.

/// Days at whose end is asked: the one before the period, those within it, its last.
struct DaysAsked {
    std::vector<Date> ends;
    bool each = false; // of them, rather than of months
};

/// Error: more steps than one answer has.
[[nodiscard]] Result<DaysAsked> daysAsked(Date from, Date to, HeldStep step);
/// The beginnings of the days after those, in the shop's zone.
[[nodiscard]] std::vector<Instant> startsAfter(const Shop& shop, const std::vector<Date>& days);
/// Error: neither the catalogue nor the books know the refrigerant.
[[nodiscard]] Result<GasWanted> gasAsked(Shop& shop, const QuestionInput& input);
/// An owner of whose gas nothing was found, and who is no customer: a slip of the pen.
[[nodiscard]] std::optional<Error> strangeOwner(Shop& shop, const QuestionInput& input);
/// `refrigerant`, `R-22 owned by St. Alder Schools`.
[[nodiscard]] std::string gasWords(const GasWanted& gas);
/// As the shop reads its scales; the milligrams stand in the table.
[[nodiscard]] std::string massWords(const Shop& shop, std::int64_t milligrams);
/// Up to so many days the entries of the whole period are listed; of a longer one they are asked for piece by
/// piece.
inline constexpr int kMostDaysOfEntries = 31; // our own setting

} // namespace tarebook
