// A reclaimer's receipt: three masses told apart, and why one differs from what was shipped. The pound is
// 0.45359237 kg exactly (NIST Handbook 44, Appendix C); sums in the comments are by hand.
#include "core/ledger/receipt_causes.h"

#include <algorithm>
#include <random>

#include <gtest/gtest.h>

#include "core/ledger/entry.h"

using namespace tarebook;

namespace {

Mass lb(const std::string& number) {
    return Mass::parse(number + " lb").value();
}
ReceiptEvidence evidence(const std::string& serial, Mass gross, Mass tare, Mass sent, Mass registered) {
    return {ReceiptLine{serial, gross, tare}, sent, registered, {}};
}
const Mass kWithin = lb("0.3");

std::vector<ReceiptCause> causesOf(const ReceiptDifference& one) {
    std::vector<ReceiptCause> causes;
    for (const ReceiptExplanation& its : one.explanations) {
        causes.push_back(its.cause);
    }
    return causes;
}

} // namespace

// 49.1 - 28.1 = 21.0 lb = 9 525 440 mg (9 525 439.77); oil 0.2 lb = 90 718 mg (90 718.474), moisture 5 g.
// Payable: 22 271 385 - 12 745 946 - 90 718 - 5 000 = 9 429 721 mg, each weight rounded by itself.
TEST(Receipt, PayableIsReceivedLessWhatIsTakenOff) {
    ReceiptLine line{"A102", lb("49.1"), lb("28.1")};
    line.deductions = {{"oil", lb("0.2")}, {"moisture", Mass::fromMilligrams(5'000)}};
    EXPECT_EQ(line.net().milligrams(), 9'525'439);
    EXPECT_EQ(line.deducted().milligrams(), 95'718);
    EXPECT_EQ(line.payable().milligrams(), 9'429'721);
    EXPECT_TRUE(line.sound());
    line.deductions.push_back({"other", lb("21")});
    EXPECT_FALSE(line.sound()) << "more is taken off than was received";
    EXPECT_FALSE((ReceiptLine{"A1", lb("20"), lb("21")}.sound()));
}

TEST(Receipt, ReadsBackWhatItWroteAndNamesWhatIsWrong) {
    ReceiptLine line{"A102", lb("49.1"), lb("28.1"), "98.1 % R-22", "C-7", {{"oil", lb("0.2")}}};
    line.result = AnalysisResult::impure;
    line.verdict = ReceiptVerdict::disputed;
    line.why = "their tare";
    const auto back = ReceiptLine::from(line.body());
    ASSERT_TRUE(back);
    EXPECT_EQ(back.value().body(), line.body());
    EXPECT_EQ(back.value().deductions, line.deductions);
    EXPECT_TRUE(failed(back.value().result));
    EXPECT_FALSE(failed(AnalysisResult::passed));
    EXPECT_FALSE(failed(AnalysisResult::notStated));
    nlohmann::json wrong = line.body();
    wrong["result"] = "fine";
    EXPECT_FALSE(ReceiptLine::from(wrong));
    wrong = line.body();
    wrong["deductions"] = {{{"what", ""}, {"mass_mg", 5}}};
    EXPECT_FALSE(ReceiptLine::from(wrong));
    // As receipts were written before there was more than an analysis.
    EXPECT_TRUE(ReceiptLine::from({{"serial", "A1"}, {"gross_mg", 5}, {"tare_mg", 3}, {"net_mg", 2}}));
}

// docs/journal.md, `batch_received`: what its table does not allow is refused before it stands in the
// journal, and the reason names the line and what is wrong in it.
TEST(Receipt, AMalformedReceiptDoesNotGetIntoTheJournal) {
    const auto refusal = [](const char* field, nlohmann::json value) {
        nlohmann::json line = {{"serial", "A1"}, {"gross_mg", 9'000}, {"tare_mg", 4'000}, {"net_mg", 5'000}};
        line[field] = std::move(value);
        const auto written = validated(
            {"r-1",
             "Dana",
             Instant::parse("2026-09-14T21:30:00Z").value(),
             "UTC",
             EntryKind::batchReceived,
             {{"batch", "B-1"}, {"reclaimer", "Cape Reclaim"}, {"lines", nlohmann::json::array({line})}}});
        return written ? std::string() : written.error().wrong;
    };
    const auto taken = [](const char* what, std::int64_t mass) {
        return nlohmann::json::array({{{"what", what}, {"mass_mg", mass}}});
    };
    for (const auto& [field, value] :
         std::vector<std::pair<const char*, nlohmann::json>>{{"serial", "A1"},
                                                             {"result", "mixed"},
                                                             {"verdict", "accepted"},
                                                             {"certificate", "C-7"},
                                                             {"deductions", taken("oil", 5'000)}}) {
        EXPECT_EQ(refusal(field, value), "") << field;
    }
    for (const auto& [field, value, reason] :
         std::vector<std::tuple<const char*, nlohmann::json, const char*>>{
             {"gross_mg", "9 kg", "line of A1: gross_mg is missing"},
             {"tare_mg", -1, "tare_mg must not be negative"},
             {"net_mg", 4'999, "net_mg is not gross_mg less tare_mg"},
             {"result", "fine", "no result of an analysis"},
             {"result", 7, "result is no text"},
             {"verdict", "agreed", "no verdict"},
             {"verdict", "disputed", "without a reason"},
             {"certificate", 7, "certificate is no text"},
             {"deductions", "oil", "deductions is no list"},
             {"deductions", taken("", 5), "no name or no mass"},
             {"deductions", taken("oil", -5), "no name or no mass"},
             {"deductions", taken("oil", 1'000'000'000'001), "at most 1000 t"},
             {"deductions", taken("oil", 5'001), "more than the"},
             {"serial", nullptr, "serial is no text"}}) {
        EXPECT_NE(refusal(field, value).find(reason), std::string::npos)
            << field << " " << value << ": " << refusal(field, value);
    }
    Draft draft{"r-1",
                "Dana",
                Instant::parse("2026-09-14T21:30:00Z").value(),
                "UTC",
                EntryKind::batchReceived,
                {{"batch", "B-1"}, {"reclaimer", "Cape Reclaim"}, {"lines", "A1"}}};
    EXPECT_NE(validated(draft).error().wrong.find("lines"), std::string::npos);
    draft.body["lines"] = nlohmann::json::array(); // a certificate that came later
    EXPECT_TRUE(validated(draft));
    draft.body["certificate"] = 7;
    EXPECT_FALSE(validated(draft));
}

// 49.2 - 28.1 = 21.1 lb against 21.8, their tare the register's: nothing explains it.
TEST(Receipt, WhatNothingExplainsSaysSo) {
    const auto its =
        receiptDifferences({evidence("A102", lb("49.2"), lb("28.1"), lb("21.8"), lb("28.1"))}, kWithin);
    ASSERT_TRUE(its[0].beyond);
    EXPECT_EQ(causesOf(its[0]), std::vector<ReceiptCause>{ReceiptCause::less});
    // 21.6 against 21.8 is within 0.3 lb.
    const auto near =
        receiptDifferences({evidence("A102", lb("49.7"), lb("28.1"), lb("21.8"), lb("28.1"))}, kWithin);
    EXPECT_FALSE(near[0].beyond);
    EXPECT_TRUE(near[0].explanations.empty());
}

// Weighed empty 29.0 lb where the collar says 28.2: they take off 28.2 from 50.7, 22.5; shipped were
// 50.7 - 29.0 = 21.7. The difference, +0.8, is weighed less stamped.
TEST(Receipt, TheStampedTareIsRecognised) {
    ReceiptEvidence one = evidence("A102", lb("50.7"), lb("28.2"), lb("21.7"), lb("29.0"));
    one.mark = lb("28.2");
    const auto its = receiptDifferences({one}, kWithin);
    ASSERT_FALSE(its[0].explanations.empty());
    EXPECT_EQ(its[0].explanations[0].cause, ReceiptCause::tareUsed);
    EXPECT_EQ(its[0].explanations[0].figures, 2);
    EXPECT_EQ(its[0].explanations[0].tare, lb("29.0"));
    one.mark.reset();
    EXPECT_EQ(receiptDifferences({one}, kWithin)[0].explanations[0].figures, 1) << "a tare of their own";
}

// 49.9 lb are 22.634 kg (49.9 x 0.45359237 = 22.63426): written as 22.63 lb, below the tare were it right;
// with the tare 12.75 kg (28.1 lb = 12.74595) written as 12.75 lb the net is 9.88 lb, shipped 21.8 lb.
TEST(Receipt, KilogramsWrittenAsPounds) {
    const auto its =
        receiptDifferences({evidence("A102", lb("22.63"), lb("12.75"), lb("21.8"), lb("28.1"))}, kWithin);
    ASSERT_FALSE(its[0].explanations.empty());
    EXPECT_EQ(its[0].explanations[0].cause, ReceiptCause::slip);
    EXPECT_EQ(its[0].explanations[0].gross->milligrams(), 22'630'000);
    EXPECT_EQ(its[0].explanations[0].tare->milligrams(), 12'750'000);
}

// A103 41.8 gross, A107 20.0: exchanged on their paper. 20.0 - 16.8 = 3.2 was to be 24.8.
TEST(Receipt, NumbersOfTwoCylindersExchanged) {
    const auto its = receiptDifferences({evidence("A103", lb("20.0"), lb("16.8"), lb("24.8"), lb("17.0")),
                                         evidence("A107", lb("41.8"), lb("17.0"), lb("3.2"), lb("16.8"))},
                                        kWithin);
    for (const auto& one : its) {
        ASSERT_FALSE(one.explanations.empty());
        EXPECT_EQ(one.explanations[0].cause, ReceiptCause::swapped);
    }
    EXPECT_EQ(its[0].explanations[0].gross, lb("41.8"));
    EXPECT_EQ(its[0].explanations[0].tare, lb("17.0"));
}

// Shipped 21.8; 49.2 - 28.1 = 21.1, and 0.7 lb of oil is taken off beside: 21.1 + 0.7 = 21.8.
TEST(Receipt, OilThatIsTakenOffTwice) {
    ReceiptEvidence one = evidence("A102", lb("49.2"), lb("28.1"), lb("21.8"), lb("28.1"));
    one.line.deductions = {{"oil", lb("0.7")}};
    EXPECT_EQ(causesOf(receiptDifferences({one}, kWithin)[0]),
              (std::vector<ReceiptCause>{ReceiptCause::oilTwice, ReceiptCause::less}));
}

// Any two lines of an honest receipt exchanged: found for both, named first, and its weights are the honest
// ones again. Cylinders whose weights are alike within the tolerance are left out: exchanged, they agree.
TEST(ReceiptProperties, EveryExchangeOfTwoIsFoundAndUndone) {
    std::mt19937 random(20260921);
    int tried = 0;
    for (int round = 0; round < 40; ++round) {
        std::vector<ReceiptEvidence> honest;
        for (int number = 0; number < 6; ++number) {
            const Mass tare = Mass::fromMilligrams(7'000'000 + 1'000 * (random() % 7'000));
            const Mass net = Mass::fromMilligrams(1'000'000 + 1'000 * (random() % 11'000));
            honest.push_back(evidence("C" + std::to_string(number),
                                      Mass::fromMilligrams(tare.milligrams() + net.milligrams()), tare, net,
                                      tare));
        }
        for (const auto& one : receiptDifferences(honest, kWithin)) {
            EXPECT_FALSE(one.beyond);
        }
        const std::size_t first = random() % 6;
        const std::size_t second = (first + 1 + random() % 5) % 6;
        std::vector<ReceiptEvidence> told = honest;
        std::swap(told[first].line.gross, told[second].line.gross);
        std::swap(told[first].line.tare, told[second].line.tare);
        const auto its = receiptDifferences(told, kWithin);
        for (const std::size_t place : {first, second}) {
            if (!its[place].beyond) {
                continue;
            }
            ++tried;
            const auto found = std::find_if(
                its[place].explanations.begin(), its[place].explanations.end(), [&](const auto& one) {
                    return one.cause == ReceiptCause::swapped && one.gross == honest[place].line.gross &&
                           one.tare == honest[place].line.tare;
                });
            ASSERT_NE(found, its[place].explanations.end());
            EXPECT_EQ(its[place].explanations.front().figures, 3);
        }
    }
    EXPECT_GT(tried, 40);
}
