#include "core/ledger/cylinder_state.h"

#include <gtest/gtest.h>

using namespace tarebook;

namespace {

/// A cylinder told by its entries, an hour apart.
class Story : public testing::Test {
protected:
    void SetUp() override {
        tell(EntryKind::cylinderRegistered, {{"serial", "A101"},
                                             {"specification", "DOT-4BA400"},
                                             {"water_capacity_mg", 21'636'356},
                                             {"tare_mg", 12'473'790},
                                             {"manufactured", "2020-03"},
                                             {"owner", "own"},
                                             {"evacuated", true}});
    }

    void tell(EntryKind kind, nlohmann::json body, Holding moved = {}) {
        Entry entry;
        entry.kind = kind;
        entry.body = std::move(body);
        entry.seq = ++m_seq;
        entry.occurred = Instant::fromSeconds(1'788'000'000 + m_seq * 3600);
        std::vector<Leg> legs;
        if (!moved.empty()) {
            legs.push_back({{entry.occurred, entry.seq},
                            0,
                            LegCause::movement,
                            Account{AccountKind::system, "HARBOR/DOCK-1"},
                            Account::cylinder("A101"),
                            moved,
                            {},
                            m_state.content});
        }
        Holding content = m_state.content;
        content.add(moved);
        apply(m_state, entry, legs, content);
    }
    void tell(EntryKind kind) { tell(kind, {{"serial", "A101"}, {"reason", "dented"}}); }
    void inspect(const char* result) {
        tell(EntryKind::inspected, {{"serial", "A101"}, {"result", result}, {"note", "rust"}});
    }

    CylinderState m_state;
    Sequence m_seq = 0;
};

Holding recovered(const char* refrigerant) {
    return Holding(Gas{refrigerant, "Ansel Harbor", GasState::recovered}, Mass::fromMilligrams(5'000'000));
}

} // namespace

TEST_F(Story, OutAndBack) {
    tell(EntryKind::handedOut, {{"serial", "A101"}, {"person", "Rey"}, {"job", "J-1"}});
    const auto since = m_state.outSince;
    tell(EntryKind::handedOver, {{"serial", "A101"}, {"person", "Kim"}});
    EXPECT_EQ(m_state.holder, "Kim");
    EXPECT_EQ(m_state.outSince, since);
    tell(EntryKind::returned, {{"serial", "A101"}, {"place", "rack 2"}});
    EXPECT_TRUE(m_state.holder.empty() && m_state.job.empty() && !m_state.outSince);
    EXPECT_EQ(m_state.place, "rack 2");
}

TEST_F(Story, AFillEndsTheCleanEmptyAndNotesRecoveryUseAndMixing) {
    EXPECT_TRUE(m_state.evacuated);
    tell(EntryKind::recovered, {}, recovered("R-22"));
    EXPECT_FALSE(m_state.evacuated);
    EXPECT_TRUE(m_state.recoveryUse);
    EXPECT_EQ(m_state.lastFillEntry, m_seq);
    EXPECT_FALSE(m_state.mixedSince);
    tell(EntryKind::recovered, {}, recovered("R-410A"));
    EXPECT_EQ(m_state.mixedEntry, m_seq);
}

TEST_F(Story, ARetestWithRecoveredGasInsideDoesNotMakeItClean) {
    tell(EntryKind::recovered, {}, recovered("R-22"));
    tell(EntryKind::retested, {{"serial", "A101"}, {"month", "2026-08"}});
    EXPECT_TRUE(m_state.recoveryUse);
    EXPECT_EQ(m_state.plate.lastTest->text(), "2026-08");
}

// A damaged or condemned cylinder may go to the reclaimer with its gas: coming back mends nothing.
TEST_F(Story, ComingBackDoesNotMendADamagedCylinder) {
    inspect("damaged");
    EXPECT_EQ(m_state.condition, Condition::held);
    tell(EntryKind::batchShipped, {{"batch", "B-1"}, {"reclaimer", "Clearwater"}});
    EXPECT_EQ(m_state.condition, Condition::away);
    tell(EntryKind::returned);
    EXPECT_EQ(m_state.condition, Condition::held);
    EXPECT_EQ(m_state.conditionNote, "rust");
    inspect("lost");
    inspect("found");
    EXPECT_EQ(m_state.condition, Condition::held);
    inspect("found");
    EXPECT_EQ(m_state.condition, Condition::held) << "found mends nothing either";
    tell(EntryKind::retested, {{"serial", "A101"}, {"month", "2026-08"}});
    EXPECT_EQ(m_state.condition, Condition::serviceable);
}

// 49 CFR 180.205(d): a second look by the shop takes back a dent or a leak at a fitting that was none; fire,
// over-pressure and the rest are for a tester.
TEST_F(Story, HarmStaysUntilATestIsPassed) {
    inspect("leaking");
    inspect("overheated");
    inspect("over-pressurised");
    EXPECT_EQ(m_state.harms.list(), (std::vector<Harm>{Harm::leak, Harm::heat, Harm::overPressure}));
    inspect("sound");
    EXPECT_EQ(m_state.harms.list(), (std::vector<Harm>{Harm::heat, Harm::overPressure}));
    EXPECT_EQ(m_state.condition, Condition::held) << "what a fire did is not seen from outside";
    tell(EntryKind::retested, {{"serial", "A101"}, {"month", "2026-08"}});
    EXPECT_TRUE(m_state.harms.empty());
    EXPECT_EQ(m_state.harmsBefore.list(), (std::vector<Harm>{Harm::heat, Harm::overPressure}));
    EXPECT_EQ(m_state.condition, Condition::serviceable);
}

TEST_F(Story, EveryHarmHoldsItBackAndHasItsWord) {
    for (const Harm harm : everyHarm()) {
        const std::string word(harmWord(harm));
        EXPECT_EQ(harmFrom(word), harm);
        tell(EntryKind::retested, {{"serial", "A101"}, {"month", "2026-08"}});
        inspect(word.c_str());
        EXPECT_EQ(m_state.harms.list(), std::vector<Harm>{harm}) << word;
        EXPECT_EQ(m_state.condition, Condition::held) << word;
    }
    EXPECT_FALSE(harmFrom("sound"));
    EXPECT_FALSE(harmFrom(""));
}

TEST_F(Story, ATareWeighedEmptyStandsBesideTheMarkedOne) {
    const Mass marked = m_state.plate.tare;
    tell(EntryKind::marksRestated,
         {{"serial", "A101"}, {"tare_mg", 11'900'000}, {"reason", "weighed"}, {"weighed", true}});
    EXPECT_EQ(m_state.plate.tare.milligrams(), 11'900'000);
    EXPECT_EQ(m_state.markedTare, marked);
    tell(EntryKind::marksRestated,
         {{"serial", "A101"}, {"tare_mg", 11'800'000}, {"reason", "weighed again"}, {"weighed", true}});
    EXPECT_EQ(m_state.markedTare, marked) << "the collar still says the first";
    tell(EntryKind::retested, {{"serial", "A101"}, {"month", "2026-08"}, {"tare_mg", 11'800'000}});
    EXPECT_FALSE(m_state.markedTare) << "the tester marks the new one";
    tell(EntryKind::marksRestated, {{"serial", "A101"}, {"tare_mg", 12'473'790}, {"reason", "misread"}});
    EXPECT_FALSE(m_state.markedTare);
}

TEST_F(Story, CondemnedIsForEver) {
    tell(EntryKind::condemned);
    for (const char* result : {"sound", "lost", "found"}) {
        inspect(result);
    }
    tell(EntryKind::retested, {{"serial", "A101"}, {"month", "2026-08"}});
    EXPECT_EQ(m_state.condition, Condition::condemned);
    tell(EntryKind::batchShipped, {{"batch", "B-1"}, {"reclaimer", "Clearwater"}});
    tell(EntryKind::returned);
    EXPECT_EQ(m_state.condition, Condition::condemned);
    EXPECT_EQ(m_state.conditionNote, "dented");
}

TEST_F(Story, ExchangedAtTheReclaimerLeavesTheFleet) {
    tell(EntryKind::batchShipped, {{"batch", "B-1"}, {"reclaimer", "Clearwater"}});
    EXPECT_EQ(m_state.batch, "B-1");
    tell(EntryKind::batchSettled, {{"batch", "B-1"}, {"exchanged", {{{"out", "A101"}, {"in", "C7"}}}}});
    EXPECT_EQ(m_state.condition, Condition::retired);
    EXPECT_TRUE(m_state.batch.empty());
    inspect("sound");
    EXPECT_EQ(m_state.condition, Condition::retired);
}

TEST_F(Story, TheOneThatCameForAnotherStaysInTheFleet) {
    tell(EntryKind::retired, {{"serial", "A100"}, {"for", "A101"}, {"reason", "exchanged"}});
    EXPECT_EQ(m_state.condition, Condition::serviceable);
    tell(EntryKind::retired, {{"serial", "A101"}, {"for", "A102"}, {"reason", "exchanged"}});
    EXPECT_EQ(m_state.condition, Condition::retired);
    EXPECT_EQ(m_state.conditionNote, "exchanged");
}

TEST_F(Story, AReadingIsKeptBesideWhatTheBooksSaid) {
    tell(EntryKind::recovered, {}, recovered("R-22"));
    const nlohmann::json weighing{
        {"serial", "A101"}, {"gross_mg", 17'400'000}, {"tare_mg", 12'473'790}, {"tolerance_mg", 73'790}};
    tell(EntryKind::weighed, weighing);
    ASSERT_TRUE(m_state.lastReading);
    EXPECT_EQ(m_state.lastReading->difference, Mass::fromMilligrams(-73'790));
    EXPECT_FALSE(m_state.lastReading->beyond);
}

TEST(CylinderState, NothingBeforeItsRegistration) {
    CylinderState state;
    Entry entry;
    entry.kind = EntryKind::condemned;
    entry.body = {{"serial", "A101"}, {"reason", "dented"}};
    apply(state, entry, {}, {});
    EXPECT_EQ(state.condition, Condition::serviceable);
    EXPECT_TRUE(state.plate.serial.empty());
}
