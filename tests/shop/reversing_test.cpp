// What later entries rest on is reversed after them; and gas in a cylinder that is not on the register is
// found.
#include "tests/shop/counter_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ReversingTest : public CounterLawTest {};

} // namespace

TEST_F(ReversingTest, ARegistrationIsReversedOnlyWhileNothingElseNamesTheCylinder) {
    const auto entries = m_shop->store().entriesAbout("cylinder:A103").value();
    ASSERT_EQ(entries.size(), 2U); // registered, opened
    const Recorded refused = m_shop->reverse(entries[0].seq, "one key too many");
    EXPECT_EQ(refused.outcome, Outcome::notRecorded);
    EXPECT_NE(refused.error.wrong.find(std::to_string(entries[1].seq)), std::string::npos)
        << refused.error.text();
    EXPECT_TRUE(card(*m_shop, "A103"));
    expectRecorded(m_shop->reverse(entries[1].seq, "not ours"));
    expectRecorded(m_shop->reverse(entries[0].seq, "not ours"));
    EXPECT_FALSE(card(*m_shop, "A103"));
    // The undo of a whole step takes both back at once.
    const auto other = m_shop->store().entriesAbout("cylinder:A105").value();
    expectRecorded(m_shop->record(
        {m_shop->draft(EntryKind::entryReversed, {{"entry", other[1].seq}, {"reason", "undone"}}),
         m_shop->draft(EntryKind::entryReversed, {{"entry", other[0].seq}, {"reason", "undone"}})}));
}

// As a file of an older program may have it: the journal took such a reversal.
TEST_F(ReversingTest, GasInACylinderThatIsNotOnTheRegisterIsFound) {
    const auto entries = m_shop->store().entriesAbout("cylinder:A103").value();
    const Draft reversal =
        m_shop->draft(EntryKind::entryReversed, {{"entry", entries[0].seq}, {"reason", "one key too many"}});
    ASSERT_EQ(m_shop->store().append({reversal}).outcome, Outcome::recorded);
    const auto open = alert("register.missing", "cylinder:A103");
    ASSERT_TRUE(open);
    EXPECT_EQ(open->finding.headline, "14.6 lb of R-22 in A103, which is not on the register.");
    later();
    NewCylinder again = weekCylinders()[2];
    again.content = {};
    expectRecorded(registerCylinder(*m_shop, again));
    EXPECT_FALSE(alert("register.missing", "cylinder:A103"));
    EXPECT_EQ(net("A103"), "14.6 lb");
}

TEST_F(ReversingTest, AStepOfABatchIsReversedAfterItsLaterSteps) {
    expectRecorded(m_shop->record({draftOf(*m_shop, Party{"reclaimer", "Cape Reclaim", "", ""})}));
    const Recorded prepared = prepareBatch(*m_shop, "B-1", "Cape Reclaim", {"A105"});
    expectRecorded(prepared);
    later();
    const Recorded shipped = shipBatch(*m_shop, "B-1", "");
    expectRecorded(shipped);
    EXPECT_EQ(m_shop->reverse(prepared.entries.front(), "oops").outcome, Outcome::notRecorded);
    later();
    const Draft received =
        m_shop->draft(EntryKind::batchReceived,
                      {{"batch", "B-1"}, {"reclaimer", "Cape Reclaim"}, {"lines", nlohmann::json::array()}});
    expectRecorded(m_shop->record({received}));
    const Sequence receipt = m_shop->store().headSeq();
    const Recorded refused = m_shop->reverse(shipped.entries.front(), "oops");
    EXPECT_EQ(refused.outcome, Outcome::notRecorded);
    EXPECT_NE(refused.error.wrong.find(std::to_string(receipt)), std::string::npos) << refused.error.text();
    EXPECT_FALSE(alert("batch.not-shipped", "batch:B-1"));
    const Draft reversal =
        m_shop->draft(EntryKind::entryReversed, {{"entry", shipped.entries.front()}, {"reason", "oops"}});
    ASSERT_EQ(m_shop->store().append({reversal}).outcome, Outcome::recorded);
    EXPECT_TRUE(alert("batch.not-shipped", "batch:B-1"));
    expectRecorded(m_shop->reverse(receipt, "with its shipping"));
    EXPECT_FALSE(alert("batch.not-shipped", "batch:B-1"));
}

TEST_F(ReversingTest, AHandOutIsReversedAfterItsHandOver) {
    CheckOut plan;
    plan.person = "MORGAN VALE";
    plan.job = "J-1";
    plan.serials = {"A101"};
    plan.purpose = Purpose::carry;
    const Recorded out = checkOut(*m_shop, plan);
    expectRecorded(out);
    later();
    const Recorded over = handOver(*m_shop, "A101", "JULES ARBOR", "J-2");
    expectRecorded(over);
    EXPECT_EQ(m_shop->reverse(out.entries.back(), "oops").outcome, Outcome::notRecorded);
    EXPECT_EQ(retire(*m_shop, "A101", "sold").outcome, Outcome::notRecorded);
    EXPECT_NE(retire(*m_shop, "A101", "sold").error.wrong.find("out with JULES ARBOR"), std::string::npos);
    expectRecorded(m_shop->reverse(over.entries.front(), "oops"));
    expectRecorded(m_shop->reverse(out.entries.back(), "oops"));
    expectRecorded(retire(*m_shop, "A101", "sold"));
}
