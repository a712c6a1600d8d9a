#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/shop/stocktake.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

namespace tarebook::tests {

/// Book gross in pounds: A101 27.0, A102 28.1, A104 26.0 and A107 16.8, evacuated; A103 17.0 + 14.6 = 31.6;
/// A105 27.9 + 20.0 = 47.9; D001 6.1 + 25.0 = 31.1. Scale and tare together: 0.3 lb, as the shop has set.
class StocktakeTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
        setTime("2026-09-15 09:00");
    }
    [[nodiscard]] static Mass mass(const char* text) { return Mass::parse(text).value(); }
    /// A ticket: so much moved, without weights.
    Sequence moved(const char* serial, const char* text, const char* from, const char* to = "",
                   const char* job = "") {
        CheckIn facts;
        facts.serial = serial;
        facts.moved = mass(text);
        facts.from = from;
        facts.to = to;
        facts.job = job;
        facts.refrigerant = std::string(from).starts_with("supplier") ? "R-410A" : "";
        facts.comesBack = false;
        const Recorded recorded = checkIn(*m_shop, facts);
        expectRecorded(recorded);
        return recorded.entries.empty() ? 0 : recorded.entries.front();
    }
    /// To be carried where no system is named, else to recover.
    void handOut(const char* serial, const char* job, const char* system = "", const char* expected = "") {
        CheckOut out;
        out.person = "MORGAN VALE";
        out.job = job;
        out.serials = {serial};
        out.system = system;
        out.purpose = *system == '\0' ? Purpose::carry : Purpose::recover;
        if (*expected != '\0') {
            out.expected = mass(expected);
        }
        expectRecorded(checkOut(*m_shop, out));
    }
    void onScale(const char* serial, const char* gross) {
        expectRecorded(weigh(*m_shop, serial, mass(gross)));
    }
    [[nodiscard]] StocktakeReport walk(std::vector<std::pair<std::string, std::string>> weighings) {
        StocktakeAsk ask;
        for (const auto& [serial, gross] : weighings) {
            ask.weighings.push_back({serial, mass(gross.c_str())});
        }
        auto report = stocktake(*m_shop, ask);
        EXPECT_TRUE(report) << (report ? "" : report.error().text());
        return report ? std::move(report).value() : StocktakeReport();
    }
    [[nodiscard]] static const StockLine& line(const StocktakeReport& report, const std::string& serial) {
        static const StockLine kNone;
        for (const StockLine& one : report.lines) {
            if (one.serial == serial) {
                return one;
            }
        }
        ADD_FAILURE() << serial << " is not in the report";
        return kNone;
    }
    [[nodiscard]] static const StockCause& first(const StocktakeReport& report, const std::string& serial) {
        static const StockCause kNone;
        const StockLine& its = line(report, serial);
        EXPECT_FALSE(its.causes.empty()) << serial;
        return its.causes.empty() ? kNone : its.causes.front();
    }
    [[nodiscard]] static std::vector<std::string> serials(const std::vector<StockAbsence>& absences) {
        std::vector<std::string> all;
        for (const StockAbsence& absence : absences) {
            all.push_back(absence.serial);
        }
        return all;
    }
    /// Records what is proposed first; the same weight agrees with the books then.
    void expectMends(const StocktakeReport& report, const std::string& serial, const std::string& gross) {
        const StockCause& cause = first(report, serial);
        ASSERT_EQ(cause.commands.size(), cause.mend.size());
        ASSERT_EQ(cause.sentences.size(), cause.mend.size());
        expectRecorded(recordMend(*m_shop, report, cause));
        EXPECT_EQ(line(walk({{serial, gross}}), serial).verdict, StockVerdict::agrees) << cause.evidence;
    }
};

inline bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace tarebook::tests
