#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// Something that a record lacks, and of what.
struct RecordGap {
    std::string subject; // `system:HARBOR/DOCK-1`, `person:MORGAN VALE`, `batch:B-2026-001`
    Sequence entry = 0;  // 0: of a register, not of one entry
    std::string missing; // `full charge, technician`
};

/// A record that the law, or good practice, asks for: a row of resources/records/record-fields.csv, and what
/// the books have of it.
struct RecordKept {
    std::string keeper;
    std::string record;
    std::string fields;
    std::string retention;
    std::string jurisdiction;
    std::string status; // how firm the source of the row is
    /// False: kept elsewhere (papers of others, photographs, invoices); nothing is said of it.
    bool inTheseBooks = false;
    int asked = 0; // of how many it was asked within the period
    std::vector<RecordGap> gaps;
    [[nodiscard]] std::string verdict() const; // `complete`, `2 of 7 lack something`, `none in the period`
};

/// The records of the shop's rulebook and of practice, in the order of the table: what happened from the one
/// day to the other, both included, and the registers of whoever and whatever took part. The books tell only
/// what was entered: complete is no opinion on whether it is true. Error: the table cannot be read, or the
/// period ends before it begins.
[[nodiscard]] Result<std::vector<RecordKept>> recordsKept(Shop& shop, Date from, Date to);

/// One look at the books for a record, by the name that the table has for it.
using RecordCheck = std::function<Result<bool>(Shop&, Date, Date, RecordKept&)>;
/// Nothing for a name that there is no check of.
[[nodiscard]] RecordCheck recordCheckNamed(const std::string& name);

} // namespace tarebook
