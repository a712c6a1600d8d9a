#include "core/shop/evidence_sums.h"

#include <fmt/format.h>

#include "core/shop/held_then.h"
#include "core/store/flow_table.h"

namespace tarebook {

namespace {

/// A column of the balance between the opening and the closing, with its sign.
struct FlowColumn {
    const char* name;
    int sign;
};
constexpr std::array<FlowColumn, 9> kFlowColumns = {{{"opened", 1},
                                                     {"bought", 1},
                                                     {"recovered", 1},
                                                     {"decanted_in", 1},
                                                     {"charged", -1},
                                                     {"returned", -1},
                                                     {"released", -1},
                                                     {"decanted_out", -1},
                                                     {"variance", 1}}};
constexpr std::size_t kDecantedIn = 3;
constexpr std::size_t kDecantedOut = 7;

std::size_t columnOf(Flow flow) {
    switch (flow) {
    case Flow::opened:
        return 0;
    case Flow::bought:
        return 1;
    case Flow::recovered:
        return 2;
    case Flow::charged:
        return 4;
    case Flow::returned:
        return 5;
    case Flow::released:
        return 6;
    case Flow::variance:
        break;
    }
    return kFlowColumns.size() - 1;
}

} // namespace

void EvidenceSums::count(const Account& source, const Account& target, bool in, std::int64_t milligrams) {
    const auto crossing = crossingOf(source, target);
    if (crossing) {
        flows.at(columnOf(crossing->flow)) += crossing->sign * milligrams;
    } else {
        flows.at(in ? kDecantedIn : kDecantedOut) += milligrams;
    }
}

bool EvidenceSums::sumUp() const {
    std::int64_t sum = opening;
    for (std::size_t column = 0; column < flows.size(); ++column) {
        sum += kFlowColumns.at(column).sign * flows.at(column);
    }
    return sum == closing;
}

Result<AnswerTable> balanceTable(const std::map<std::string, EvidenceSums>& sums) {
    AnswerTable table{"balance", {"refrigerant", "opening"}, {}};
    table.columns.reserve(kFlowColumns.size() + 3);
    for (const FlowColumn& column : kFlowColumns) {
        table.columns.emplace_back(column.name);
    }
    table.columns.emplace_back("closing");
    for (const auto& [refrigerant, its] : sums) {
        if (!its.sumUp()) {
            return Error{
                fmt::format("the movements of {} do not lead from its opening to its closing", refrigerant),
                "have the file verified: a view of it does not fit the journal"};
        }
        std::vector<std::string> row{refrigerant, kilogramCell(its.opening)};
        row.reserve(table.columns.size());
        for (const std::int64_t flow : its.flows) {
            row.push_back(kilogramCell(flow));
        }
        row.push_back(kilogramCell(its.closing));
        table.rows.push_back(std::move(row));
    }
    return table;
}

} // namespace tarebook
