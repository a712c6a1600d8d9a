// Who may do what at the front desk: overruling, settings, their own passphrase.
#include "core/shop/operators.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

const std::string kWords = "four quiet blue valves";

class OperatorsShopTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerPeople(*m_shop));
        expectRecorded(registerCylinders(*m_shop, weekCylinders()));
    }
    void beginWithEveryRole() {
        expectRecorded(addOperator(*m_shop, "PAT KESTREL", Role::manager, kWords));
        in("PAT KESTREL");
        expectRecorded(addOperator(*m_shop, "ROBIN ALDER", Role::storekeeper, kWords));
        expectRecorded(addOperator(*m_shop, "MORGAN VALE", Role::technician, kWords));
        expectRecorded(addOperator(*m_shop, "IDA SHAW", Role::auditor, kWords));
    }
    void in(const std::string& name) {
        const auto signedIn = signIn(*m_shop, name, kWords, m_clock.now());
        ASSERT_TRUE(signedIn) << signedIn.error().text();
    }
    static void expectRefused(const Recorded& recorded, const std::string& part) {
        EXPECT_EQ(recorded.outcome, Outcome::notRecorded);
        EXPECT_NE(recorded.error.text().find(part), std::string::npos) << recorded.error.text();
    }
};

} // namespace

TEST_F(OperatorsShopTest, APracticeFindingIsSettledByAManagerAndTheLawByNobody) {
    beginWithEveryRole();
    expectRecorded(weigh(*m_shop, "A105", lb("46.4"))); // 1.5 lb less than the books: a release, or a slip
    ASSERT_EQ(rulesOf("A105"), std::vector<std::string>{"weight.differs"});
    for (const char* name : {"ROBIN ALDER", "MORGAN VALE"}) {
        in(name);
        EXPECT_FALSE(may(*m_shop, EntryKind::findingOverruled));
        expectRefused(overrule(*m_shop, "weight.differs", "cylinder:A105", "mended"), "a manager may");
    }
    in("PAT KESTREL");
    expectRefused(overrule(*m_shop, "weight.differs", "cylinder:A105", "  "), "reason");
    expectRecorded(overrule(*m_shop, "weight.differs", "cylinder:A105", "a leak at the valve, mended"));
    EXPECT_TRUE(rulesOf("A105").empty());
    const Entry entry = m_shop->store().entry(m_shop->store().headSeq()).value();
    EXPECT_EQ(entry.operatorName, "PAT KESTREL");
    EXPECT_EQ(entry.body["reason"], "a leak at the valve, mended");
    // R-22 in 26.2 lb of water: 27.5 lb at most by 49 CFR 173.304a(a)(2) (filling density 105 %); 28.0 lb is
    // unlawful, and no reason makes it lawful.
    CheckIn facts;
    facts.serial = "A103";
    facts.grossBefore = lb("31.6");
    facts.grossAfter = lb("45.0");
    facts.from = "system:HARBOR/DOCK-1";
    facts.refrigerant = "R-22";
    std::vector<Draft> drafts;
    for (const System& system : weekSystems()) {
        for (const Draft& draft : draftsOf(*m_shop, system)) {
            drafts.push_back(draft);
        }
    }
    expectRecorded(m_shop->record(drafts));
    expectRecorded(checkIn(*m_shop, facts));
    const auto findings = card(*m_shop, "A103").value().findings;
    ASSERT_FALSE(findings.empty());
    EXPECT_EQ(findings.front().severity, Severity::danger);
    expectRefused(overrule(*m_shop, findings.front().rule, "cylinder:A103", "it is only half a pound"),
                  "cannot be overruled");
}

TEST_F(OperatorsShopTest, NothingThatTheLawForbidsMayBeOverruled) {
    // Everything that lasts on the week's cylinders at once: what may be settled is practice, or no refusal.
    expectRecorded(weigh(*m_shop, "A105", lb("46.4")));
    CheckIn facts;
    facts.serial = "A104"; // a class too low for R-410A, and too full
    facts.grossBefore = lb("26.0");
    facts.grossAfter = lb("70.0");
    facts.from = "supplier:Estuary Supply";
    facts.refrigerant = "R-410A";
    expectRecorded(checkIn(*m_shop, facts));
    facts.serial = "A101"; // past its retest
    facts.grossBefore = lb("27.0");
    facts.grossAfter = lb("39.0");
    expectRecorded(checkIn(*m_shop, facts));
    int practice = 0;
    int law = 0;
    for (const char* serial : {"A101", "A104", "A105"}) {
        const auto findings = card(*m_shop, serial).value().findings;
        for (const Finding& finding : findings) {
            if (finding.overrulable) {
                ++practice;
                EXPECT_TRUE(finding.severity < Severity::refusal || finding.firmness == Firmness::practice)
                    << finding.rule;
            } else if (finding.severity >= Severity::refusal) {
                ++law;
                EXPECT_FALSE(overrule(*m_shop, finding.rule, finding.subject, "so be it").ok())
                    << finding.rule;
            }
        }
    }
    EXPECT_GE(practice, 1);
    EXPECT_GE(law, 2);
}

TEST_F(OperatorsShopTest, EachRoleAtTheDesk) {
    beginWithEveryRole();
    Settings settings = m_shop->settings();
    settings.outDays = 21;
    in("ROBIN ALDER");
    expectRefused(m_shop->change(settings), "a manager may");
    expectRefused(addOperator(*m_shop, "JULES ARBOR", Role::manager, kWords), "may not enter this");
    expectRecorded(condemn(*m_shop, "A101", "a dent in the weld"));
    expectRefused(retire(*m_shop, "A101", "scrapped"), "a manager may");
    in("MORGAN VALE");
    CheckOut plan;
    plan.serials = {"A107"};
    plan.person = "JULES ARBOR";
    plan.job = "J-1";
    expectRefused(checkOut(*m_shop, plan), "for JULES ARBOR");
    plan.person = "MORGAN VALE";
    expectRecorded(checkOut(*m_shop, plan));
    EXPECT_FALSE(may(*m_shop, EntryKind::settingSet));
    EXPECT_TRUE(may(*m_shop, EntryKind::weighed));
    in("IDA SHAW");
    EXPECT_FALSE(may(*m_shop, EntryKind::weighed));
    expectRefused(weigh(*m_shop, "A107", lb("16.8")), "only reads");
    in("PAT KESTREL");
    expectRecorded(m_shop->change(settings));
    EXPECT_EQ(m_shop->store().entry(m_shop->store().headSeq()).value().operatorName, "PAT KESTREL");
}

TEST_F(OperatorsShopTest, TheJournalSaysWhoCouldWriteWhenAndByWhom) {
    beginWithEveryRole();
    expectRecorded(changeRole(*m_shop, "ROBIN ALDER", Role::manager));
    expectRecorded(changePassphrase(*m_shop, "ROBIN ALDER", "a heel of nine pounds"));
    expectRecorded(removeOperator(*m_shop, "ROBIN ALDER"));
    std::vector<std::string> told;
    const auto entries = m_shop->store().entriesAbout("operator:ROBIN ALDER");
    ASSERT_TRUE(entries);
    for (const Entry& entry : entries.value()) {
        told.push_back(entry.operatorName + ": " + sentenceOf(*m_shop, entry));
    }
    EXPECT_EQ(told, (std::vector<std::string>{
                        "PAT KESTREL: ROBIN ALDER signs in as storekeeper, with a new passphrase",
                        "PAT KESTREL: ROBIN ALDER signs in as manager",
                        "PAT KESTREL: ROBIN ALDER signs in as manager, with a new passphrase",
                        "PAT KESTREL: ROBIN ALDER no longer signs in"}));
    expectRefused(removeOperator(*m_shop, "ROBIN ALDER"), "does not sign in");
    expectRefused(addOperator(*m_shop, "  ", Role::manager, kWords), "no name");
    expectRefused(addOperator(*m_shop, "PAT KESTREL", Role::manager, kWords), "signs in already");
    expectRefused(changePassphrase(*m_shop, "PAT KESTREL", ""), "passphrase is empty");
}

TEST_F(OperatorsShopTest, WhoeverMustSignInIsAskedOnceSomethingIsToBeWritten) {
    beginWithEveryRole();
    m_shop.reset();
    Environment asking = environment();
    asking.operatorName = "ROBIN ALDER";
    int asked = 0;
    asking.signIn = [&asked, this](Shop& shop) -> Result<bool> {
        ++asked;
        const auto signedIn = signIn(shop, shop.environment().operatorName, kWords, m_clock.now());
        return signedIn ? Result<bool>(true) : Result<bool>(signedIn.error());
    };
    m_shop = Shop::open((m_folder / "shop.tarebook").string(), asking).shop;
    EXPECT_EQ(net("A105"), "20.0 lb");
    EXPECT_EQ(asked, 0);
    expectRecorded(weigh(*m_shop, "A107", lb("16.8")));
    expectRecorded(weigh(*m_shop, "A107", lb("16.8")));
    EXPECT_EQ(asked, 1);
}

TEST_F(OperatorsShopTest, TheLockIsASettingThatStaysOutOfANewJournal) {
    const Settings fresh;
    EXPECT_EQ(fresh.lockMinutes, 10);
    Settings settings = m_shop->settings();
    EXPECT_TRUE(settings.set("lock_minutes", "25"));
    EXPECT_EQ(settings.lockMinutes, 25);
    EXPECT_FALSE(settings.set("lock_minutes", "a while"));
    EXPECT_FALSE(settings.set("lock_minutes", "1441"));
    EXPECT_EQ(settings.lockMinutes, 25);
    expectRecorded(m_shop->change(settings));
    EXPECT_TRUE(settings.set("lock_minutes", "0"));
    expectRecorded(m_shop->change(settings));
    EXPECT_EQ(m_shop->settings().lockMinutes, 0);
    EXPECT_TRUE(settings.set("lock_minutes", ""));
    expectRecorded(m_shop->change(settings));
    EXPECT_EQ(m_shop->settings().lockMinutes, 10);
    for (const auto& [key, value] : fresh.pairs()) {
        EXPECT_TRUE(key != "lock_minutes" || value.empty());
    }
}
