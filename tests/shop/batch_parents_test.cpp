// A cylinder whose analysis failed leads to whose gas it was, which jobs, and whose machine. Masses by hand.
#include "core/shop/batch_parents.h"

#include "core/shop/counter.h"
#include "core/shop/failed_analyses.h"
#include "core/shop/receipts.h"
#include "core/shop/today.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class BatchParentsTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
        expectRecorded(m_shop->record({m_shop->draft(EntryKind::machineSet, {{"machine", "RM-2"}})}));
    }
    void recover(const char* serial, const char* before, const char* after, const char* system,
                 const char* job, const char* person, const char* machine = "") {
        const std::int64_t mass = lb(after).milligrams() - lb(before).milligrams();
        nlohmann::json body{
            {"from", system},
            {"to", std::string("cylinder:") + serial},
            {"mass_mg", mass},
            {"refrigerant", std::string(system) == "system:HARBOR/DOCK-1" ? "R-22" : "R-410A"},
            {"owner", std::string(system) == "system:HARBOR/DOCK-1" ? "Ansel Harbor Cold Storage"
                                                                    : "Brightwater Grocers"},
            {"state", "recovered"},
            {"job", job},
            {"person", person}};
        if (*machine != '\0') {
            body["machine"] = machine;
        }
        expectRecorded(m_shop->record({m_shop->draft(EntryKind::recovered, body)}));
    }
};

} // namespace

// 12 lb R-410A in A102 by MORGAN; 4 lb R-22 on top by JULES with machine RM-2; 4 lb of the mixture, a quarter
// of it R-22, went on into A104: 12 lb left, 9 of R-410A and 3 of R-22. What stayed in A104 is 3 and 1.
TEST_F(BatchParentsTest, LeadToOwnersJobsTechniciansAndMachines) {
    recover("A102", "0.0", "12.0", "system:BRIGHTWATER/STORE-2", "J-1", "MORGAN VALE");
    recover("A102", "0.0", "4.0", "system:HARBOR/DOCK-1", "J-2", "JULES ARBOR", "RM-2");
    expectRecorded(m_shop->record({m_shop->draft(
        EntryKind::decanted,
        {{"from", "cylinder:A102"}, {"to", "cylinder:A104"}, {"mass_mg", lb("4").milligrams()}})}));
    expectRecorded(m_shop->record(
        {m_shop->draft(EntryKind::batchPrepared,
                       {{"batch", "B-1"}, {"reclaimer", "Cape Reclaim"}, {"serials", {"A102"}}})}));
    EXPECT_FALSE(parentsOf(*m_shop, batch(*m_shop, "B-1").value())) << "nothing has left";
    const Mass sent = card(*m_shop, "A102").value().state.content.total();
    // At the same second as the charges: what counts is what the entry found there.
    expectRecorded(m_shop->record({m_shop->draft(
        EntryKind::batchShipped, {{"batch", "B-1"},
                                  {"reclaimer", "Cape Reclaim"},
                                  {"lines",
                                   {{{"serial", "A102"},
                                     {"mass_mg", sent.milligrams()},
                                     {"gross_mg", sent.milligrams() + lb("28.1").milligrams()}}}}})}));
    EXPECT_TRUE(parentsOf(*m_shop, batch(*m_shop, "B-1").value()).value().empty()) << "none failed yet";
    ReceiptLine line{"A102", lb("40.1"), lb("28.1"), "25 % R-22"};
    line.result = AnalysisResult::mixed;
    const Recorded received = receiveBatch(*m_shop, "B-1", {"CR-1"}, {line});
    expectRecorded(received);
    const auto failed = std::find_if(received.findings.begin(), received.findings.end(),
                                     [](const auto& one) { return one.rule == "batch.analysis-failed"; });
    ASSERT_NE(failed, received.findings.end()) << "it is said when the receipt is entered";
    EXPECT_EQ(failed->headline, "Failed the analysis of Cape Reclaim: A102: mixed (25 % R-22).");
    EXPECT_EQ(
        failed->remedy,
        "Look at what it came from and went into: BRIGHTWATER/STORE-2, HARBOR/DOCK-1, machine RM-2. Gas "
        "of the same charges is in A104: keep apart until it is analysed.");
    EXPECT_EQ(failed->working.size(), 2U);
    const auto all = parentsOf(*m_shop, batch(*m_shop, "B-1").value());
    ASSERT_TRUE(all) << all.error().text();
    ASSERT_EQ(all.value().size(), 1U);
    const BatchParents& its = all.value().front();
    EXPECT_EQ(its.analysis, "25 % R-22");
    ASSERT_EQ(its.charges.size(), 2U);
    const ParentCharge& first = its.charges.front();
    EXPECT_TRUE(first.foreign) << "the gas that does not belong there comes first";
    EXPECT_EQ(shown(first.mass), "3.0 lb");
    EXPECT_EQ(first.gas.owner, "Ansel Harbor Cold Storage");
    EXPECT_EQ(first.customer, "Ansel Harbor Cold Storage");
    EXPECT_EQ(first.job, "J-2");
    EXPECT_EQ(first.person, "JULES ARBOR");
    EXPECT_EQ(first.machine, "RM-2");
    EXPECT_FALSE(its.charges[1].foreign);
    EXPECT_EQ(shown(its.charges[1].mass), "9.0 lb");
    EXPECT_EQ(its.charges[1].person, "MORGAN VALE");
    EXPECT_EQ(its.charges[0].mass.milligrams() + its.charges[1].mass.milligrams(), sent.milligrams());
    ASSERT_EQ(its.kin.size(), 1U) << "the cylinder that took some of the mixture is to be kept apart";
    EXPECT_EQ(its.kin.front().account.text(), "cylinder:A104");
    EXPECT_EQ(shown(its.kin.front().mass), "4.0 lb");
    EXPECT_FALSE(parentsOf(*m_shop, batch(*m_shop, "B-1").value(), "A103"));
    // Today has it, for so many days after it was settled too.
    EXPECT_EQ(failedAnalyses(*m_shop, m_shop->today()).value().size(), 1U);
    expectRecorded(settleBatch(*m_shop, "B-1", {.undecided = true}));
    const auto list = today(*m_shop, m_shop->today());
    ASSERT_TRUE(list);
    EXPECT_TRUE(std::any_of(list.value().alerts.begin(), list.value().alerts.end(),
                            [](const Alert& one) { return one.finding.rule == "batch.analysis-failed"; }));
    const Date settled = m_shop->today();
    EXPECT_EQ(failedAnalyses(*m_shop, settled.plusDays(kFailedAnalysisDays)).value().size(), 1U);
    EXPECT_TRUE(failedAnalyses(*m_shop, settled.plusDays(kFailedAnalysisDays + 1)).value().empty());
}
