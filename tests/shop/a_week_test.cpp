// A week at the counter of an invented shop, played through the front desk. Limits and pressures follow from
// published tables (specific gravity at 25 degC: R-22 1.194, R-410A 1.062; R-410A 484.2 psig at 55 degC; 0.8
// x water capacity x gravity is common practice; filling density of R-22: 49 CFR 173.304a(a)(2)); masses are
// additions that can be done by hand.
#include <algorithm>

#include "core/shop/receipts.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

const std::string kMonday = "2026-09-14 ";
const std::string kTuesday = "2026-09-15 ";
const std::string kWednesday = "2026-09-16 ";
const std::string kThursday = "2026-09-17 ";
const std::string kNextMonday = "2026-09-21 ";
const std::string kMorgan = "MORGAN VALE";
const std::string kJules = "JULES ARBOR";

class AWeekTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        setTime("2026-09-14 07:00");
        ASSERT_TRUE(registerWeek(*m_shop));
    }

    Recorded move(const std::string& local, const std::string& serial, const std::string& before,
                  const std::string& after, const std::string& from, const std::string& to = "") {
        setTime(local);
        CheckIn facts;
        facts.serial = serial;
        if (!before.empty()) {
            facts.grossBefore = lb(before);
        }
        facts.grossAfter = lb(after);
        facts.from = from;
        facts.to = to;
        return checkIn(*m_shop, facts);
    }

    void playMonday() {
        setTime(kMonday + "09:00");
        CheckOut out{kMorgan, "J-2231", {"A102"}, Purpose::recover, "ST-ALDER/RTU-3", "", lb("32"), {}};
        expectRecorded(checkOut(*m_shop, out));
        m_mondayEntry = move(kMonday + "15:00", "A102", "28.1", "59.6", "system:ST-ALDER/RTU-3");
        expectRecorded(m_mondayEntry);
    }
    void playTuesday() {
        expectRecorded(move(kTuesday + "09:00", "A105", "47.9", "51.9", "system:HARBOR/DOCK-1"));
        expectRecorded(move(kTuesday + "10:00", "A103", "31.6", "45.0", "system:HARBOR/DOCK-1"));
        setTime(kTuesday + "11:00");
        expectRecorded(decant(*m_shop, {"A103", "A107", lb("3.2"), "", {}}));
        CheckIn late;
        late.serial = "A101";
        late.grossBefore = lb("27.0");
        late.grossAfter = lb("39.0");
        late.from = "system:BRIGHTWATER/STORE-2";
        late.person = kJules;
        setTime(kTuesday + "16:00");
        expectRecorded(checkIn(*m_shop, late));
    }
    void playWednesday() {
        expectRecorded(move(kWednesday + "09:00", "D001", "31.1", "24.6", "", "system:BRIGHTWATER/STORE-2"));
        // 8.0 lb out of A102, weighed after only: 59.6 less 8.0.
        expectRecorded(move(kWednesday + "10:00", "A102", "", "51.6", "", "system:ST-ALDER/GYM-1"));
        setTime(kWednesday + "11:00");
        expectRecorded(m_shop->reverse(m_mondayEntry.entries.front(), "the gross was 59.9"));
        CheckIn again;
        again.serial = "A102";
        again.grossBefore = lb("28.1");
        again.grossAfter = lb("59.9");
        again.from = "system:ST-ALDER/RTU-3";
        again.occurred = at(kMonday + "15:00");
        m_again = checkIn(*m_shop, again);
        expectRecorded(m_again);
    }
    /// The lost ticket of Tuesday: 2.0 lb from A102 into GYM-1, entered on Wednesday.
    void playLostTicket() {
        setTime(kWednesday + "12:00");
        CheckIn lost;
        lost.serial = "A102";
        lost.grossBefore = lb("59.9");
        lost.grossAfter = lb("57.9");
        lost.to = "system:ST-ALDER/GYM-1";
        lost.occurred = at(kTuesday + "14:00");
        expectRecorded(checkIn(*m_shop, lost));
    }
    void playThursday() {
        setTime(kThursday + "09:00");
        expectRecorded(prepareBatch(*m_shop, "B-2026-001", "Cape Reclaim", {"A102", "A103", "A105", "A107"}));
        expectRecorded(shipBatch(*m_shop, "B-2026-001", "own van"));
    }

    [[nodiscard]] static std::string partsOf(const ForwardTrace& trace) {
        std::string text;
        for (const ForwardPart& part : trace.parts) {
            text += fmt::format("{} {}; ", part.account.text(), shown(part.mass));
        }
        return text;
    }

    Recorded m_mondayEntry;
    Recorded m_again;
};

} // namespace

TEST_F(AWeekTest, TodayShowsThePassedRetestAndTheCertificate) {
    const auto list = today(*m_shop, m_shop->today());
    ASSERT_TRUE(list);
    const auto& alerts = list.value().alerts;
    ASSERT_EQ(alerts.size(), 2U);
    EXPECT_EQ(alerts[0].subject, "cylinder:A101");
    EXPECT_EQ(alerts[0].finding.rule, "retest.overdue");
    EXPECT_EQ(alerts[0].remedy, Remedy::test);
    EXPECT_NE(alerts[0].finding.headline.find("2026-03"), std::string::npos);
    EXPECT_EQ(alerts[1].subject, "person:" + kJules);
    EXPECT_EQ(alerts[1].remedy, Remedy::renewCertificate);
    EXPECT_EQ(card(*m_shop, "A102").value().due, "2028-06");
    EXPECT_EQ(card(*m_shop, "A104").value().due, "2027-05");
    EXPECT_EQ(card(*m_shop, "A105").value().due, "2027-10");
}

TEST_F(AWeekTest, ProposesA102AndSaysWhyTheOthersStay) {
    JobPlan plan;
    plan.system = "ST-ALDER/RTU-3";
    plan.expected = lb("32");
    const auto proposal = propose(*m_shop, plan);
    ASSERT_TRUE(proposal) << proposal.error().text();
    ASSERT_EQ(proposal.value().chosen.size(), 1U);
    const Candidate& chosen = proposal.value().chosen.front();
    EXPECT_EQ(chosen.serial, "A102");
    EXPECT_EQ(chosen.room.poundsFlooredText(), "40.5 lb");
    EXPECT_EQ(chosen.grossToStop.poundsFlooredText(), "68.6 lb");
    std::map<std::string, std::string> why;
    for (const LeftOut& left : proposal.value().leftOut) {
        why[left.serial] = left.rule + ": " + left.reason;
    }
    ASSERT_EQ(why.size(), 6U);
    EXPECT_EQ(why["A101"], "plan.retest: Retest due 2026-03: not to be filled since 2026-04-01.");
    EXPECT_NE(why["A104"].find("plan.pressure: Pressure class too low for R-410A: 437.5 psig allowed, 484."),
              std::string::npos)
        << why["A104"];
    const Limits a104 = limitsFor(*m_shop, card(*m_shop, "A104").value().state, "R-410A");
    EXPECT_NEAR(a104.at55.psi(), 484.2, 0.3);
    EXPECT_NE(why["A103"].find("Holds R-22"), std::string::npos);
    EXPECT_NE(why["A105"].find("belongs to Brightwater Grocers"), std::string::npos);
    EXPECT_EQ(why["A107"], "plan.room: 22.2 lb of room is too little alone.");
    EXPECT_NE(why["D001"].find("never refilled"), std::string::npos);
}

TEST_F(AWeekTest, MondayGoesOutAndComesBack) {
    playMonday();
    const Card a102 = card(*m_shop, "A102").value();
    EXPECT_EQ(net("A102"), "31.5 lb");
    EXPECT_EQ(a102.limits.room.poundsFlooredText(), "9.0 lb");
    EXPECT_TRUE(a102.state.holder.empty());
    ASSERT_EQ(a102.custody.size(), 1U);
    EXPECT_EQ(a102.custody.front().person, kMorgan);
    ASSERT_TRUE(a102.custody.front().until);
}

TEST_F(AWeekTest, WhoHasItAlreadyIsSaid) {
    setTime(kMonday + "09:00");
    const CheckOut out{kMorgan, "J-2231", {"A102"}, Purpose::recover, "ST-ALDER/RTU-3", "", lb("32"), {}};
    expectRecorded(checkOut(*m_shop, out));
    const Recorded second = checkOut(*m_shop, out);
    EXPECT_EQ(second.outcome, Outcome::notRecorded);
    EXPECT_NE(second.error.wrong.find("Out with " + kMorgan), std::string::npos);
}

TEST_F(AWeekTest, TuesdayMixesAndOverfills) {
    playMonday();
    expectRecorded(move(kTuesday + "09:00", "A105", "47.9", "51.9", "system:HARBOR/DOCK-1"));
    const Card a105 = card(*m_shop, "A105").value();
    ASSERT_FALSE(a105.findings.empty());
    EXPECT_EQ(a105.findings.front().rule, "contents.mixed");
    EXPECT_NE(a105.findings.front().headline.find("16.7 % R-22"), std::string::npos);
    EXPECT_EQ(a105.limits.contents, "R-22:0.166667+R-410A:0.833333");
    const auto owners = a105.state.content.byOwner();
    EXPECT_EQ(owners.at("Brightwater Grocers"), lb("20.0").milligrams());
    EXPECT_EQ(owners.at("Ansel Harbor Cold Storage"), lb("4.0").milligrams());

    expectRecorded(move(kTuesday + "10:00", "A103", "31.6", "45.0", "system:HARBOR/DOCK-1"));
    const Card a103 = card(*m_shop, "A103").value();
    EXPECT_EQ(net("A103"), "28.0 lb");
    ASSERT_FALSE(a103.findings.empty());
    const Finding& over = a103.findings.front();
    EXPECT_EQ(over.rule, "fill.overfilled");
    EXPECT_EQ(over.severity, Severity::danger);
    EXPECT_NE(over.headline.find("lawful limit 27.5 lb"), std::string::npos);
    EXPECT_NE(over.remedy.find("at least 3.0 lb"), std::string::npos);
    EXPECT_NE(over.remedy.find("A107"), std::string::npos);
    EXPECT_EQ(a103.limits.net.poundsFlooredText(), "25.0 lb");

    setTime(kTuesday + "11:00");
    expectRecorded(decant(*m_shop, {"A103", "A107", lb("3.2"), "", {}}));
    EXPECT_EQ(net("A103"), "24.8 lb");
    EXPECT_EQ(net("A107"), "3.2 lb");
    EXPECT_TRUE(rulesOf("A103").empty());
}

TEST_F(AWeekTest, FilledAfterItsRetestStaysOffTheRoad) {
    playMonday();
    playTuesday();
    const auto rules = rulesOf("A101");
    EXPECT_NE(std::find(rules.begin(), rules.end(), "retest.filled-late"), rules.end());
    EXPECT_EQ(net("A101"), "12.0 lb");
    EXPECT_FALSE(card(*m_shop, "A101").value().shipAllowed);
}

TEST_F(AWeekTest, UsedGasGoesBackOnlyToItsOwner) {
    playMonday();
    playTuesday();
    setTime(kWednesday + "09:00");
    CheckOut foreign{kMorgan, "J-2240", {"A102"}, Purpose::charge, "BRIGHTWATER/STORE-2", "", lb("4"), {}};
    const Review refused = review(*m_shop, foreign);
    EXPECT_TRUE(refused.refused());
    EXPECT_NE(refused.reason().find("St. Alder Schools"), std::string::npos);
    EXPECT_EQ(refused.findings.front().citation, "40 CFR 82.154(d)");
    CheckOut own{kMorgan, "J-2241", {"A102"}, Purpose::charge, "ST-ALDER/GYM-1", "", lb("8"), {}};
    EXPECT_FALSE(review(*m_shop, own).refused()) << review(*m_shop, own).reason();
}

TEST_F(AWeekTest, CorrectionsAndLateTicketsMoveTheBooks) {
    playMonday();
    playTuesday();
    playWednesday();
    EXPECT_EQ(net("A102"), "23.8 lb");
    playLostTicket();
    EXPECT_EQ(net("A102"), "21.8 lb");
    EXPECT_TRUE(m_shop->store().reversedBy(m_mondayEntry.entries.front()));
    const auto onMonday = headOn(*m_shop, Date::parse("2026-09-14").value());
    const auto before = card(*m_shop, "A102", onMonday);
    ASSERT_TRUE(before);
    EXPECT_EQ(shown(before.value().state.content.total()), "31.5 lb");
}

TEST_F(AWeekTest, TheBatchLeavesOutWhatMayNotTravel) {
    playMonday();
    playTuesday();
    playWednesday();
    playLostTicket();
    setTime(kThursday + "09:00");
    const auto candidates = returnCandidates(*m_shop);
    ASSERT_TRUE(candidates);
    std::map<std::string, ReturnCandidate> by;
    for (const ReturnCandidate& candidate : candidates.value()) {
        by[candidate.serial] = candidate;
    }
    EXPECT_TRUE(by["A102"].eligible) << by["A102"].reason;
    EXPECT_EQ(by["A102"].line, "R-410A");
    EXPECT_EQ(by["A102"].shipping, "UN3163, Liquefied gas, n.o.s. (Difluoromethane, Pentafluoroethane), 2.2");
    EXPECT_EQ(by["A103"].shipping, "UN1018, Chlorodifluoromethane, 2.2");
    EXPECT_TRUE(by["A105"].eligible) << by["A105"].reason;
    EXPECT_EQ(by["A105"].line, "mixed");
    EXPECT_TRUE(by["A107"].eligible) << by["A107"].reason;
    EXPECT_FALSE(by["A101"].eligible);
    EXPECT_NE(by["A101"].reason.find("after its retest was due"), std::string::npos);
    EXPECT_EQ(by.count("D001"), 0U); // new gas is not for a reclaimer
    EXPECT_FALSE(prepareBatch(*m_shop, "B-2026-001", "Cape Reclaim", {"A101"}).ok());
    playThursday();
    const Batch shipped = batch(*m_shop, "B-2026-001").value();
    // 49.9 + 41.8 + 51.9 + 20.0, by hand.
    EXPECT_EQ(shown(shipped.gross()), "163.6 lb");
    EXPECT_EQ(card(*m_shop, "A102").value().state.condition, Condition::away);
}

TEST_F(AWeekTest, TheReceiptIsSettledAndTheExchangeComesIn) {
    playMonday();
    playTuesday();
    playWednesday();
    playLostTicket();
    playThursday();
    setTime(kNextMonday + "09:00");
    expectRecorded(receiveBatch(*m_shop, "B-2026-001", {"CR-8841"},
                                {{"A102", lb("49.1"), lb("28.1"), ""},
                                 {"A103", lb("41.8"), lb("17.0"), ""},
                                 {"A105", lb("51.9"), lb("27.9"), "17.2 % R-22"},
                                 {"A107", lb("20.0"), lb("16.8"), ""}}));
    const Batch received = batch(*m_shop, "B-2026-001").value();
    EXPECT_EQ(received.reference, "CR-8841");
    EXPECT_EQ(shown(*received.lines.front().receivedNet), "21.0 lb");
    // 0.8 lb less in A102: asked about, and taken as they weighed it.
    expectRecorded(decideReceipt(*m_shop, "B-2026-001", {{"A102", ReceiptVerdict::accepted}}));
    BatchSettling how;
    how.came = {{"A105", "A201", "DOT-4BA400", "47.7 lb", "27.4 lb", "2026-02", ""}};
    expectRecorded(settleBatch(*m_shop, "B-2026-001", how));
    EXPECT_EQ(card(*m_shop, "A105").value().state.condition, Condition::retired);
    EXPECT_EQ(card(*m_shop, "A102").value().state.condition, Condition::serviceable);
    EXPECT_EQ(card(*m_shop, "A201").value().state.condition, Condition::serviceable);
    // 21.8 lb went, 21.0 lb arrived: 0.8 lb is found to be missing.
    const auto sums = balance(*m_shop, Date::parse("2026-09-14").value(), Date::parse("2026-09-30").value());
    ASSERT_TRUE(sums);
    for (const PeriodSum& sum : sums.value()) {
        EXPECT_EQ(sum.opening + sum.opened + sum.bought + sum.recovered - sum.charged - sum.returned -
                      sum.released + sum.variance,
                  sum.closing)
            << sum.refrigerant;
    }
    const auto verified = m_shop->store().verify();
    ASSERT_TRUE(verified);
    EXPECT_TRUE(verified.value().problems.empty()) << verified.value().problems.front();
}

TEST_F(AWeekTest, TheAuditorGetsAnAnswer) {
    playMonday();
    const Sequence mondayEvening = m_shop->store().headSeq();
    playTuesday();
    playWednesday();
    playLostTicket();
    playThursday();
    const auto charge = traceEntry(*m_shop, m_again.entries.front());
    ASSERT_TRUE(charge) << charge.error().text();
    EXPECT_EQ(shown(charge.value().forward->lot.content.total()), "31.8 lb");
    EXPECT_EQ(partsOf(*charge.value().forward),
              "system:ST-ALDER/GYM-1 10.0 lb; reclaimer:Cape Reclaim 21.8 lb; ");
    EXPECT_EQ(charge.value().head, m_shop->store().headDigest());
    const auto then = traceEntry(*m_shop, m_mondayEntry.entries.front(), mondayEvening);
    ASSERT_TRUE(then);
    EXPECT_EQ(partsOf(*then.value().forward), "cylinder:A102 31.5 lb; ");

    // What the drawing shows: of 3.2 lb decanted the part of the first 14.6 lb, 3.2 x 14.6 / 28.0 = 1.67 lb.
    const auto opened = lots(*m_shop, 100);
    ASSERT_TRUE(opened);
    for (const HistoryLine& line : opened.value()) {
        if (line.sentence.find("14.6 lb of R-22 in A103") == std::string::npos) {
            continue;
        }
        const auto drawn = traceEntry(*m_shop, line.entry);
        ASSERT_TRUE(drawn);
        double decanted = 0;
        for (const Leg& leg : drawn.value().legs) {
            decanted += leg.target == Account::cylinder("A107") ? leg.moved.total().kilograms() : 0;
        }
        EXPECT_NEAR(decanted / 0.45359237, 3.2 * 14.6 / 28.0, 1e-5);
    }

    const auto contents = traceCylinder(*m_shop, "A105", at(kWednesday + "20:00"));
    ASSERT_TRUE(contents) << contents.error().text();
    std::map<std::string, std::string> from;
    for (const BackwardPart& part : contents.value().backward->parts) {
        from[part.lot.source.text() + ", " + part.gas.owner] = shown(part.mass);
    }
    EXPECT_EQ(from["opening, Brightwater Grocers"], "20.0 lb");
    EXPECT_EQ(from["system:HARBOR/DOCK-1, Ansel Harbor Cold Storage"], "4.0 lb");
    EXPECT_EQ(contents.value().entries.size(), 2U);
}
