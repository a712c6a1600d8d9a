#pragma once

#include <string>
#include <vector>

#include "core/ledger/entry.h"
#include "core/shop/answer_table.h"
#include "core/shop/shop.h"

namespace tarebook {

/// Of what evidence is asked: a period, both days included, in the shop's calendar; of all that happened, of
/// one customer or of one cylinder.
struct EvidenceQuestion {
    Date from = Date::fromDayNumber(0);
    Date to = Date::fromDayNumber(0);
    std::string customer = {}; // as the sites name it; empty: not asked
    std::string serial = {};   // empty: not asked
};

/// The answer by the books as they stand, without their place in the chain.
struct Evidence {
    std::string title;
    std::vector<std::string> sentences; // what the tables say, in words
    /// holdings (at the end of the period), movements, releases, balance, findings and, where neither a
    /// customer nor a cylinder is asked of, records (which of them are complete). Masses in kilograms, to
    /// the milligram; moments in local time with their offset.
    std::vector<AnswerTable> tables;
    /// Every entry that it rests on, by its number: what happened in the period and what took it back.
    std::vector<Entry> entries;
};

/// The columns of `balance` sum up: opening + opened + bought + recovered + decanted_in - charged - returned
/// - released - decanted_out + variance = closing, where opening and closing are read from the cylinders and
/// the rest from the movements; where they did not, no evidence is given. Of a customer the balance is that
/// of gas which is theirs, of a cylinder that of what it held. Findings are those of the day of `shop`.
/// Error: the period ends before it begins, both a customer and a cylinder, no such customer or cylinder.
[[nodiscard]] Result<Evidence> evidence(Shop& shop, const EvidenceQuestion& question);

} // namespace tarebook
