#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/ledger/loan.h"
#include "core/shop/shop.h"

namespace tarebook {

/// A cylinder on deposit or rent, as the books have it.
struct Deposit {
    std::string kind; // of the party: supplier, reclaimer, destroyer
    std::string party;
    CylinderLoan loan; // `until` also where the books show that the cylinder went back
    std::string ended; // what ended it, in words; empty while it is out
    [[nodiscard]] bool out(Date on) const { return !loan.until || *loan.until > on; }
};

/// All that had begun by the day, by party and serial. One ends on the day that was entered for it, or on the
/// first day after it began on which the books say that the cylinder went back: it left the fleet; a party's
/// was shipped in a batch to that party; the shop's own came back, or the batch that it went with was
/// settled.
[[nodiscard]] Result<std::vector<Deposit>> deposits(Shop& shop, Date on);
/// The deposit of one cylinder; nothing where there is none.
[[nodiscard]] Result<std::optional<Deposit>> depositOf(Shop& shop, const std::string& serial, Date on);

/// Enters the cylinder as on deposit with the party, or, where it is so already, these facts in place of
/// the earlier ones. Not recorded: no party of that name on file, or two kinds of party have it; no such
/// cylinder; out with another party; a beginning in the future; facts that are not CylinderLoan::sound().
[[nodiscard]] Recorded enterDeposit(Shop& shop, const std::string& party, const CylinderLoan& loan);
/// It went back on the day. Not recorded: it is not out, or the day lies before its beginning or in the
/// future.
[[nodiscard]] Recorded endDeposit(Shop& shop, const std::string& serial, Date day);

/// What is out on a day, of one side and in one currency.
struct DepositSum {
    bool away = false; // the shop's own, with others
    std::string currency;
    std::int64_t cylinders = 0;
    Hundredths deposit = 0;
    Hundredths cost = 0; // rental by then
};
[[nodiscard]] std::vector<DepositSum> depositSums(const std::vector<Deposit>& deposits, Date on);

/// What there is to say of a cylinder that is on deposit: `deposit.rental` (a caution) once rental runs,
/// `deposit.out` (a note) before, or where none is asked.
[[nodiscard]] Finding depositFinding(const Deposit& deposit, Date on);
/// Those of all cylinders whose rental runs. Error: a record cannot be read.
[[nodiscard]] Result<std::vector<Finding>> rentalsRunning(Shop& shop, Date on);

} // namespace tarebook
