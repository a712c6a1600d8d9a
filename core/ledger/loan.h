#pragma once

#include <optional>
#include <string>

#include <nlohmann/json.hpp>

#include "core/base/date.h"
#include "core/base/result.h"
#include "core/ledger/acceptance.h"

namespace tarebook {

/// A cylinder in the hands of another than its owner, and what that costs: a party's cylinder here, or one of
/// the shop's with a party. Money is in whole hundredths of the currency. Days are those of the shop's
/// calendar: the day on which it came is the zeroth, so one that goes the next day was there for one day; the
/// first `freeDays` of them cost nothing. That is how it is reckoned here, not how every contract does.
struct CylinderLoan {
    std::string serial;
    bool away = false; // the shop's own, with the party; otherwise the party's, here
    Date since = Date::fromDayNumber(0);
    std::optional<Date> until = {}; // the day it went back
    std::string currency = {};      // three capital letters of ISO 4217; may be empty where nothing is asked
    Hundredths deposit = 0;
    Hundredths rental = 0; // a day
    int freeDays = 0;

    /// Days until then, or until it went back.
    [[nodiscard]] int days(Date on) const;
    /// Those of them that cost rental.
    [[nodiscard]] int daysCharged(Date on) const;
    [[nodiscard]] Hundredths cost(Date on) const;
    /// The last day that costs nothing: who brings it back by then pays no rental. Nothing where none is
    /// asked.
    [[nodiscard]] std::optional<Date> freeUntil() const;
    /// `deposit 150.00 USD, rental 0.50 USD a day after 30 days`.
    [[nodiscard]] std::string text() const;
    /// Error: amounts below zero or above 10,000, no currency of amounts, a return before the beginning, free
    /// days out of 0 to 36500.
    [[nodiscard]] Result<bool> sound() const;

    /// What stands behind the serial in `loans` of a `party_set`. No end is null, which takes an earlier one
    /// back.
    [[nodiscard]] nlohmann::json body() const;
    /// Reads it back; Error names the field that is wrong.
    [[nodiscard]] static Result<CylinderLoan> from(const std::string& serial, const nlohmann::json& written);
    bool operator==(const CylinderLoan&) const = default;
};

} // namespace tarebook
