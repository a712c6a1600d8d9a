#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>

#include "core/ledger/posting.h"
#include "core/store/database.h"

namespace tarebook {

/// SQL of the fourth version of the file: sums of what crossed the border of the cylinders, by spans of time.
extern const char* const kFlowSchemaV4;
/// The first version of the file that keeps them.
inline constexpr int kFlowVersion = 4;

/// What mass that crosses the border of the cylinders counts as; kept in the file by its number.
enum class Flow { opened, bought, recovered, charged, returned, released, variance };

/// What a positive sum of the flow does to what the cylinders hold: 1 adds to it, -1 takes from it.
[[nodiscard]] int signOf(Flow flow);

struct BorderCrossing {
    Flow flow = Flow::variance;
    int sign = 1; // -1: it lessens the sum of its flow
};
/// Nothing for what goes from cylinder to cylinder, or lies beyond the border altogether.
[[nodiscard]] std::optional<BorderCrossing> crossingOf(const Account& source, const Account& target);

/// Spans of UTC that sums are kept for, in seconds: whole days, and quarters of an hour for the rest of a
/// period, since the offset of every zone in use is a multiple of one.
inline constexpr std::int64_t kDaySpan = 86'400;
inline constexpr std::int64_t kQuarterSpan = 900;

/// The sums of the legs as they stand now. Throws SqlFailure.
class FlowTable {
public:
    explicit FlowTable(Database& database) : m_database(database) {}

    /// A leg begins to stand, or stands no longer. Remembered until write().
    void add(const Leg& leg) { count(leg, 1); }
    void take(const Leg& leg) { count(leg, -1); }
    void write();

private:
    void count(const Leg& leg, std::int64_t times);

    using Span = std::pair<std::int64_t, std::int64_t>; // its length, its start
    using Changes =
        std::map<std::pair<std::string, Flow>, std::int64_t>; // milligrams by refrigerant and flow
    Database& m_database;
    std::map<Span, Changes> m_changes; // of years: most are found by two numbers
};

/// Fills the table from the legs of an older file.
void fillFlows(Database& database);

/// Milligrams by refrigerant and flow.
using FlowSums = std::map<std::pair<std::string, Flow>, std::int64_t>;
/// In [from, to), both multiples of kQuarterSpan.
[[nodiscard]] FlowSums flowsIn(Database& database, Instant from, Instant to);
/// From the beginning of the books to just before the moment, a multiple of kQuarterSpan.
[[nodiscard]] FlowSums flowsBefore(Database& database, Instant moment);

} // namespace tarebook
