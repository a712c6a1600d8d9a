// A batch by the terms of its reclaimer. Filling limits are those of the card: 49 CFR 173.304a and common
// practice; 40 CFR 82.154(d) keeps owners apart. What a price comes to is reckoned by hand beside it.
#include "core/shop/compose.h"

#include <algorithm>

#include "core/shop/deposits.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kReclaimer = "Cape Reclaim";

class ComposeTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        for (const System& system : weekSystems()) {
            expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
        }
        expectRecorded(
            m_shop->record({draftOf(*m_shop, Party{"reclaimer", kReclaimer, "Foundry Way 2", "R-1"})}));
    }
    static NewCylinder holding(const std::string& serial, const std::string& mass, const char* refrigerant,
                               const char* owner = "Ansel Harbor Cold Storage") {
        NewCylinder cylinder = weekCylinder(serial, "DOT-4BA400", "26.2", "17.0", "2024-10");
        cylinder.evacuated = false;
        cylinder.content = pounds(mass);
        cylinder.refrigerant = refrigerant;
        cylinder.contentOwner = owner;
        return cylinder;
    }
    void enter(const NewCylinder& cylinder) { expectRecorded(registerCylinder(*m_shop, cylinder)); }
    /// R-22 on top of what is inside: mixed with anything else.
    void addR22(const std::string& serial, const std::string& before, const std::string& after) {
        CheckIn facts;
        facts.serial = serial;
        facts.grossBefore = lb(before);
        facts.grossAfter = lb(after);
        facts.from = "system:HARBOR/DOCK-1";
        expectRecorded(checkIn(*m_shop, facts));
    }
    void agree(const std::vector<std::pair<std::string, std::string>>& said) {
        AcceptanceTerms terms = termsOf(*m_shop, kReclaimer).value();
        for (const auto& [term, text] : said) {
            const auto read = readTerm(*m_shop, term, text, terms);
            ASSERT_TRUE(read) << read.error().text();
        }
        expectRecorded(setTerms(*m_shop, kReclaimer, terms));
    }
    BatchProposal proposed(ComposeAsk ask = {}) {
        ask.reclaimer = kReclaimer;
        auto proposal = composeBatch(*m_shop, ask);
        EXPECT_TRUE(proposal) << proposal.error().text();
        return std::move(proposal).value();
    }
    static std::string whyStays(const BatchProposal& proposal, const std::string& serial) {
        for (const StaysHere& one : proposal.stays) {
            if (one.serial == serial) {
                return one.reason;
            }
        }
        return "goes";
    }
    using Serials = std::vector<std::string>;
};

} // namespace

TEST_F(ComposeTest, TermsOutliveANewAddressAndAreTakenBackOneByOne) {
    EXPECT_TRUE(termsOf(*m_shop, kReclaimer).value().empty());
    agree({{"minimum", "100"}, {"mixed-from", "2 %"}, {"currency", "USD"}, {"price", "clean=4.50/kg"}});
    expectRecorded(
        m_shop->record({draftOf(*m_shop, Party{"reclaimer", kReclaimer, "Foundry Way 3", "R-1"})}));
    const AcceptanceTerms terms = termsOf(*m_shop, kReclaimer).value();
    EXPECT_EQ(terms.minimum, lb("100")) << "a bare number is in the shop's unit";
    EXPECT_EQ(terms.mixedFrom, 20'000);
    EXPECT_EQ(parties(*m_shop, "reclaimer").front().address, "Foundry Way 3");
    agree({{"minimum", "not known"}, {"price", "clean=not known"}});
    EXPECT_FALSE(termsOf(*m_shop, kReclaimer).value().minimum);
    EXPECT_TRUE(termsOf(*m_shop, kReclaimer).value().prices.empty());
    const auto nobody = termsOf(*m_shop, "Cape Reclam");
    ASSERT_FALSE(nobody);
    EXPECT_NE(nobody.error().text().find(kReclaimer), std::string::npos) << nobody.error().text();
}

TEST_F(ComposeTest, ATermThatIsWrongIsNamed) {
    AcceptanceTerms terms;
    for (const auto& [term, text] : {std::pair<const char*, const char*>{"minimum", "heavy"},
                                     {"minimum", "0 lb"},
                                     {"mixed-from", "0 %"},
                                     {"mixed-from", "101 %"},
                                     {"mixed-from", "2 lb"},
                                     {"currency", "dollar"},
                                     {"fee", "-1"},
                                     {"fee-each", "much"},
                                     {"accept", "mixed"},
                                     {"accept", "mixed=maybe"},
                                     {"accept", "sour=taken"},
                                     {"price", "clean=4.50"}}) {
        const auto read = readTerm(*m_shop, term, text, terms);
        ASSERT_FALSE(read) << term << ' ' << text;
        EXPECT_EQ(read.error().wrong.rfind(term, 0), 0U) << read.error().text();
        EXPECT_FALSE(read.error().right.empty());
    }
    terms.fee = 100;
    EXPECT_FALSE(setTerms(*m_shop, kReclaimer, terms).ok()) << "an amount of no currency";
}

TEST_F(ComposeTest, NothingIsPresumedOfAnUnusualKind) {
    enter(holding("A1", "10", "R-22"));
    enter(holding("MIX", "10", "R-134a"));
    addR22("MIX", "27.0", "29.0");
    BatchProposal proposal = proposed();
    EXPECT_EQ(proposal.asTheyStand.serials, Serials{"A1"});
    EXPECT_NE(whyStays(proposal, "MIX").find("not known"), std::string::npos) << whyStays(proposal, "MIX");
    EXPECT_FALSE(proposal.credit);
    EXPECT_FALSE(proposal.advice.empty()) << "no terms are on file";
    agree({{"accept", "mixed=refused"}});
    EXPECT_NE(whyStays(proposed(), "MIX").find("takes no mixed"), std::string::npos);
    agree({{"accept", "mixed=taken"}});
    EXPECT_EQ(proposed().asTheyStand.serials, (Serials{"A1", "MIX"}));
    agree({{"accept", "mixed=apart"}});
    proposal = proposed(); // 12 lb of mixed against 10 lb: more refrigerant leaves the shop
    EXPECT_EQ(proposal.asTheyStand.serials, Serials{"MIX"});
    EXPECT_EQ(proposal.kinds, "mixed");
    ASSERT_EQ(proposal.others.size(), 1U);
    EXPECT_EQ(proposal.others[0].net, lb("10"));
    EXPECT_EQ(proposed({kReclaimer, {}, 0, GasKind::clean}).asTheyStand.serials, Serials{"A1"});
    EXPECT_FALSE(proposed({kReclaimer, {}, 0, GasKind::burnOut}).problem.empty());
}

// What is of Division 2.1 on the road is flammable, nothing else: R-410A has R-32 in it, and yet with R-22 it
// is a blend of two A1 compositions and goes as 2.2 (49 CFR 172.101; ISO 10156 is linear, from memory).
TEST_F(ComposeTest, FlammableIsWhatThePapersCallSo) {
    enter(holding("MIX", "10", "R-410A"));
    addR22("MIX", "27.0", "29.0");
    enter(holding("PROPANE", "5", "R-290"));
    agree({{"accept", "mixed=taken"},
           {"accept", "flammable=refused"},
           {"price", "mixed=-1.00/lb"},
           {"currency", "USD"}});
    const BatchProposal proposal = proposed();
    EXPECT_EQ(proposal.asTheyStand.serials, Serials{"MIX"});
    ASSERT_EQ(proposal.lines.size(), 1U);
    EXPECT_EQ(proposal.lines[0].kinds, std::set<GasKind>{GasKind::mixed});
    EXPECT_TRUE(proposal.lines[0].price);
    EXPECT_NE(whyStays(proposal, "PROPANE").find("takes no flammable"), std::string::npos);
}

// R-22 and R-134a: neither burns. 10 lb with 0.2 lb of R-22 on top are 0.2 / 10.2 = 1.96 % of others.
TEST_F(ComposeTest, TheShareThatCountsAsMixedIsTheReclaimers) {
    enter(holding("MIX", "10", "R-134a"));
    addR22("MIX", "27.0", "27.2");
    agree({{"accept", "mixed=refused"}, {"mixed-from", "2 %"}});
    EXPECT_EQ(proposed().asTheyStand.serials, Serials{"MIX"});
    agree({{"mixed-from", "1.9 %"}});
    EXPECT_TRUE(proposed().asTheyStand.serials.empty());
    agree({{"mixed-from", "not known"}});
    Settings settings = m_shop->settings();
    settings.own.reclaimerShare = 0.05;
    expectRecorded(m_shop->change(settings));
    EXPECT_EQ(proposed().asTheyStand.serials, Serials{"MIX"});
}

TEST_F(ComposeTest, WhatMayNotGoSaysWhy) {
    enter(holding("A1", "10", "R-22"));
    NewCylinder low = weekCylinder("LOW", "DOT-4BA350", "26.2", "17.0", "2024-10");
    low.evacuated = false;
    low.content = lb("10");
    low.refrigerant = "R-410A"; // 484 psig at 55 degC against 1.25 x 350: 49 CFR 173.301(a)(8)
    enter(low);
    enter(holding("SET", "5", "R-22"));
    expectRecorded(prepareBatch(*m_shop, "B-1", kReclaimer, {"SET"}));
    NewCylinder burnt = holding("BURNT", "5", "R-22");
    burnt.plate.burnOut = true;
    enter(burnt);
    const BatchProposal proposal = proposed();
    EXPECT_EQ(proposal.asTheyStand.serials, Serials{"A1"});
    EXPECT_NE(whyStays(proposal, "LOW").find("pressure class too low"), std::string::npos);
    EXPECT_EQ(whyStays(proposal, "SET"), "Set aside for batch B-1.");
    EXPECT_NE(whyStays(proposal, "BURNT").find("burn-out gas is not known"), std::string::npos);
    EXPECT_EQ(composeBatch(*m_shop, {"Nobody", {}, 0, {}}).ok(), false);
}

// 35 lb at 4.50 a kilogram: 10 lb are 4.5359237 kg, 20.41; 15 lb 6.80388555 kg, 30.62; less 25 and 3 x 5.
TEST_F(ComposeTest, CreditIsExactAndOnlySaidWhereAllIsKnown) {
    enter(holding("A1", "10", "R-22"));
    enter(holding("A2", "10", "R-22", "Brightwater Grocers"));
    enter(holding("A3", "15", "R-410A"));
    agree({{"currency", "USD"}, {"price", "clean=4.50/kg"}, {"fee", "25"}});
    EXPECT_FALSE(proposed().credit) << "the fee of a cylinder is not known";
    agree({{"fee-each", "5"}, {"minimum", "35 lb"}});
    BatchProposal proposal = proposed();
    EXPECT_EQ(proposal.credit, 2'041 + 2'041 + 3'062 - 2'500 - 1'500);
    EXPECT_EQ(proposal.problem, "");
    EXPECT_EQ(proposal.asTheyStand.gross, lb("86"));
    agree({{"minimum", "35.1 lb"}});
    EXPECT_NE(proposed().problem.find("35.1 lb"), std::string::npos) << proposed().problem;
    proposal = proposed({kReclaimer, {}, 1, {}});
    EXPECT_EQ(proposal.asTheyStand.serials, Serials{"A3"});
    EXPECT_NE(whyStays(proposal, "A1"), "goes");
}

TEST_F(ComposeTest, PartFilledOnesOfOneOwnerGoTogetherWithinTheirLimits) {
    for (const char* serial : {"A1", "A2", "A3"}) {
        enter(holding(serial, "8", "R-22"));
    }
    enter(holding("OTHER", "8", "R-22", "Brightwater Grocers"));
    NewCylinder once = holding("ONCE", "2", "R-22");
    once.plate.manufactured = MonthYear::parse("2019-01").value(); // due 2024-01: 49 CFR 180.209(a)
    once.filled = Date::parse("2023-06-01").value();               // and still carried: 180.205(c)
    enter(once);
    agree({{"currency", "USD"}, {"price", "clean=4.50/kg"}, {"price", "mixed=-3.00/kg"}});
    const BatchProposal proposal = proposed();
    EXPECT_EQ(proposal.asTheyStand.serials.size(), 5U);
    ASSERT_TRUE(proposal.consolidated);
    const BatchPlan& plan = *proposal.consolidated;
    const Mass room = card(*m_shop, "A1").value().limits.net;
    const std::size_t needed = lb("26") <= room ? 1 : 2; // of 26 lb of that owner
    EXPECT_EQ(plan.serials.size(), needed + 1);
    EXPECT_EQ(plan.net, proposal.asTheyStand.net);
    EXPECT_TRUE(std::find(plan.serials.begin(), plan.serials.end(), "OTHER") != plan.serials.end());
    for (const PlannedDecant& step : plan.decants) {
        EXPECT_NE(step.to, "ONCE");
        EXPECT_NE(step.from, "OTHER");
        const Decant decanting{step.from, step.to, step.mass, "", {}};
        const Review reviewed = review(*m_shop, decanting);
        EXPECT_FALSE(reviewed.refused()) << reviewed.reason();
        expectRecorded(decant(*m_shop, decanting));
        EXPECT_TRUE(rulesOf(step.to).empty()) << step.to;
    }
    const BatchProposal after = proposed();
    EXPECT_EQ(after.asTheyStand.serials, plan.serials);
    EXPECT_FALSE(after.consolidated) << "nothing is left to gain";
    const auto apart = std::find_if(proposal.advice.begin(), proposal.advice.end(), [](const auto& sentence) {
        return sentence.find("apart") != std::string::npos;
    });
    ASSERT_NE(apart, proposal.advice.end());
    EXPECT_NE(apart->find("USD"), std::string::npos) << *apart;
}

// On a day after its retest was due a cylinder is not topped up: 49 CFR 180.205(c).
TEST_F(ComposeTest, TheDayCounts) {
    enter(holding("A1", "8", "R-22"));
    enter(holding("A2", "8", "R-22"));
    EXPECT_TRUE(proposed().consolidated);
    const Date late = Date::parse("2040-01-15").value();
    const BatchProposal proposal = proposed({kReclaimer, late, 0, {}});
    EXPECT_EQ(proposal.on, late);
    EXPECT_FALSE(proposal.consolidated) << "neither may be filled then";
}

// Reading a shop of five thousand included; generous, for the machine may be busy.
TEST_F(ComposeTest, AFleetOfHundredsIsProposedWhole) {
    std::vector<NewCylinder> fleet;
    for (int number = 0; number < 500; ++number) {
        const char* refrigerant = number % 3 == 0 ? "R-22" : number % 3 == 1 ? "R-410A" : "R-134a";
        fleet.push_back(holding(fmt::format("F{:04}", number),
                                fmt::format("{}.{}", 2 + number % 17, number % 10), refrigerant,
                                number % 2 == 0 ? "" : "Ansel Harbor Cold Storage"));
    }
    expectRecorded(registerCylinders(*m_shop, fleet));
    const BatchProposal proposal = proposed();
    EXPECT_EQ(proposal.asTheyStand.serials.size(), 500U);
    ASSERT_TRUE(proposal.consolidated);
    EXPECT_LT(proposal.consolidated->serials.size(), 350U);
}

// Three of 26.2 lb water, each 12 lb of R-22, into one of 47.7 lb: 80 % of its volume by common practice at
// 25 degC, 1.19 kg/l (R-22 as a saturated liquid, NIST Chemistry WebBook, from memory), is 45 lb: 36 lb go
// in.
TEST_F(ComposeTest, ALargeEvacuatedEmptyTakesThreeSmallOnes) {
    for (const char* serial : {"A1", "A2", "A3"}) {
        enter(holding(serial, "12", "R-22"));
    }
    EXPECT_EQ(proposed().consolidated.value().serials.size(), 2U) << "among themselves";
    NewCylinder empty = weekCylinder("E1", "DOT-4BA400", "47.7", "27.0", "2024-10");
    empty.evacuated = false;
    enter(empty);
    EXPECT_EQ(proposed().consolidated.value().serials.size(), 2U) << "it is not evacuated";
    expectRecorded(evacuate(*m_shop, "E1", "500 microns"));
    const BatchProposal proposal = proposed();
    ASSERT_TRUE(proposal.consolidated);
    EXPECT_EQ(proposal.consolidated->serials, Serials{"E1"});
    EXPECT_EQ(proposal.consolidated->net, proposal.asTheyStand.net);
    const auto says = [&](const char* words) {
        return std::any_of(proposal.advice.begin(), proposal.advice.end(),
                           [&](const std::string& one) { return one.find(words) != std::string::npos; });
    };
    EXPECT_TRUE(says("E1 is an evacuated empty"));
    EXPECT_TRUE(says("apart from each other where the analysis matters"));
    for (const PlannedDecant& decant : proposal.consolidated->decants) {
        Decant one;
        one.from = decant.from;
        one.to = decant.to;
        one.mass = decant.mass;
        EXPECT_FALSE(review(*m_shop, one).refused()) << decant.from;
        expectRecorded(tarebook::decant(*m_shop, one));
    }
    EXPECT_EQ(proposed().asTheyStand.serials, Serials{"E1"});
}

// Of too low a class, with its date passed, or out: none of them is filled.
TEST_F(ComposeTest, AnEmptyThatDoesNotSuitStaysEmpty) {
    for (const char* serial : {"A1", "A2", "A3"}) {
        enter(holding(serial, "10", "R-410A"));
    }
    const std::size_t without = proposed().consolidated ? proposed().consolidated->serials.size()
                                                        : proposed().asTheyStand.serials.size();
    enter(weekCylinder("LOW", "DOT-4BA350", "47.7", "27.0", "2024-10"));
    enter(weekCylinder("OLD", "DOT-4BA400", "47.7", "27.0", "2020-03"));
    const BatchProposal proposal = proposed();
    EXPECT_EQ(proposal.consolidated ? proposal.consolidated->serials.size()
                                    : proposal.asTheyStand.serials.size(),
              without);
    enter(weekCylinder("GOOD", "DOT-4BA400", "47.7", "27.0", "2024-10"));
    ASSERT_TRUE(proposed().consolidated);
    EXPECT_EQ(proposed().consolidated->serials, Serials{"GOOD"});
}

// A deposit ends when the cylinder goes back to whom it belongs: the empties of the reclaimer go along, where
// that is asked for; the shop's own, another's, and one that still holds gas do not.
TEST_F(ComposeTest, EmptiesOnDepositGoBackAlong) {
    enter(holding("A1", "10", "R-22"));
    for (const char* serial : {"LENT", "OWN", "OTHER", "PAST"}) {
        NewCylinder empty = weekCylinder(serial, "DOT-4BA400", "26.2", "17.0", "2024-10");
        empty.evacuated = std::string(serial) != "PAST";
        enter(empty);
    }
    expectRecorded(m_shop->record({draftOf(*m_shop, Party{"supplier", "Estuary Supply", "", ""})}));
    const auto lend = [&](const char* serial, const char* party) {
        CylinderLoan loan;
        loan.serial = serial;
        loan.since = Date::parse("2026-09-01").value();
        expectRecorded(enterDeposit(*m_shop, party, loan));
    };
    lend("LENT", kReclaimer);
    lend("PAST", kReclaimer);
    lend("A1", kReclaimer);
    lend("OTHER", "Estuary Supply");
    EXPECT_TRUE(proposed().empties.empty());
    ComposeAsk ask;
    ask.empties = true;
    const BatchProposal proposal = proposed(ask);
    EXPECT_EQ(proposal.empties, Serials{"LENT"});
    EXPECT_EQ(proposal.asTheyStand.serials, Serials{"A1"});
    EXPECT_NE(whyStays(proposal, "PAST").find("what was last in it"), std::string::npos);
    expectRecorded(prepareBatch(*m_shop, "B-1", kReclaimer, {"A1", "LENT"}));
    setTime("2026-09-15 09:00");
    expectRecorded(shipBatch(*m_shop, "B-1", "own van"));
    EXPECT_FALSE(depositOf(*m_shop, "LENT", m_shop->today()).value()->out(m_shop->today()));
}
