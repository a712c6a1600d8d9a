// What is said of somebody or something on file keeps what is not said. Whose recovered gas is: 40
// CFR 82.154(d) in the shared reference (only into equipment of the same owner), so a site that loses its
// customer would make a customer's gas the shop's own.
#include "core/shop/register_changes.h"

#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

constexpr const char* kHarbor = "Ansel Harbor Cold Storage";

class RegisterChangesTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        std::vector<Draft> drafts;
        for (const System& system : weekSystems()) {
            for (const Draft& draft : draftsOf(*m_shop, system)) {
                drafts.push_back(draft);
            }
        }
        expectRecorded(m_shop->record(drafts));
        expectRecorded(
            registerCylinder(*m_shop, weekCylinder("A1", "DOT-4BA400", "47.7", "27.0", "2024-10")));
    }
    void enter(const SystemChange& change) {
        expectRecorded(m_shop->record(SystemChanges(*m_shop).take(change)));
    }
    /// Whose the gas is that is recovered next from there.
    [[nodiscard]] std::string ownerOfNext(const std::string& system) {
        CheckIn facts;
        facts.serial = "A1";
        facts.from = "system:" + system;
        const CylinderState before = card(*m_shop, "A1").value().state;
        facts.grossBefore = before.plate.tare.plus(before.content.total()).value();
        facts.grossAfter = facts.grossBefore->plus(lb("1")).value();
        const Recorded recorded = checkIn(*m_shop, facts);
        expectRecorded(recorded);
        return m_shop->store().entry(recorded.entries.front()).value().body.value("owner", std::string("-"));
    }
};

} // namespace

TEST_F(RegisterChangesTest, ASystemAddedOrChangedLeavesTheCustomerOfItsSite) {
    SystemChange added{"HARBOR", "CHILLER-9"};
    added.refrigerant = "R-22";
    enter(added);
    EXPECT_EQ(ownerOfNext("HARBOR/CHILLER-9"), kHarbor);
    EXPECT_EQ(ownerOfNext("HARBOR/DOCK-1"), kHarbor);
    SystemChange changed{"HARBOR", "DOCK-1"};
    changed.equipment = "industrial process refrigeration";
    enter(changed);
    EXPECT_EQ(ownerOfNext("HARBOR/DOCK-1"), kHarbor);
    const auto dock = systemNamed(*m_shop, "HARBOR/DOCK-1");
    ASSERT_TRUE(dock);
    EXPECT_EQ(dock->equipment, "industrial process refrigeration");
    EXPECT_EQ(dock->refrigerant, "R-22");
    EXPECT_EQ(dock->nominalCharge, lb("60"));
}

// The whole of a system may be entered by who does not know the customer.
TEST_F(RegisterChangesTest, ABlankCustomerInAWholeSystemSaysNothing) {
    System system;
    system.site = "HARBOR";
    system.tag = "DOCK-2";
    system.refrigerant = "R-22";
    expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
    EXPECT_EQ(ownerOfNext("HARBOR/DOCK-1"), kHarbor);
    EXPECT_EQ(ownerOfNext("HARBOR/DOCK-2"), kHarbor);
    EXPECT_EQ(systemNamed(*m_shop, "HARBOR/DOCK-2")->customer, kHarbor);
}

TEST_F(RegisterChangesTest, AddressAndCustomerOfASiteKeepEachOther) {
    SystemChange address{"HARBOR", "DOCK-1"};
    address.address = "Quay 4, Port Ansel";
    enter(address);
    EXPECT_EQ(systemNamed(*m_shop, "HARBOR/DOCK-1")->customer, kHarbor);
    SystemChange customer{"HARBOR", "DOCK-1"};
    customer.customer = "Pier Foods";
    enter(customer);
    const auto dock = systemNamed(*m_shop, "HARBOR/DOCK-1");
    EXPECT_EQ(dock->address, "Quay 4, Port Ansel");
    EXPECT_EQ(dock->customer, "Pier Foods");
    // Together, before either is recorded.
    SystemChanges changes(*m_shop);
    std::vector<Draft> drafts = changes.take({"PIER", "ONE", "Pier Foods", std::nullopt, "R-22"});
    for (const Draft& draft : changes.take({"PIER", "TWO", std::nullopt, "Pier 1", "R-22"})) {
        drafts.push_back(draft);
    }
    expectRecorded(m_shop->record(drafts));
    for (const char* key : {"PIER/ONE", "PIER/TWO"}) {
        EXPECT_EQ(systemNamed(*m_shop, key)->customer, "Pier Foods");
        EXPECT_EQ(systemNamed(*m_shop, key)->address, "Pier 1");
    }
}

TEST_F(RegisterChangesTest, GivenAndBlankTakesAway) {
    SystemChange here{"HARBOR", "DOCK-1"};
    here.address = "Quay 4, Port Ansel";
    enter(here);
    here.address = " ";
    enter(here);
    EXPECT_EQ(systemNamed(*m_shop, "HARBOR/DOCK-1")->address, "");
    SystemChange change{"HARBOR", "DOCK-1"};
    change.customer = "";
    change.nominalCharge.emplace(std::nullopt);
    enter(change);
    const auto dock = systemNamed(*m_shop, "HARBOR/DOCK-1");
    EXPECT_EQ(dock->customer, "");
    EXPECT_FALSE(dock->nominalCharge);
    EXPECT_EQ(dock->equipment, "commercial refrigeration");
}

TEST_F(RegisterChangesTest, ASiteThatChangesHandsIsSaidWithTheGasThatStaysTheirs) {
    EXPECT_EQ(ownerOfNext("HARBOR/DOCK-1"), kHarbor);
    SystemChange change{"HARBOR", "DOCK-1"};
    const SystemChanges changes(*m_shop);
    EXPECT_EQ(changes.notice(change), "");
    change.customer = kHarbor;
    EXPECT_EQ(changes.notice(change), "");
    change.customer = "Pier Foods";
    EXPECT_EQ(changes.notice(change),
              "HARBOR was of Ansel Harbor Cold Storage until now, all its systems: the 1.0 lb of theirs in "
              "cylinders stay theirs; what is recovered from now on is of Pier Foods");
    change.customer = "";
    EXPECT_NE(changes.notice(change).find("from now on is the shop's own"), std::string::npos);
    change.site = "NEW";
    EXPECT_EQ(changes.notice(change), "");
}

TEST_F(RegisterChangesTest, AnAddressThatIsClearedIsTakenAway) {
    SystemChanges changes(*m_shop);
    SystemChange change{"HARBOR", "DOCK-1"};
    change.address = "Quay 7";
    change.refrigerant = "R-22";
    expectRecorded(m_shop->record(changes.take(change)));
    ASSERT_EQ(systemNamed(*m_shop, "HARBOR/DOCK-1")->address, "Quay 7");
    SystemChanges later(*m_shop);
    change.address = "";
    expectRecorded(m_shop->record(later.take(change)));
    EXPECT_EQ(systemNamed(*m_shop, "HARBOR/DOCK-1")->address, "");
}

TEST_F(RegisterChangesTest, PeopleAndPartiesKeepWhatIsNotSaid) {
    const Person finn{"FINN BECK", "storekeeper", "Type II 71107", Date::parse("2027-03-31").value(), false};
    expectRecorded(m_shop->record({draftOf(*m_shop, finn)}));
    PersonChange longer{"FINN BECK"};
    longer.certificateExpires = Date::parse("2030-01-01").value();
    const Person then = changed(*m_shop, longer);
    EXPECT_EQ(then.role, "storekeeper");
    EXPECT_EQ(then.certificate, "Type II 71107");
    EXPECT_EQ(then.certificateExpires->text(), "2030-01-01");
    EXPECT_FALSE(then.active) << "who has left has not come back by a new date";
    EXPECT_EQ(changed(*m_shop, PersonChange{"ROBIN QUILL"}).role, "technician");
    const Party cape{"reclaimer", "Cape Reclaim", "Foundry Way 2", "R-0417"};
    expectRecorded(m_shop->record({draftOf(*m_shop, cape)}));
    EXPECT_EQ(changed(*m_shop, PartyChange{"reclaimer", "Cape Reclaim", std::nullopt, "X9"}).address,
              "Foundry Way 2");
    EXPECT_EQ(changed(*m_shop, PartyChange{"reclaimer", "Cape Reclaim", ""}).number, "R-0417");
    EXPECT_EQ(changed(*m_shop, PartyChange{"supplier", "Cape Reclaim"}).address, "") << "another party";
}
