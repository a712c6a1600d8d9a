// The data for a consignment note as the shared reference lists them (environment: UK-09 to UK-12, UK-20;
// list code 14 06 01* from memory), and the description for carriage of ADR 5.4.1.1.1 (from memory): number,
// name, label.
#include "core/papers/consignment.h"

#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ConsignmentTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        expectRecorded(m_shop->record(
            {draftOf(*m_shop, Party{"reclaimer", "Cape Reclaim", "Foundry Way 2, Port Ansel", "EPR-0417"})}));
        Settings settings = m_shop->settings();
        ASSERT_TRUE(settings.set("rulebook", "uk"));
        ASSERT_TRUE(settings.set("mass_unit", "kg"));
        expectRecorded(m_shop->change(settings));
    }
    void enter(const std::string& serial, const std::string& kilograms, const std::string& refrigerant) {
        NewCylinder cylinder = weekCylinder(serial, "EN 13322-1 PH42", "47.7", "27.0", "2024-10");
        cylinder.plate.flammableRated = true;
        cylinder.evacuated = false;
        cylinder.content = Mass::parse(kilograms + " kg").value();
        cylinder.refrigerant = refrigerant;
        expectRecorded(registerCylinder(*m_shop, cylinder));
    }
    void prepare(const std::vector<std::string>& serials) {
        expectRecorded(prepareBatch(*m_shop, "B-1", "Cape Reclaim", serials));
    }
    [[nodiscard]] static bool has(const std::string& text, const std::string& part) {
        return text.find(part) != std::string::npos;
    }
};

} // namespace

TEST_F(ConsignmentTest, HasWhatTheBooksKnowAndAsksForTheRest) {
    enter("S1", "10", "R-22");
    enter("S2", "5.25", "R-22");
    enter("S3", "8", "R-134a");
    prepare({"S1", "S2", "S3"});
    const auto made = consignmentSheetOf(*m_shop, "B-1");
    ASSERT_TRUE(made) << made.error().text();
    const ConsignmentSheet& sheet = made.value();
    ASSERT_EQ(sheet.lines.size(), 2U);
    EXPECT_TRUE(has(sheet.lines[0].description, "1018")) << sheet.lines[0].description;
    EXPECT_EQ(sheet.lines[0].components, "R-22 100.0 %");
    EXPECT_EQ(sheet.lines[0].code, "14 06 01*");
    EXPECT_EQ(sheet.lines[0].packages, "2 cylinders");
    EXPECT_EQ(sheet.lines[0].net, "15.25 kg");
    EXPECT_EQ(sheet.lines[0].serials, "S1, S2");
    // 15.25 kg and two tares of 27.0 lb: 2 x 12.246994 = 24.493988.
    EXPECT_EQ(sheet.lines[0].gross, "39.74 kg");
    EXPECT_TRUE(has(sheet.lines[1].description, "3159")) << sheet.lines[1].description;
    EXPECT_EQ(sheet.totals.back(), "net 23.25 kg");
    const std::string text = consignmentText(sheet);
    for (const char* words : {"14 06 01*", "Cape Reclaim, Foundry Way 2, Port Ansel, EPR-0417",
                              "Carrier and registration ____", "Vehicle ____", "Hazard properties ____",
                              "Note code ____", "three years", "no form of an authority", "Books at "}) {
        EXPECT_TRUE(has(text, words)) << words << "\n" << text;
    }
    EXPECT_EQ(jsonOf(sheet)["lines"].size(), 2U);
}

TEST_F(ConsignmentTest, AMixtureIsNamedByItsParts) {
    enter("S1", "10", "R-22");
    expectRecorded(checkIn(*m_shop, [] {
        CheckIn facts;
        facts.serial = "S1";
        facts.moved = Mass::parse("2 kg").value();
        facts.from = "supplier:Nordgas";
        facts.refrigerant = "R-410A";
        return facts;
    }()));
    prepare({"S1"});
    const auto made = consignmentSheetOf(*m_shop, "B-1");
    ASSERT_TRUE(made) << made.error().text();
    // 10 and 2 of 12; R-410A is in equal parts by mass (ANSI/ASHRAE 34).
    EXPECT_EQ(made.value().lines.front().components, "R-125 8.3 %, R-22 83.3 %, R-32 8.3 %");
    EXPECT_TRUE(made.value().late.empty());
    expectRecorded(shipBatch(*m_shop, "B-1", "own van"));
    const auto after = consignmentSheetOf(*m_shop, "B-1");
    ASSERT_TRUE(after) << after.error().text();
    EXPECT_EQ(after.value().lines, made.value().lines) << "as it was when the batch left";
    EXPECT_FALSE(after.value().late.empty());
}

// 14 06 01* is for chlorofluorocarbons, HCFC and HFC; what else there is, who classifies it says (UK-10).
TEST_F(ConsignmentTest, TheCodeStandsOnlyWhereTheListHasOneForTheContents) {
    enter("S1", "5", "R-290");
    enter("S2", "5", "R-1234yf");
    enter("S3", "5", "R-454B");
    enter("S4", "5", "R-410A");
    prepare({"S1", "S2", "S3", "S4"});
    const auto made = consignmentSheetOf(*m_shop, "B-1");
    ASSERT_TRUE(made) << made.error().text();
    for (const ConsignmentLine& line : made.value().lines) {
        EXPECT_EQ(line.code, line.serials == "S4" ? "14 06 01*" : "")
            << line.serials << " " << line.components;
    }
    EXPECT_TRUE(has(consignmentText(made.value()), "________   1 cylinder")) << consignmentText(made.value());
}

TEST_F(ConsignmentTest, CountsItsIssuesAndBelongsToTheLawOfWaste) {
    enter("S1", "10", "R-22");
    prepare({"S1"});
    const auto first = consignmentSheetOf(*m_shop, "B-1");
    ASSERT_TRUE(first) << first.error().text();
    EXPECT_EQ(first.value().heading.issue, 1);
    expectRecorded(issueConsignmentSheet(*m_shop, first.value()));
    EXPECT_EQ(consignmentSheetOf(*m_shop, "B-1").value().heading.issue, 2);
    EXPECT_TRUE(has(consignmentSheetOf(*m_shop, "B-9").error().text(), "B-9"));
    Settings settings = m_shop->settings();
    ASSERT_TRUE(settings.set("rulebook", "us"));
    expectRecorded(m_shop->change(settings));
    EXPECT_TRUE(has(consignmentSheetOf(*m_shop, "B-1").error().text(), "rulebook us"));
}
