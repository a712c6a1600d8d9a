#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/month_year.h"
#include "core/shop/shop.h"

namespace tarebook {

/// What was recovered on a day from equipment that was taken out of use for good.
struct DisposedAppliance {
    std::string system;   // SITE/TAG: its location
    std::string address;  // of the site; empty: not on file
    std::string customer; // whose it was
    std::string refrigerant;
    std::optional<Mass> fullCharge; // of the register
    Date day = Date::fromDayNumber(0);
    Mass recovered; // all cylinders of the day together
    std::vector<Sequence> entries;
    bool counted = false; // in the monthly total: its full charge lies within the bounds of the rule
};

/// What went to a reclaimer or destroyer.
struct DisposalTransfer {
    std::string refrigerant; // as the batch names the contents
    Mass mass;
    std::string to;
    Date day = Date::fromDayNumber(0);
    std::string batch;
};

/// The records of a calendar month, in the shop's calendar.
struct DisposalMonth {
    MonthYear month;
    std::vector<DisposedAppliance> appliances; // by day, then system
    std::map<std::string, Mass> totals;        // by refrigerant, of those that count
    std::vector<DisposalTransfer> transfers;   // of all recovered gas: a cylinder does not tell the two apart
    std::vector<Finding> findings;
};

/// The 5 to 50 lb disposal records (40 CFR 82.156): of recoveries that were entered as being for disposal,
/// not reversed. Findings: `disposal.records` with the fields and how long they are kept, `disposal.charge`
/// where the full charge, `disposal.location` where the address of the site is not on file. Error: the
/// rulebook of that month asks for none, or the books cannot be read.
[[nodiscard]] Result<DisposalMonth> disposals(Shop& shop, MonthYear month);
/// The same of several months, in the order given, for which the books are read once.
[[nodiscard]] Result<std::vector<DisposalMonth>> disposals(Shop& shop, const std::vector<MonthYear>& months);

} // namespace tarebook
