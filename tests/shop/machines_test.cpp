// Recovery machines on file and how far a system was evacuated. Levels: 40 CFR 82.156(a) Table 1 (legal
// mirror): high pressure below 200 lb 0 inHg, from 200 lb 10 inHg with machines made from 1993-11-15 and 4
// inHg with older ones. Machines: 40 CFR 82.158 (certified and labelled for the kind of appliance); what is
// cleared and rated is common practice (RP-05, RP-27 of the shared reference).
#include "core/shop/machines.h"

#include "core/shop/names.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class MachinesTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerPeople(*m_shop));
        std::vector<Draft> drafts;
        std::vector<System> all = weekSystems();
        all.push_back(
            {"HARBOR", "HALL", "Ansel Harbor Cold Storage", "R-22", lb("250"), "commercial refrigeration"});
        all.push_back({"LOFT", "HP-1", "", "R-32", lb("6"), "comfort cooling"});
        all.push_back({"LOFT", "OLD", "", "R-22", std::nullopt, "comfort cooling"});
        for (const System& system : all) {
            for (const Draft& draft : draftsOf(*m_shop, system)) {
                drafts.push_back(draft);
            }
        }
        drafts.push_back(draftOf(*m_shop, machine("RM-1", false)));
        drafts.push_back(draftOf(*m_shop, machine("RM-2", true)));
        expectRecorded(m_shop->record(drafts));
        std::vector<NewCylinder> three = {weekCylinder("A1", "DOT-4BA400", "47.7", "27.0", "2024-10"),
                                          weekCylinder("A2", "DOT-4BA400", "47.7", "27.0", "2024-10"),
                                          weekCylinder("F1", "DOT-4BA400", "47.7", "27.0", "2024-10")};
        three[2].plate.flammableRated = true;
        expectRecorded(registerCylinders(*m_shop, three));
    }
    static Machine machine(const std::string& name, std::optional<bool> rated,
                           const char* made = "2019-05-20") {
        Machine machine;
        machine.name = name;
        machine.makerSerial = "88-" + name;
        machine.made = Date::parse(made).value();
        machine.flammableRated = rated;
        machine.certification = "certified to appendix B3";
        machine.certifiedFor = {"very-high", "high", "medium"};
        return machine;
    }
    [[nodiscard]] CheckIn recovery(const char* serial, const char* gross, const char* system,
                                   const char* with = "") const {
        CheckIn facts;
        facts.serial = serial;
        facts.grossAfter = lb(gross);
        facts.from = std::string("system:") + system;
        facts.machine = with;
        return facts;
    }
    static const Finding* named(const std::vector<Finding>& findings, const std::string& rule) {
        const auto found = std::find_if(findings.begin(), findings.end(),
                                        [&](const Finding& finding) { return finding.rule == rule; });
        return found == findings.end() ? nullptr : &*found;
    }
    [[nodiscard]] std::string last(const char* name) {
        return lastThrough(*m_shop, name, m_shop->now()).value();
    }
};

} // namespace

TEST_F(MachinesTest, AreKeptChangedAndTakenOutOfUse) {
    ASSERT_EQ(machines(*m_shop).size(), 2U);
    Machine first = machineNamed(*m_shop, "RM-1").value();
    EXPECT_EQ(first.makerSerial, "88-RM-1");
    EXPECT_EQ(first.made->text(), "2019-05-20");
    EXPECT_EQ(first.flammableRated, std::optional(false));
    EXPECT_EQ(first.certifiedFor, (std::vector<std::string>{"very-high", "high", "medium"}));
    EXPECT_TRUE(first.active);
    first.flammableRated.reset();
    first.certifiedFor.clear();
    first.made.reset();
    first.active = false;
    const Recorded changed = m_shop->record({draftOf(*m_shop, first)});
    expectRecorded(changed);
    const Machine after = machineNamed(*m_shop, "RM-1").value();
    EXPECT_FALSE(after.flammableRated.has_value());
    EXPECT_TRUE(after.certifiedFor.empty());
    EXPECT_FALSE(after.made.has_value());
    EXPECT_FALSE(after.active);
    expectRecorded(m_shop->reverse(changed.entries.front(), "was the other one"));
    EXPECT_TRUE(machineNamed(*m_shop, "RM-1").value().active);
    const auto missing = machineNamed(*m_shop, "RM-3");
    ASSERT_FALSE(missing);
    EXPECT_NE(missing.error().text().find("did you mean RM-1"), std::string::npos) << missing.error().text();
    EXPECT_FALSE(readAppliances("high, tall"));
    EXPECT_EQ(readAppliances(" High,very-high small").value(),
              (std::vector<std::string>{"high", "very-high", "small"}));
    EXPECT_TRUE(readAppliances("").value().empty());
}

TEST_F(MachinesTest, TheBooksKnowWhatWentThroughLast) {
    EXPECT_EQ(last("RM-1"), "");
    const Recorded first = checkIn(*m_shop, recovery("A1", "32", "HARBOR/DOCK-1", "RM-1"));
    expectRecorded(first);
    EXPECT_EQ(named(first.findings, "machine.clear"), nullptr);
    EXPECT_EQ(last("RM-1"), "R-22");
    const Recorded second = checkIn(*m_shop, recovery("A2", "32", "ST-ALDER/RTU-3", "RM-1"));
    expectRecorded(second);
    const Finding* clear = named(second.findings, "machine.clear");
    ASSERT_NE(clear, nullptr);
    EXPECT_EQ(clear->severity, Severity::caution);
    EXPECT_EQ(last("RM-1"), "R-410A");
    expectRecorded(m_shop->reverse(second.entries.front(), "wrong machine"));
    EXPECT_EQ(last("RM-1"), "R-22");
    CheckIn late = recovery("A2", "32", "ST-ALDER/RTU-3", "RM-1");
    late.occurred = at("2026-09-01 10:00");
    late.comesBack = false;
    EXPECT_EQ(named(review(*m_shop, late).findings, "machine.clear"), nullptr)
        << "before the first recovery nothing had gone through";
}

// Once somebody says that it was cleared nobody is asked to clear it, until something goes through again.
TEST_F(MachinesTest, AClearedMachineTookNothing) {
    expectRecorded(checkIn(*m_shop, recovery("A1", "32", "HARBOR/DOCK-1", "RM-1")));
    const CheckIn next = recovery("A2", "32", "ST-ALDER/RTU-3", "RM-1");
    ASSERT_NE(named(review(*m_shop, next).findings, "machine.clear"), nullptr);
    setTime("2026-09-14 15:00");
    Machine cleared = machineNamed(*m_shop, "RM-1").value();
    cleared.cleared = true;
    const Recorded recorded = m_shop->record({draftOf(*m_shop, cleared)});
    expectRecorded(recorded);
    EXPECT_EQ(last("RM-1"), "");
    EXPECT_EQ(named(review(*m_shop, next).findings, "machine.clear"), nullptr);
    EXPECT_EQ(lastThrough(*m_shop, "RM-1", at("2026-09-14 14:00")).value(), "R-22")
        << "before it was cleared";
    // A later change of the same machine does not clear it again, nor does it bring back what it took.
    setTime("2026-09-14 16:00");
    expectRecorded(checkIn(*m_shop, next));
    expectRecorded(m_shop->record({draftOf(*m_shop, machineNamed(*m_shop, "RM-1").value())}));
    EXPECT_EQ(last("RM-1"), "R-410A");
    expectRecorded(m_shop->reverse(recorded.entries.front(), "another machine"));
    EXPECT_EQ(last("RM-1"), "R-410A");
}

TEST_F(MachinesTest, FlammableGasThroughAnUnratedMachineIsAFindingAndIsRecorded) {
    const CheckIn facts = recovery("F1", "30", "LOFT/HP-1", "RM-1");
    const Finding* before = nullptr;
    const Review looked = review(*m_shop, facts);
    before = named(looked.findings, "machine.flammable");
    ASSERT_NE(before, nullptr);
    EXPECT_EQ(before->severity, Severity::refusal);
    EXPECT_EQ(before->citation, "40 CFR 82.158");
    const Recorded done = checkIn(*m_shop, facts);
    expectRecorded(done);
    ASSERT_NE(named(done.findings, "machine.flammable"), nullptr);
    EXPECT_EQ(m_shop->store().entry(done.entries.front()).value().body["machine"], "RM-1");
    EXPECT_EQ(last("RM-1"), "R-32");
    EXPECT_EQ(named(review(*m_shop, recovery("F1", "33", "LOFT/HP-1", "RM-2")).findings, "machine.flammable"),
              nullptr);
}

TEST_F(MachinesTest, AMachineIsCertifiedForTheKindOfAppliance) {
    Machine low = machine("RM-L", false);
    low.certifiedFor = {"low"};
    expectRecorded(m_shop->record({draftOf(*m_shop, low)}));
    const Review wrong = review(*m_shop, recovery("A1", "32", "HARBOR/DOCK-1", "RM-L"));
    const Finding* finding = named(wrong.findings, "machine.certified");
    ASSERT_NE(finding, nullptr);
    EXPECT_EQ(finding->severity, Severity::refusal);
    EXPECT_EQ(finding->citation, "40 CFR 82.158");
    EXPECT_EQ(
        named(review(*m_shop, recovery("A1", "32", "HARBOR/DOCK-1", "RM-1")).findings, "machine.certified"),
        nullptr);
}

TEST_F(MachinesTest, APlanIsToldBeforeAndOnlyWhatIsUnlawfulOrUnsafeRefusesIt) {
    expectRecorded(checkIn(*m_shop, recovery("A1", "32", "HARBOR/DOCK-1", "RM-1")));
    CheckOut plan;
    plan.person = "MORGAN VALE";
    plan.serials = {"A2"};
    plan.system = "ST-ALDER/RTU-3";
    plan.machine = "RM-1";
    const Review warned = review(*m_shop, plan);
    EXPECT_FALSE(warned.refused()) << warned.reason();
    EXPECT_NE(named(warned.findings, "machine.clear"), nullptr);
    plan.serials = {"F1"};
    plan.system = "LOFT/HP-1";
    EXPECT_TRUE(review(*m_shop, plan).refused());
    plan.machine = "RM-2";
    EXPECT_FALSE(review(*m_shop, plan).refused()) << review(*m_shop, plan).reason();
    plan.machine = "RM-9";
    const Recorded refused = checkOut(*m_shop, plan);
    EXPECT_EQ(refused.outcome, Outcome::notRecorded);
    EXPECT_NE(refused.error.text().find("RM-9 is not in the register"), std::string::npos);
    plan.machine = "RM-2";
    plan.purpose = Purpose::carry;
    EXPECT_NE(named(review(*m_shop, plan).findings, "plan.machine"), nullptr);
    plan.purpose = Purpose::recover;
    Machine retired = machine("RM-2", true);
    retired.active = false;
    expectRecorded(m_shop->record({draftOf(*m_shop, retired)}));
    EXPECT_NE(named(review(*m_shop, plan).findings, "plan.machine"), nullptr);
    plan.machine.clear();
    const Review without = review(*m_shop, plan);
    EXPECT_TRUE(std::none_of(without.findings.begin(), without.findings.end(), [](const Finding& finding) {
        return finding.subject.starts_with("machine:");
    })) << "who names no machine is asked nothing";
}

TEST_F(MachinesTest, WhatIsWrongIsRefusedByName) {
    CheckIn facts = recovery("A1", "32", "HARBOR/DOCK-1", "RM-9");
    EXPECT_NE(checkIn(*m_shop, facts).error.text().find("there is no recovery machine 'RM-9'"),
              std::string::npos);
    facts = recovery("A1", "32", "HARBOR/DOCK-1", "RM-1");
    facts.from = "opening";
    facts.refrigerant = "R-22";
    EXPECT_NE(checkIn(*m_shop, facts).error.text().find("a recovery machine belongs to"), std::string::npos);
    facts.machine.clear();
    facts.reached = EvacuationReading::parse("0 psig").value();
    EXPECT_NE(checkIn(*m_shop, facts).error.text().find("a level that was reached belongs to"),
              std::string::npos);
}

TEST_F(MachinesTest, TheLevelReachedIsHeldAgainstTheTable) {
    struct Case {
        const char* system;
        const char* machineMade; // blank: no machine named
        const char* reached;
        const char* asked;
        Severity severity;
    };
    const auto met = Severity::note;
    const auto short_ = Severity::refusal;
    const std::vector<Case> cases{{"HARBOR/DOCK-1", "2019-05-20", "0 inHg", "0 inHg", met},
                                  {"HARBOR/DOCK-1", "2019-05-20", "5 psig", "0 inHg", short_},
                                  {"HARBOR/HALL", "2019-05-20", "9 inHg", "10 inHg", short_},
                                  {"HARBOR/HALL", "2019-05-20", "10 inHg", "10 inHg", met},
                                  {"HARBOR/HALL", "1990-01-01", "4 inHg", "4 inHg", met},
                                  {"HARBOR/HALL", "1990-01-01", "3 inHg", "4 inHg", short_},
                                  {"HARBOR/HALL", "", "9 inHg", "10 inHg", short_}};
    int number = 0;
    for (const Case& its : cases) {
        std::string name;
        if (*its.machineMade != '\0') {
            name = "T-" + std::to_string(++number);
            expectRecorded(m_shop->record({draftOf(*m_shop, machine(name, false, its.machineMade))}));
        }
        CheckIn facts = recovery("A1", "32", its.system, name.c_str());
        facts.reached = EvacuationReading::parse(its.reached).value();
        const Review looked = review(*m_shop, facts);
        const Finding* level = named(looked.findings, "release.evacuation");
        ASSERT_NE(level, nullptr) << its.system;
        EXPECT_EQ(level->severity, its.severity) << level->headline;
        EXPECT_NE(level->headline.find(std::string(its.asked) + " of vacuum asked for"), std::string::npos)
            << level->headline;
        EXPECT_EQ(level->citation, "40 CFR 82.156(a) Table 1");
        EXPECT_EQ(level->subject, std::string("system:") + its.system);
    }
}

TEST_F(MachinesTest, TooLittleIsRecordedAllTheSameAndStaysReadable) {
    CheckIn facts = recovery("A1", "32", "HARBOR/HALL", "RM-1");
    facts.reached = EvacuationReading::parse("2 inHg").value();
    const Recorded done = checkIn(*m_shop, facts);
    expectRecorded(done);
    ASSERT_NE(named(done.findings, "release.evacuation"), nullptr);
    const Entry entry = m_shop->store().entry(done.entries.front()).value();
    EXPECT_EQ(entry.body["reached"], "2 inHg");
    EXPECT_EQ(entry.body["work"], "any");
    EXPECT_NE(sentenceOf(*m_shop, entry).find("with machine RM-1, level reached 2 inHg"), std::string::npos)
        << sentenceOf(*m_shop, entry);
    EXPECT_EQ(net("A1"), "5.0 lb");
}

// 40 CFR 82.156: small appliances 90 % with a working compressor, 80 % without, or 4 inHg (EPA fact sheet).
TEST_F(MachinesTest, SmallAppliancesByShareAndWhatCannotBeTold) {
    CheckIn facts = recovery("F1", "30", "LOFT/HP-1", "RM-2");
    facts.smallAppliance = true;
    facts.work = "compressor-works";
    facts.reached = EvacuationReading::parse("85 %").value();
    EXPECT_EQ(named(review(*m_shop, facts).findings, "release.evacuation")->severity, Severity::refusal);
    facts.work = "compressor-dead";
    EXPECT_EQ(named(review(*m_shop, facts).findings, "release.evacuation")->severity, Severity::note);
    facts.smallAppliance = false;
    facts.work = "any";
    const Review mixedUp = review(*m_shop, facts);
    const Finding* untold = named(mixedUp.findings, "release.evacuation");
    ASSERT_NE(untold, nullptr);
    EXPECT_EQ(untold->severity, Severity::caution);
    EXPECT_NE(untold->headline.find("cannot be told: 85 % cannot be held against"), std::string::npos);
    CheckIn old = recovery("A1", "32", "LOFT/OLD");
    old.reached = EvacuationReading::parse("0 psig").value();
    const Review unknown = review(*m_shop, old);
    ASSERT_NE(named(unknown.findings, "release.evacuation"), nullptr);
    EXPECT_NE(named(unknown.findings, "release.evacuation")->headline.find("full charge of LOFT/OLD"),
              std::string::npos);
}

TEST_F(MachinesTest, WhoGoesOutIsToldTheLevelToReach) {
    CheckOut plan;
    plan.system = "HARBOR/HALL";
    auto level = levelToReach(*m_shop, plan);
    ASSERT_TRUE(level);
    EXPECT_NE(level->headline.find("10 inHg of vacuum"), std::string::npos) << level->headline;
    expectRecorded(m_shop->record({draftOf(*m_shop, machine("OLD", false, "1990-01-01"))}));
    plan.machine = "OLD";
    level = levelToReach(*m_shop, plan);
    ASSERT_TRUE(level);
    EXPECT_NE(level->headline.find("4 inHg of vacuum"), std::string::npos) << level->headline;
    plan.purpose = Purpose::charge;
    EXPECT_FALSE(levelToReach(*m_shop, plan));
    Settings settings = m_shop->settings();
    settings.rulebook = "eu";
    expectRecorded(m_shop->change(settings));
    plan.purpose = Purpose::recover;
    EXPECT_FALSE(levelToReach(*m_shop, plan)) << "the eu rulebook has no such levels";
}
