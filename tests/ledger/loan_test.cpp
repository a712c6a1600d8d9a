// What a cylinder on deposit costs. Days are counted a second time with std::chrono of the standard library;
// sums in the comments are by hand. Amounts are invented.
#include "core/ledger/loan.h"

#include <chrono>
#include <random>

#include <gtest/gtest.h>

#include "core/ledger/entry.h"

using namespace tarebook;

namespace {

CylinderLoan loanSince(const char* since) {
    CylinderLoan loan{"A1", false, Date::parse(since).value()};
    loan.currency = "USD";
    loan.deposit = 15'000;
    loan.rental = 50;
    loan.freeDays = 30;
    return loan;
}
Date day(const char* text) {
    return Date::parse(text).value();
}

} // namespace

// From 1 September: 30 days on 1 October, none charged; 31 on 2 October, one at 0.50. On 31 December
// 29 + 31 + 30 + 31 = 121 days, 91 charged: 45.50.
TEST(Loan, RentalRunsAfterTheFreeDays) {
    const CylinderLoan loan = loanSince("2026-09-01");
    EXPECT_EQ(loan.cost(day("2026-08-01")), 0);
    EXPECT_EQ(loan.cost(day("2026-10-01")), 0);
    EXPECT_EQ(loan.cost(day("2026-10-02")), 50);
    EXPECT_EQ(loan.freeUntil(), day("2026-10-01"));
    EXPECT_EQ(loan.days(day("2026-12-31")), 121);
    EXPECT_EQ(loan.daysCharged(day("2026-12-31")), 91);
    EXPECT_EQ(loan.cost(day("2026-12-31")), 4'550);
    EXPECT_EQ(loan.text(), "deposit 150.00 USD, rental 0.50 USD a day after 30 days");
}

TEST(Loan, WhereNoRentalIsAskedNoDayIsTheLastFreeOne) {
    CylinderLoan loan = loanSince("2026-09-01");
    loan.rental = 0;
    EXPECT_EQ(loan.freeUntil(), std::nullopt);
}

// Over the end of February: two days to 1 March in 2028, one in 2027; 1.25 a day.
TEST(Loan, LeapYearsAndTheReturn) {
    CylinderLoan loan = loanSince("2028-02-28");
    loan.freeDays = 0;
    loan.rental = 125;
    EXPECT_EQ(loan.cost(day("2028-03-01")), 250);
    loan.until = day("2028-02-29");
    EXPECT_EQ(loan.cost(day("2028-12-31")), 125) << "nothing is added after it went back";
    loan.since = day("2027-02-28");
    loan.until.reset();
    EXPECT_EQ(loan.cost(day("2027-03-01")), 125);
}

TEST(LoanProperties, TheDaysAreThoseOfACalendarThatIsNotOurs) {
    using namespace std::chrono;
    std::mt19937 random(20261127);
    const auto written = [](sys_days its) {
        const year_month_day ymd(its);
        return Date::of(static_cast<int>(ymd.year()), static_cast<int>(static_cast<unsigned>(ymd.month())),
                        static_cast<int>(static_cast<unsigned>(ymd.day())))
            .value();
    };
    for (int round = 0; round < 200; ++round) {
        const sys_days since = sys_days(year(2026) / 1 / 1) + days(random() % 3'000);
        const sys_days on = since + days(random() % 900);
        CylinderLoan loan = loanSince("2026-01-01");
        loan.since = written(since);
        loan.freeDays = static_cast<int>(random() % 400);
        loan.rental = static_cast<Hundredths>(random() % 1'000);
        Hundredths sum = 0;
        int day = 0;
        for (sys_days one = since; one < on; one += days(1)) {
            sum += ++day > loan.freeDays ? loan.rental : 0; // each day that passed, by itself
        }
        EXPECT_EQ(loan.cost(written(on)), sum);
    }
}

// docs/journal.md, `loans` of a `party_set`.
TEST(Loan, ReadsBackWhatItWroteAndTheJournalTakesNoOther) {
    CylinderLoan loan = loanSince("2026-09-01");
    for (const bool ended : {false, true}) {
        loan.until = ended ? std::optional(day("2026-10-05")) : std::nullopt;
        EXPECT_EQ(CylinderLoan::from("A1", loan.body()).value(), loan);
    }
    const auto refusal = [](const nlohmann::json& loans) {
        const auto its = validated({"p-1",
                                    "Dana",
                                    Instant::parse("2026-09-14T21:30:00Z").value(),
                                    "UTC",
                                    EntryKind::partySet,
                                    {{"kind", "supplier"}, {"name", "Nordgas"}, {"loans", loans}}});
        return its ? std::string() : its.error().wrong;
    };
    EXPECT_EQ(refusal({{"A1", loan.body()}}), "");
    EXPECT_NE(refusal("A1").find("loans"), std::string::npos);
    EXPECT_NE(refusal({{" A1", loan.body()}}).find("serial"), std::string::npos);
    for (const auto& [field, value] :
         std::vector<std::pair<const char*, nlohmann::json>>{{"whose", "mine"},
                                                             {"since", "May"},
                                                             {"since", nullptr},
                                                             {"until", "2026-08-31"},
                                                             {"currency", "usd"},
                                                             {"currency", ""},
                                                             {"deposit_hundredths", -1},
                                                             {"deposit_hundredths", "150"},
                                                             {"rental_hundredths", 1'000'001},
                                                             {"free_days", -1},
                                                             {"free_days", 36'501}}) {
        nlohmann::json body = loan.body();
        body[field] = value;
        EXPECT_NE(refusal({{"A1", body}}), "") << field << " " << value;
    }
}
