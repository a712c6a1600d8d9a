#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <string>

#include "core/ledger/account.h"
#include "core/shop/answer_table.h"
#include "core/shop/shop.h"

namespace tarebook {

/// What one refrigerant did within a period, in milligrams: the balance of evidence().
struct EvidenceSums {
    std::int64_t opening = 0;
    /// opened, bought, recovered, decanted_in, charged, returned, released, decanted_out, variance
    std::array<std::int64_t, 9> flows{};
    std::int64_t closing = 0;

    /// What went from the one account to the other, only one of which is meant; `in`: it is the target.
    void count(const Account& source, const Account& target, bool in, std::int64_t milligrams);
    [[nodiscard]] bool sumUp() const;
};

/// By refrigerant. Error: a row does not sum up.
[[nodiscard]] Result<AnswerTable> balanceTable(const std::map<std::string, EvidenceSums>& sums);

} // namespace tarebook
