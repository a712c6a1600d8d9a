// A pressure that was read on a cylinder stays in the books: what was read, what was known of the moment,
// what it said. R-22 at 70 degF has 121.4 psig (tests/standards/properties); the fields are those of the
// condition check among the records (practice, method read, fields from memory).
#include "core/shop/gauge_reading.h"

#include "tests/shop/asked.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class GaugeReadingTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
        setTime("2026-09-16 08:30");
    }
    /// A103 holds 14.6 lb of R-22 in 26.2 lb of water, tare 17.0 lb.
    [[nodiscard]] CheckIn weighedWith(const PressureReading& reading) {
        CheckIn facts;
        facts.serial = "A103";
        facts.grossAfter = lb("31.6");
        facts.reading = reading;
        return facts;
    }
    [[nodiscard]] static PressureReading readingOf70(double psig) {
        PressureReading reading;
        reading.temperature = Temperature::parse("70 F").value();
        reading.pressure = GaugePressure::fromPsi(psig);
        return reading;
    }
    [[nodiscard]] Entry newest() { return m_shop->store().entry(m_shop->store().headSeq()).value(); }
    [[nodiscard]] RecordKept conditionCheck() {
        const Date day = m_shop->today();
        return recordNamed(*m_shop, "condition check", day, day);
    }
};

} // namespace

TEST_F(GaugeReadingTest, AllThatWasSaidIsKeptAndTold) {
    PressureReading reading = readingOf70(121.5);
    reading.hoursAtRest = 14.5;
    reading.liquidLeft = true;
    reading.gaugeErrorKilopascal = 7;
    reading.thermometerErrorKelvin = 0.5;
    expectRecorded(checkIn(*m_shop, weighedWith(reading)));
    const Entry entry = newest();
    EXPECT_EQ(entry.body["gauge_pa"], 837'713); // 121.5 psi x 6894.757 Pa
    EXPECT_EQ(entry.body["gauge_at_mk"], 294'261);
    EXPECT_EQ(entry.body["gauge_of"], "A103");
    EXPECT_EQ(entry.body["gauge_rest_s"], 52'200);
    EXPECT_EQ(entry.body["gauge_liquid"], true);
    EXPECT_EQ(entry.body["gauge_error_pa"], 7'000);
    EXPECT_EQ(entry.body["thermometer_error_mk"], 500);
    EXPECT_EQ(entry.body["gauge_verdict"], "consistent");
    const auto kept = tarebook::readingOf(entry);
    ASSERT_TRUE(kept && kept->expected);
    EXPECT_NEAR(kept->expected->psi(), 121.4, 1.0);
    EXPECT_EQ(kept->secondsAtRest, 52'200);
    EXPECT_EQ(sentenceOf(*m_shop, entry),
              "Weighed A103: 31.6 lb gross; gauge 121.5 psig at 70 °F: consistent");
    const auto history = card(*m_shop, "A103").value().history;
    EXPECT_NE(history.front().sentence.find("gauge 121.5 psig"), std::string::npos)
        << history.front().sentence;
    QuestionInput day{m_shop->today(), m_shop->today()};
    const auto asked = answered(*m_shop, *questionNamed("pressures"), day);
    ASSERT_TRUE(asked);
    ASSERT_EQ(asked.value().table.rows.size(), 1U);
    const std::vector<std::string>& row = asked.value().table.rows.front();
    EXPECT_EQ(row[2], "A103");
    EXPECT_EQ(row[5], "14.5");
    EXPECT_EQ(row.back(), "consistent");
    EXPECT_EQ(asked.value().entries, std::vector<Sequence>{entry.seq});
    EXPECT_EQ(conditionCheck().verdict(), "complete");
}

TEST_F(GaugeReadingTest, WhatWasNotSaidIsNotMadeUp) {
    expectRecorded(checkIn(*m_shop, weighedWith(readingOf70(180))));
    for (const char* key : {"gauge_rest_s", "gauge_liquid", "gauge_error_pa", "thermometer_error_mk"}) {
        EXPECT_FALSE(newest().body.contains(key)) << key;
    }
    EXPECT_NE(newest().body["gauge_verdict"], "consistent") << "60 psi too high";
    const RecordKept record = conditionCheck();
    ASSERT_EQ(record.gaps.size(), 1U);
    EXPECT_EQ(record.gaps.front().missing, "standing time");
    EXPECT_EQ(record.verdict(), "1 of 1 lack something");
    // An empty one has no pressure to compare with: that, too, is said.
    CheckIn empty;
    empty.serial = "A101";
    empty.grossAfter = lb("27.0");
    empty.reading = readingOf70(0);
    expectRecorded(checkIn(*m_shop, empty));
    EXPECT_EQ(newest().body["gauge_verdict"], "no answer");
    EXPECT_FALSE(newest().body.contains("gauge_expected_pa"));
}

// Of a recovery the cylinder is read as it stands afterwards, and an entry of an older program, which kept
// only pressure and temperature, is told all the same.
TEST_F(GaugeReadingTest, OfARecoveryAndOfOlderEntries) {
    CheckIn facts;
    facts.serial = "A101";
    facts.grossBefore = lb("27.0");
    facts.grossAfter = lb("37.0");
    facts.from = "system:HARBOR/DOCK-1";
    facts.reading = readingOf70(121.5);
    facts.reading->hoursAtRest = 24;
    expectRecorded(checkIn(*m_shop, facts));
    Entry entry = newest();
    while (entry.kind != EntryKind::recovered) {
        entry = m_shop->store().entry(entry.seq - 1).value();
    }
    EXPECT_EQ(entry.body["gauge_of"], "A101");
    EXPECT_EQ(entry.body["gauge_verdict"], "consistent");
    for (const char* key : {"gauge_of", "gauge_rest_s", "gauge_verdict", "gauge_expected_pa"}) {
        entry.body.erase(key);
    }
    const auto older = tarebook::readingOf(entry);
    ASSERT_TRUE(older);
    EXPECT_EQ(older->serial, "A101");
    EXPECT_EQ(readingWords(m_shop->display(), entry), "gauge 121.5 psig at 70 °F");
    entry.body.erase("gauge_pa");
    EXPECT_FALSE(tarebook::readingOf(entry));
}
