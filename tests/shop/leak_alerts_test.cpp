// Systems over their leak limit reach the list of the day, and the charge that makes it so says it at once.
// Comfort cooling 10 %, over and not equal (40 CFR 82.157(c)(2); HFC from 15 lb: 84.106); annualizing method
// and rolling average as 82.152 defines them; 125 % in a calendar year is reported by 1 March (82.157(j)).
#include "core/shop/equipment.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kHall = "system:ST-ALDER/HALL";

class LeakAlertsTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        setTime("2025-06-01 08:00");
        const System hall{"ST-ALDER", "HALL", "St. Alder Schools", "R-410A", lb("100"), "comfort cooling"};
        expectRecorded(m_shop->record(draftsOf(*m_shop, hall)));
        NewCylinder store = weekCylinder("BULK", "DOT-4BA400", "1500", "380", "2025-03");
        store.evacuated = false;
        store.content = lb("900");
        store.refrigerant = "R-410A";
        store.contentState = GasState::unused;
        store.source = "supplier:Estuary Supply";
        expectRecorded(registerCylinders(*m_shop, {store}));
    }
    static CheckIn charge(const char* mass) {
        CheckIn facts;
        facts.serial = "BULK";
        facts.moved = lb(mass);
        facts.to = kHall;
        return facts;
    }
    std::vector<Finding> charged(const std::string& moment, const char* mass) {
        setTime(moment);
        const Recorded recorded = checkIn(*m_shop, charge(mass));
        expectRecorded(recorded);
        return about(recorded.findings);
    }
    static std::vector<Finding> about(const std::vector<Finding>& findings) {
        std::vector<Finding> its;
        std::copy_if(findings.begin(), findings.end(), std::back_inserter(its),
                     [](const Finding& one) { return one.subject == kHall; });
        return its;
    }
    std::vector<std::string> alerts(const std::string& day) {
        const auto list = today(*m_shop, Date::parse(day).value());
        EXPECT_TRUE(list);
        std::vector<std::string> rules;
        for (const Alert& alert : list.value().alerts) {
            if (alert.subject == kHall) {
                EXPECT_EQ(alert.title, "ST-ALDER/HALL");
                EXPECT_EQ(alert.remedy, Remedy::seeAdditions);
                rules.push_back(alert.finding.rule);
            }
        }
        return rules;
    }
    void choose(const char* method) {
        Settings settings = m_shop->settings();
        ASSERT_TRUE(settings.set("leak_method", method));
        expectRecorded(m_shop->change(settings));
    }
    using Rules = std::vector<std::string>;
};

} // namespace

TEST_F(LeakAlertsTest, TheChargeSaysItsRateAtOnce) {
    const auto first = charged("2026-03-01 10:00", "6");
    ASSERT_EQ(first.size(), 1U);
    EXPECT_EQ(first.front().severity, Severity::note);
    EXPECT_NE(first.front().headline.find("6.00 % in 365 days"), std::string::npos) << first.front().headline;
    // 2 lb of 100 after 73 days: 2 % x 365 / 73 is 10 % a year, and 10 % is not over; 8 % in 365 days.
    const auto second = charged("2026-05-13 10:00", "2");
    ASSERT_EQ(second.size(), 1U);
    EXPECT_EQ(second.front().severity, Severity::note) << second.front().headline;
    EXPECT_TRUE(alerts("2026-05-13").empty());
    setTime("2026-06-01 10:00");
    const auto ahead = about(review(*m_shop, charge("5")).findings);
    ASSERT_EQ(ahead.size(), 1U) << "before it is entered";
    EXPECT_EQ(ahead.front().rule, "leak.rate");
    EXPECT_EQ(ahead.front().severity, Severity::caution);
    const auto third = charged("2026-06-01 10:00", "5");
    ASSERT_EQ(third.size(), 1U);
    EXPECT_EQ(third.front().headline, ahead.front().headline);
    EXPECT_EQ(alerts("2026-06-01"), Rules{"leak.rate"});
    EXPECT_EQ(alerts("2027-06-01"), Rules{"leak.rate"});
    EXPECT_TRUE(alerts("2027-06-02").empty()) << "more than 365 days ago";
}

// One charge of 12 lb of 100: 12 % in 365 days, and no annualized rate, as the addition before it is unknown.
TEST_F(LeakAlertsTest, TheMethodIsTheShopsToChoose) {
    charged("2026-03-01 10:00", "12");
    EXPECT_EQ(alerts("2026-03-02"), Rules{"leak.rate"}) << "either, until it is chosen";
    choose("annualizing");
    EXPECT_TRUE(alerts("2026-03-02").empty());
    choose("rolling");
    EXPECT_EQ(alerts("2026-03-02"), Rules{"leak.rate"});
    // 3 lb after 30 days: 36.5 % a year by the annualizing method; a year later the sum is 3 %.
    charged("2026-03-31 10:00", "3");
    EXPECT_TRUE(alerts("2027-03-20").empty());
    choose("annualizing");
    EXPECT_EQ(alerts("2027-03-20"), Rules{"leak.rate"});
    choose("");
    EXPECT_EQ(m_shop->settings().leakMethod, LeakMethod::either);
    Settings settings;
    EXPECT_FALSE(settings.set("leak_method", "guess"));
}

TEST_F(LeakAlertsTest, AChronicLeakerStandsUntilItIsReported) {
    charged("2025-08-01 10:00", "60");
    charged("2026-08-01 10:00", "64");
    EXPECT_EQ(alerts("2026-08-01"), Rules{"leak.rate"});
    charged("2026-10-01 10:00", "61"); // 125 lb of 100 in 2026
    EXPECT_EQ(alerts("2026-10-01"), (Rules{"leak.chronic", "leak.rate"}));
    EXPECT_EQ(alerts("2027-02-28"), (Rules{"leak.chronic", "leak.rate"}));
    EXPECT_EQ(alerts("2027-03-01"), Rules{"leak.rate"});
}

// The short way back through the newest legs finds what the long way finds.
TEST_F(LeakAlertsTest, OldBooksAreReadOnlyAsFarAsTheyCount) {
    setTime("2026-01-02 08:00");
    for (int number = 0; number < 150; ++number) {
        CheckIn facts = charge("0.2");
        facts.occurred = at(fmt::format("2025-{:02}-{:02} 09:00", 7 + number / 28, 1 + number % 28));
        expectRecorded(checkIn(*m_shop, facts));
    }
    for (const char* day : {"2026-01-02", "2026-06-30", "2026-12-20", "2027-01-05"}) {
        const Date on = Date::parse(day).value();
        const System hall = *systemNamed(*m_shop, "ST-ALDER/HALL");
        const auto quick = recentLeaks(*m_shop, hall, on);
        const auto whole = leaks(*m_shop, on, "ST-ALDER/HALL");
        ASSERT_TRUE(quick && whole);
        const SystemLeaks& other = whole.value().front();
        EXPECT_EQ(quick.value().rolling->text(), other.rolling->text()) << day;
        ASSERT_TRUE(quick.value().annualized && other.annualized) << day;
        EXPECT_EQ(quick.value().annualized->text(), other.annualized->text()) << day;
        EXPECT_EQ(quick.value().findings.size(), other.findings.size()) << day;
    }
}
