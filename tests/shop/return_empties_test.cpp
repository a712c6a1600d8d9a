// Empties in a batch. 49 CFR 173.29(a): an emptied cylinder that was not cleaned is handled like a full one;
// (b)(2)(iv): residue of a nonflammable gas below 200 kPa gauge at 20 degC is free once its marks are
// covered; 172.203(e): the words on the paper. 173.301(a)(7): after its service life it travels only to have
// what is in it reprocessed. 180.205(c): what was filled after its date is not offered. ADR 4.1.6.10 and P200
// (10) lets one whose date has passed be carried to its test (from memory).
#include <algorithm>

#include "core/shop/emptied.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kOwner = "Cape Reclaim";

class ReturnEmptiesTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        for (const System& system : weekSystems()) {
            expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
        }
        expectRecorded(m_shop->record({draftOf(*m_shop, Party{"reclaimer", kOwner, "Foundry Way 2", ""})}));
    }
    void enter(const std::string& serial, const std::string& tag = "", bool evacuated = false,
               const char* tested = "2024-10") {
        NewCylinder cylinder = weekCylinder(serial, "DOT-4BA400", "47.7", "27.0", tested);
        cylinder.evacuated = evacuated;
        cylinder.plate.refrigerant = tag;
        cylinder.plate.flammableRated = true;
        expectRecorded(registerCylinder(*m_shop, cylinder));
    }
    void enterFull(const std::string& serial, const std::string& tested, const std::string& filled) {
        NewCylinder cylinder = weekCylinder(serial, "DOT-4BA400", "47.7", "27.0", tested);
        cylinder.evacuated = false;
        cylinder.content = lb("20");
        cylinder.refrigerant = "R-22";
        cylinder.contentState = GasState::recovered;
        cylinder.filled = Date::parse(filled).value();
        expectRecorded(registerCylinder(*m_shop, cylinder));
    }
    [[nodiscard]] ReturnCandidate candidate(const std::string& serial) {
        const auto all = returnCandidates(*m_shop, true).value();
        const auto its =
            std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.serial == serial; });
        EXPECT_NE(its, all.end()) << serial;
        return its == all.end() ? ReturnCandidate() : *its;
    }
    void use(const std::string& rulebook) {
        Settings settings = m_shop->settings();
        ASSERT_TRUE(settings.set("rulebook", rulebook));
        expectRecorded(m_shop->change(settings));
    }
};

} // namespace

TEST_F(ReturnEmptiesTest, AreOfferedWhereTheyAreAskedForAndSayWhatWasInThem) {
    enter("USED");
    fillAndEmpty("USED", "HARBOR/DOCK-1");
    enter("CLEAN", "", true);
    enter("PAST");
    enter("TAGGED", "R-32", true);
    EXPECT_TRUE(returnCandidates(*m_shop).value().empty());
    const ReturnCandidate used = candidate("USED");
    EXPECT_TRUE(used.eligible) << used.reason;
    EXPECT_EQ(used.line, "empty");
    EXPECT_EQ(used.content, "empty, last R-22");
    EXPECT_EQ(used.shipping,
              "UN1018, Chlorodifluoromethane, 2.2, RESIDUE: Last Contained Chlorodifluoromethane");
    EXPECT_EQ(candidate("CLEAN").shipping, "not regulated as a dangerous good");
    EXPECT_EQ(candidate("TAGGED").content, "empty, last R-32");
    const ReturnCandidate past = candidate("PAST");
    EXPECT_FALSE(past.eligible);
    EXPECT_NE(past.reason.find("nothing says what was last in it"), std::string::npos) << past.reason;
    EXPECT_NE(past.remedy.find("Evacuate"), std::string::npos);
}

// A flammable gas is residue until the cylinder was purged, and again once something went in. 49 CFR
// 173.29(b) frees what was cleaned and purged (US-EM-02).
TEST_F(ReturnEmptiesTest, AFlammableOneIsFreeOnceItWasPurged) {
    enter("B", "R-32", true);
    EXPECT_NE(candidate("B").shipping.find("RESIDUE: Last Contained Difluoromethane"), std::string::npos);
    expectRecorded(evacuate(*m_shop, "B", "500 microns"));
    EXPECT_NE(candidate("B").shipping.find("RESIDUE"), std::string::npos) << "evacuated only";
    expectRecorded(evacuate(*m_shop, "B", "", "air"));
    EXPECT_NE(candidate("B").shipping.find("RESIDUE"), std::string::npos) << "air is no purge gas";
    expectRecorded(evacuate(*m_shop, "B", "500 microns", "nitrogen"));
    EXPECT_EQ(candidate("B").shipping, "not regulated as a dangerous good");
    expectRecorded(evacuate(*m_shop, "B", "once more"));
    EXPECT_EQ(candidate("B").shipping, "not regulated as a dangerous good") << "nothing went in since";
    expectRecorded(prepareBatch(*m_shop, "B-1", kOwner, {"B"}));
    expectRecorded(shipBatch(*m_shop, "B-1", "own van"));
    const BatchLine line = batch(*m_shop, "B-1").value().lines[0];
    EXPECT_EQ(line.residue, "");
    EXPECT_NE(line.freed.find("purged with nitrogen"), std::string::npos) << line.freed;
    EXPECT_NE(line.freed.find("49 CFR 173.29(b)(2)"), std::string::npos) << line.freed;
    expectRecorded(settleBatch(*m_shop, "B-1", {}));
    fillAndEmpty("B", "HARBOR/DOCK-1");
    expectRecorded(evacuate(*m_shop, "B", ""));
    EXPECT_EQ(card(*m_shop, "B").value().state.purgedWith, "");
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
}

// A reversed purge was none; what a file keeps of a cylinder is what its journal says.
TEST_F(ReturnEmptiesTest, APurgeIsKeptAndCanBeReversed) {
    enter("B", "R-32", true);
    const Recorded purged = evacuate(*m_shop, "B", "pump 2", "nitrogen");
    expectRecorded(purged);
    EXPECT_EQ(m_shop->store().cylinder("B").value()->purgedWith, "nitrogen");
    const auto entry = m_shop->store().entry(purged.entries.front());
    EXPECT_EQ(sentenceOf(*m_shop, entry.value()), "Evacuated B, purged with nitrogen: pump 2");
    EXPECT_TRUE(m_shop->store().verify().value().problems.empty());
    expectRecorded(m_shop->reverse(purged.entries.front(), "another cylinder"));
    EXPECT_EQ(m_shop->store().cylinder("B").value()->purgedWith, "");
    EXPECT_NE(candidate("B").shipping.find("RESIDUE"), std::string::npos);
}

// Evacuated, R-22 (2.2) is below 200 kPa gauge; R-32 (2.1) has no such pressure and must be purged as well.
TEST_F(ReturnEmptiesTest, EvacuatedOnesAreFreeOnlyWhereTheLawNamesAPressure) {
    enter("A", "R-22");
    enter("B", "R-32");
    fillAndEmpty("A", "HARBOR/DOCK-1");
    expectRecorded(evacuate(*m_shop, "A", "500 microns"));
    CylinderState state = card(*m_shop, "A").value().state;
    const Emptied free = emptiedOf(*m_shop, state);
    EXPECT_EQ(free.last, "R-22");
    EXPECT_TRUE(free.words.empty());
    EXPECT_TRUE(free.shipping.division.empty());
    ASSERT_TRUE(free.finding);
    EXPECT_NE(free.finding->remedy.find("marks and labels"), std::string::npos) << free.finding->remedy;
    state.evacuated = true;
    const Emptied burns = emptiedOf(*m_shop, state, "R-32");
    EXPECT_EQ(burns.words, "UN3252, Difluoromethane, 2.1, RESIDUE: Last Contained Difluoromethane");
    EXPECT_EQ(burns.shipping.division, "2.1");
    use("eu"); // ADR 5.1.3.1: labels stay until it is cleaned and purged (from memory)
    EXPECT_FALSE(emptiedOf(*m_shop, state, "R-22").words.empty());
}

TEST_F(ReturnEmptiesTest, ABatchOfThemIsShippedAndSettledWithoutAReceipt) {
    enter("USED");
    enter("BACK", "R-22");
    fillAndEmpty("USED", "HARBOR/DOCK-1");
    expectRecorded(prepareBatch(*m_shop, "B-1", kOwner, {"USED", "BACK"}));
    expectRecorded(shipBatch(*m_shop, "B-1", "own van"));
    const Batch its = batch(*m_shop, "B-1").value();
    EXPECT_EQ(its.empties(), 2U);
    EXPECT_EQ(its.net(), Mass());
    EXPECT_EQ(its.gross(), lb("54.0"));
    EXPECT_EQ(its.lines[0].last, "R-22");
    EXPECT_TRUE(its.lines[0].residue.ends_with("RESIDUE: Last Contained Chlorodifluoromethane"));
    EXPECT_EQ(card(*m_shop, "USED").value().state.condition, Condition::away);
    setTime("2026-12-14 09:00"); // far beyond the days that a receipt may take: nobody waits for one
    const auto alerts = today(*m_shop, m_shop->today(), 30).value().alerts;
    EXPECT_TRUE(std::none_of(alerts.begin(), alerts.end(),
                             [](const auto& one) { return one.finding.rule == "batch.no-receipt"; }));
    expectRecorded(settleBatch(*m_shop, "B-1", {{"USED"}, "theirs"}));
    EXPECT_EQ(batch(*m_shop, "B-1").value().status, "settled");
    EXPECT_EQ(card(*m_shop, "USED").value().state.condition, Condition::retired);
    EXPECT_EQ(card(*m_shop, "BACK").value().state.condition, Condition::serviceable);
}

// What the paper named stands in the entry: a later evacuation does not change it.
TEST_F(ReturnEmptiesTest, ADescriptionStaysAsItLeft) {
    enter("BACK");
    fillAndEmpty("BACK", "HARBOR/DOCK-1");
    expectRecorded(prepareBatch(*m_shop, "B-1", kOwner, {"BACK"}));
    expectRecorded(shipBatch(*m_shop, "B-1", "own van"));
    const std::string then = batch(*m_shop, "B-1").value().lines[0].residue;
    expectRecorded(settleBatch(*m_shop, "B-1", {}));
    fillAndEmpty("BACK", "ST-ALDER/RTU-3"); // R-410A
    expectRecorded(evacuate(*m_shop, "BACK", ""));
    EXPECT_EQ(batch(*m_shop, "B-1").value().lines[0].residue, then);
    EXPECT_FALSE(then.empty());
}

// The three ways out of a refusal.
TEST_F(ReturnEmptiesTest, FilledLateItIsDecantedAndTheTargetNamed) {
    enterFull("LATE", "2020-03", "2025-04-01");
    const auto remedy = [&] {
        const Review review = reviewBatch(*m_shop, kOwner, {"LATE"});
        EXPECT_TRUE(review.refused());
        return review.findings.front().remedy;
    };
    EXPECT_NE(remedy().find("Empty it into a lawful cylinder"), std::string::npos) << remedy();
    EXPECT_EQ(remedy().find("has room"), std::string::npos) << remedy();
    enter("ROOM", "", true);
    EXPECT_NE(remedy().find("ROOM is in the shop, in date and has room."), std::string::npos) << remedy();
}

TEST_F(ReturnEmptiesTest, AnEmptyWhoseDateHasPassedIsTestedWhereItTravelsToTheTesterOnly) {
    NewCylinder cylinder = weekCylinder("OLD", "UN ISO 22991 PH 42", "47.7", "27.0", "2012-03");
    cylinder.evacuated = true;
    expectRecorded(registerCylinder(*m_shop, cylinder));
    use("eu");
    const Review review = reviewBatch(*m_shop, kOwner, {"OLD"});
    ASSERT_TRUE(review.refused());
    EXPECT_NE(review.findings.front().remedy.find("Send it to be tested"), std::string::npos)
        << review.findings.front().headline << review.findings.front().remedy;
}

TEST_F(ReturnEmptiesTest, AServiceLifeThatIsOverLetsItGoOnceToBeEmptied) {
    NewCylinder old = weekCylinder("LIFE", "DOT-4BA400", "47.7", "27.0", "2023-03");
    old.plate.serviceUntil = MonthYear::of(2026, 8).value();
    old.evacuated = false;
    old.content = lb("20");
    old.refrigerant = "R-22";
    old.contentState = GasState::recovered;
    expectRecorded(registerCylinder(*m_shop, old));
    const Review review = reviewBatch(*m_shop, kOwner, {"LIFE"});
    EXPECT_FALSE(review.refused());
    const auto trip = std::find_if(review.findings.begin(), review.findings.end(),
                                   [](const Finding& one) { return one.rule == "retest.service-life"; });
    ASSERT_NE(trip, review.findings.end());
    EXPECT_EQ(trip->severity, Severity::caution);
    EXPECT_TRUE(trip->citation.starts_with("49 CFR 173.301(a)(7)")) << trip->citation;
}
