// Two programs on one file. Whatever looks at the books and then writes: another desk writes in between, and
// the first is answered by the books as they are then. The moment is made exact by the ids: a desk makes them
// after it has looked, and before it writes.
#include <sys/wait.h>
#include <unistd.h>

#include <functional>
#include <utility>

#include "core/ledger/acceptance.h"
#include "core/shop/deposits.h"
#include "core/shop/hand_over.h"
#include "core/shop/look_then_record.h"
#include "core/shop/receipts.h"
#include "core/shop/register_changes.h"
#include "core/shop/settlement.h"
#include "core/shop/stocktake.h"
#include "core/shop/terms.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kReclaimer = "Cape Reclaim";
constexpr int kRounds = 6;

/// A1 and A2 hold R-22, 12.0 and 9.0 lb, tare 17.0; E1 is empty and evacuated.
class TwoDesksLookTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
        expectRecorded(
            m_shop->record({draftOf(*m_shop, Party{"reclaimer", kReclaimer, "Foundry Way 2", ""})}));
        expectRecorded(m_shop->record({draftOf(*m_shop, Party{"supplier", "Nordgas", "", ""})}));
        for (const auto& [serial, mass] : {std::pair{"A1", "12.0"}, std::pair{"A2", "9.0"}}) {
            NewCylinder cylinder = empty(serial);
            cylinder.evacuated = false;
            cylinder.content = pounds(mass);
            cylinder.refrigerant = "R-22";
            cylinder.contentOwner = "Ansel Harbor Cold Storage";
            expectRecorded(registerCylinder(*m_shop, cylinder));
        }
        expectRecorded(registerCylinder(*m_shop, empty("E1")));
        m_other = desk("BACK DOOR");
        m_mine = desk("FRONT DOOR");
        ASSERT_TRUE(m_other && m_mine);
    }
    void TearDown() override {
        m_mine.reset();
        m_other.reset();
        ShopTest::TearDown();
    }
    static NewCylinder empty(const char* serial) {
        return weekCylinder(serial, "DOT-4BA400", "26.2", "17.0", "2024-10");
    }
    std::unique_ptr<Shop> desk(const std::string& name) {
        Environment its = environment();
        its.operatorName = name;
        its.freshId = [this, name] {
            if (m_meanwhile && name == "FRONT DOOR") {
                const auto now = std::exchange(m_meanwhile, {});
                now();
            }
            return fmt::format("{}-{}", name.substr(0, name.find(' ')), ++m_ids);
        };
        return Shop::open((m_folder / "shop.tarebook").string(), its).shop;
    }
    /// What the one desk is told where the other does this after it has looked.
    Recorded interrupted(const std::function<Recorded(Shop&)>& theirs,
                         const std::function<Recorded(Shop&)>& mine) {
        m_meanwhile = [this, theirs] { expectRecorded(theirs(*m_other)); };
        Recorded recorded = mine(*m_mine);
        EXPECT_FALSE(m_meanwhile) << "it never looked";
        m_meanwhile = {};
        return recorded;
    }
    void expectTold(const std::string& what, const std::function<Recorded(Shop&)>& theirs,
                    const std::function<Recorded(Shop&)>& mine) {
        const Recorded late = interrupted(theirs, mine);
        EXPECT_EQ(late.outcome, Outcome::notRecorded) << what;
        EXPECT_NE(late.error.text().find(what), std::string::npos) << late.error.text();
    }
    static CheckOut out(const char* serial) {
        CheckOut plan;
        plan.person = "JULES ARBOR";
        plan.serials = {serial};
        plan.purpose = Purpose::carry;
        return plan;
    }
    void shipped() {
        expectRecorded(prepareBatch(*m_shop, "B-1", kReclaimer, {"A1", "A2"}));
        expectRecorded(shipBatch(*m_shop, "B-1", "own van"));
    }
    [[nodiscard]] static std::vector<ReceiptLine> theirLines() {
        return {{"A1", lb("29.0"), lb("17.0")}, {"A2", lb("26.0"), lb("17.0")}};
    }
    void received() {
        shipped();
        expectRecorded(receiveBatch(*m_shop, "B-1", {"R-1"}, theirLines()));
    }

    std::function<void()> m_meanwhile;
    std::unique_ptr<Shop> m_other;
    std::unique_ptr<Shop> m_mine;
};

} // namespace

TEST_F(TwoDesksLookTest, ACylinderThatWentOutMeanwhileIsNotSetAside) {
    const auto prepare = [](Shop& shop) { return prepareBatch(shop, "B-1", kReclaimer, {"A1", "A2"}); };
    expectTold(
        "Out with JULES ARBOR", [](Shop& shop) { return checkOut(shop, out("A1")); }, prepare);
    EXPECT_FALSE(batch(*m_shop, "B-1"));
    EXPECT_TRUE(card(*m_shop, "A2").value().state.batch.empty());
}

TEST_F(TwoDesksLookTest, ACylinderThatWasSetAsideOrCondemnedMeanwhileDoesNotGoOut) {
    const auto goesOut = [](Shop& shop) { return checkOut(shop, out("A1")); };
    expectTold(
        "Set aside for batch B-1", [](Shop& shop) { return prepareBatch(shop, "B-1", kReclaimer, {"A1"}); },
        goesOut);
    expectTold(
        "Condemned", [](Shop& shop) { return condemn(shop, "A2", "dented"); },
        [](Shop& shop) { return checkOut(shop, out("A2")); });
}

TEST_F(TwoDesksLookTest, WhatWasSaidOfANameMeanwhileStays) {
    const std::string name = "MORGAN VALE";
    expectRecorded(interrupted(
        [&](Shop& shop) {
            return enterChange(shop, PersonChange{name, std::nullopt, "608-U-70012"});
        },
        [&](Shop& shop) {
            return enterChange(shop, PersonChange{name, "storekeeper"});
        }));
    const Person person = changed(*m_shop, PersonChange{name});
    EXPECT_EQ(person.certificate, "608-U-70012");
    EXPECT_EQ(person.role, "storekeeper");
    expectRecorded(interrupted(
        [&](Shop& shop) {
            return enterChange(shop, PartyChange{"reclaimer", kReclaimer, "Quay 1"});
        },
        [&](Shop& shop) {
            return enterChange(shop, PartyChange{"reclaimer", kReclaimer, std::nullopt, "R-7"});
        }));
    const Party party = changed(*m_shop, PartyChange{"reclaimer", kReclaimer});
    EXPECT_EQ(party.address, "Quay 1");
    EXPECT_EQ(party.number, "R-7");
    // Whose the site was until now is told of the books as they are then.
    SystemChange theirs{"HARBOR", "DOCK-1"};
    theirs.customer = "Pier Foods";
    SystemChange mine{"HARBOR", "DOCK-1"};
    mine.customer = "Quay Foods";
    std::string notice;
    std::string ignored;
    expectRecorded(interrupted([&](Shop& shop) { return enterChange(shop, theirs, ignored); },
                               [&](Shop& shop) { return enterChange(shop, mine, notice); }));
    EXPECT_NE(notice.find("HARBOR was of Pier Foods until now"), std::string::npos) << notice;
}

TEST_F(TwoDesksLookTest, TwoDesksThatPrepareTakeTwoNames) {
    std::string theirs;
    std::string mine;
    expectRecorded(interrupted(
        [&](Shop& shop) {
            const PreparedBatch its = prepareNextBatch(shop, kReclaimer, {"A2"});
            theirs = its.name;
            return its.recorded;
        },
        [&](Shop& shop) {
            const PreparedBatch its = prepareNextBatch(shop, kReclaimer, {"A1"});
            mine = its.name;
            return its.recorded;
        }));
    EXPECT_EQ(theirs, "B-2026-001");
    EXPECT_EQ(mine, "B-2026-002");
    EXPECT_EQ(batch(*m_shop, theirs).value().lines.front().serial, "A2");
    EXPECT_EQ(batch(*m_shop, mine).value().lines.front().serial, "A1");
}

TEST_F(TwoDesksLookTest, ABatchLeavesOnceAndWithTheMassesOfTheBooksAsTheyAreThen) {
    expectRecorded(prepareBatch(*m_shop, "B-1", kReclaimer, {"A1", "A2"}));
    const auto ship = [](Shop& shop) { return shipBatch(shop, "B-1", "own van"); };
    // The scale says 28.0: 1.0 lb less than the books had when the first desk looked.
    expectRecorded(interrupted([](Shop& shop) { return weigh(shop, "A1", lb("28.0")); }, ship));
    EXPECT_EQ(shown(batch(*m_shop, "B-1").value().lines.front().net), "11.0 lb");
    EXPECT_EQ(net("A1"), "0.0 lb");
    expectRecorded(m_shop->reverse(m_shop->store().headSeq(), "did not leave"));
    expectTold("batch B-1 is shipped", ship, ship);
    EXPECT_EQ(net("A1"), "0.0 lb");
}

TEST_F(TwoDesksLookTest, AReceiptIsEnteredDecidedAndSettledOnce) {
    shipped();
    const auto receive = [](Shop& shop) { return receiveBatch(shop, "B-1", {"R-1"}, theirLines()); };
    expectTold("A1 has its line", receive, receive);
    const auto settle = [](Shop& shop) { return settleBatch(shop, "B-1", {}); };
    expectTold("batch B-1 is settled", settle, [](Shop& shop) {
        return decideReceipt(shop, "B-1", {{"A1", ReceiptVerdict::disputed, "half a pound is missing"}});
    });
}

TEST_F(TwoDesksLookTest, ABatchIsSettledOnceAndItsExchangeRegisteredOnce) {
    received();
    BatchSettling how;
    how.came = {{"A1", "Z1", "DOT-4BA400", "26.2 lb", "16.9 lb", "2026-05", ""}};
    const auto settle = [how](Shop& shop) { return settleBatch(shop, "B-1", how); };
    expectTold(
        "Z1 is registered already", [](Shop& shop) { return registerCylinder(shop, empty("Z1")); }, settle);
    EXPECT_EQ(batch(*m_shop, "B-1").value().status, "received");
    how.came.front().serial = "Z2";
    const auto again = [how](Shop& shop) { return settleBatch(shop, "B-1", how); };
    expectTold("batch B-1 is settled", again, again);
    EXPECT_EQ(card(*m_shop, "A1").value().state.condition, Condition::retired);
    EXPECT_EQ(card(*m_shop, "A2").value().state.condition, Condition::serviceable);
}

// A dialog that stands open looks long before it writes.
TEST_F(TwoDesksLookTest, WhatAnotherDeskDecidedIsSeenBeforeItIsSettledOver) {
    received();
    const Sequence looked = batch(*m_shop, "B-1").value().newest();
    expectRecorded(decideReceipt(*m_other, "B-1", {{"A1", ReceiptVerdict::accepted}}));
    BatchSettling how;
    how.looked = looked;
    EXPECT_EQ(settleBatch(*m_mine, "B-1", how).outcome, Outcome::notRecorded);
    EXPECT_EQ(decideReceipt(*m_mine, "B-1", {{"A2", ReceiptVerdict::accepted}}, {}, looked).outcome,
              Outcome::notRecorded);
    how.looked = batch(*m_shop, "B-1").value().newest();
    expectRecorded(settleBatch(*m_mine, "B-1", how));
}

TEST_F(TwoDesksLookTest, WhatCameBackMeanwhileIsNotHandedOver) {
    expectRecorded(checkOut(*m_shop, out("E1")));
    CheckIn back;
    back.serial = "E1";
    const auto comesBack = [back](Shop& shop) { return checkIn(shop, back); };
    expectTold("in the shop", comesBack, [](Shop& shop) {
        return handOver(shop, HandOver{{"E1"}, "MORGAN VALE", ""});
    });
    expectRecorded(checkOut(*m_shop, out("E1")));
    expectTold("in the shop", comesBack, [](Shop& shop) { return handOver(shop, "E1", "MORGAN VALE", ""); });
}

// The gross after is 27.0. What moved is against what the books hold: 29.0 before the other desk's 1.0 lb
// went out, 28.0 after it.
TEST_F(TwoDesksLookTest, ACheckInReckonsWithTheBooksAsTheyAreThen) {
    const auto charge = [](const char* gross) {
        return [gross](Shop& shop) {
            CheckIn facts;
            facts.serial = "A1";
            facts.to = "system:HARBOR/DOCK-1";
            facts.grossAfter = lb(gross);
            facts.job = "J-1";
            return checkIn(shop, facts);
        };
    };
    const Recorded mine = interrupted(charge("28.0"), charge("27.0"));
    expectRecorded(mine);
    EXPECT_EQ(m_shop->store().entry(mine.entries.front()).value().body["mass_mg"], 453'592);
    EXPECT_EQ(net("A1"), "10.0 lb");
    // The same weighing entered at both: the second is told that nothing is left to enter.
    expectTold("nothing went out", charge("25.0"), charge("25.0"));
}

TEST_F(TwoDesksLookTest, TheRegisterTakesASerialOnceAndRetiresNothingThatWasFilled) {
    const auto enters = [](Shop& shop) { return registerCylinder(shop, empty("N1")); };
    expectTold("N1 is registered already", enters, enters);
    expectTold(
        "E1 still holds 2.0 lb",
        [](Shop& shop) {
            return decant(shop, {"A1", "E1", lb("2.0"), "", {}});
        },
        [](Shop& shop) { return retire(shop, "E1", "sold"); });
}

TEST_F(TwoDesksLookTest, TermsAndDepositsOfAnotherDeskAreNotLost) {
    AcceptanceTerms known;
    AcceptanceTerms theirs;
    theirs.minimum = lb("100");
    AcceptanceTerms mine;
    mine.currency = "USD";
    mine.fee = 2'000;
    expectTold(
        "other terms of Cape Reclaim", [&](Shop& shop) { return setTerms(shop, kReclaimer, theirs, known); },
        [&](Shop& shop) { return setTerms(shop, kReclaimer, mine, known); });
    EXPECT_EQ(termsOf(*m_shop, kReclaimer).value(), theirs);
    CylinderLoan loan{"E1", false, m_shop->today()};
    expectTold(
        "is on deposit with Nordgas", [&](Shop& shop) { return enterDeposit(shop, "Nordgas", loan); },
        [&](Shop& shop) { return enterDeposit(shop, kReclaimer, loan); });
}

TEST_F(TwoDesksLookTest, AStocktakeIsComparedAgainWhereACylinderOfItWasChanged) {
    const auto walk = [](Shop& shop) {
        StocktakeAsk ask;
        ask.weighings = {{"A1", lb("28.0")}, {"A2", lb("26.0")}};
        return stocktake(shop, ask).value();
    };
    const StocktakeReport report = walk(*m_mine);
    ASSERT_FALSE(report.lines.front().causes.empty());
    expectRecorded(weigh(*m_other, "E1", lb("17.0"))); // of no concern
    expectRecorded(weigh(*m_other, "A1", lb("28.0")));
    for (const Recorded& late : {recordStocktake(*m_mine, report),
                                 recordMend(*m_mine, report, report.lines.front().causes.front())}) {
        EXPECT_EQ(late.outcome, Outcome::notRecorded);
        EXPECT_TRUE(late.outrun);
        EXPECT_NE(late.error.text().find("compare again"), std::string::npos) << late.error.text();
    }
    expectRecorded(recordStocktake(*m_mine, report, {"A1"}));
    expectRecorded(recordStocktake(*m_mine, walk(*m_mine)));
}

TEST_F(TwoDesksLookTest, ADecantThatNothingSpokeAgainstIsLookedAtAgain) {
    const Decant plan{"A1", "E1", lb("2.0"), "", {}};
    const Sequence looked = m_mine->store().headSeq();
    EXPECT_FALSE(review(*m_mine, plan).refused());
    expectRecorded(weigh(*m_other, "A2", lb("26.0"))); // of no concern
    expectRecorded(condemn(*m_other, "E1", "dented"));
    const Recorded late = decant(*m_mine, plan, looked);
    EXPECT_EQ(late.outcome, Outcome::notRecorded);
    EXPECT_TRUE(late.outrun);
    EXPECT_TRUE(review(*m_mine, plan).refused());
    expectRecorded(decant(*m_mine, plan)); // it was done all the same
}

TEST_F(TwoDesksLookTest, ADeskThatIsOutrunEachTimeGivesUp) {
    int looks = 0;
    const Recorded late = lookThenRecord(*m_mine, [&]() -> Looked {
        expectRecorded(weigh(*m_other, "A2", lb("26.0")));
        ++looks;
        return {{m_mine->draft(EntryKind::returned, {{"serial", "A1"}})}};
    });
    EXPECT_EQ(late.outcome, Outcome::notRecorded);
    EXPECT_TRUE(late.outrun);
    EXPECT_GT(looks, 1);
    EXPECT_LT(looks, 100);
}

TEST_F(TwoDesksLookTest, OfTwoProcessesOnePreparesTheCylinderAndOneShipsTheBatch) {
    for (int round = 0; round < kRounds; ++round) {
        int ready[2];
        ASSERT_EQ(pipe(ready), 0);
        const pid_t child = fork();
        const bool isChild = child == 0;
        bool prepared = false;
        {
            const auto its = desk(isChild ? "SIDE DOOR" : "GATE");
            char go = 0; // both have the shop open before either of them begins
            if (isChild) {
                (void)!write(ready[1], &go, 1);
            } else {
                (void)!read(ready[0], &go, 1);
            }
            prepared = its && prepareNextBatch(*its, kReclaimer, {"A1"}).recorded.ok();
        }
        if (isChild) {
            _exit(prepared ? 1 : 0);
        }
        int status = 0;
        waitpid(child, &status, 0);
        close(ready[0]);
        close(ready[1]);
        ASSERT_TRUE(WIFEXITED(status));
        EXPECT_EQ((prepared ? 1 : 0) + WEXITSTATUS(status), 1) << "round " << round;
        ASSERT_EQ(batches(*m_shop).value().size(), 1U);
        expectRecorded(m_shop->reverse(m_shop->store().headSeq(), "set aside for nobody"));
    }
}
