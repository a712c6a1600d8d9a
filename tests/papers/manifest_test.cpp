// The paper that goes with a batch: what it says, for people and for machines.
#include "core/papers/manifest.h"

#include "core/base/text_width.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ManifestTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        std::vector<Draft> drafts = {
            draftOf(*m_shop, Party{"reclaimer", "Cape Reclaim", "Foundry Way 2, Port Ansel", "R-0417"})};
        // Names of customers have letters of more than one byte.
        for (const Draft& draft :
             draftsOf(*m_shop, System{"KJØL", "R-1", "Kjøl og Frost Ærø", "R-22", lb("60"), ""})) {
            drafts.push_back(draft);
        }
        expectRecorded(m_shop->record(drafts));
        std::vector<NewCylinder> two = {weekCylinder("A103", "DOT-4BA400", "26.2", "17.0", "2024-10"),
                                        weekCylinder("Å1", "DOT-4BA400", "26.2", "17.0", "2024-10")};
        for (NewCylinder& cylinder : two) {
            cylinder.evacuated = false;
            cylinder.content = lb("14.6");
            cylinder.refrigerant = "R-22";
        }
        two[0].contentOwner = "Kjøl og Frost Ærø";
        two[1].contentOwner = "Ansel Harbor Cold Storage";
        expectRecorded(registerCylinders(*m_shop, two));
        expectRecorded(prepareBatch(*m_shop, "B-1", "Cape Reclaim", {"A103", "Å1"}));
    }
    [[nodiscard]] Manifest manifest() { return manifestOf(*m_shop, "B-1").value(); }
};

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        lines.push_back(line);
    }
    return lines;
}

} // namespace

TEST_F(ManifestTest, JsonHasAllThatThePaperHas) {
    const auto json = jsonOf(manifest());
    EXPECT_EQ(json["batch"], "B-1");
    EXPECT_EQ(json["shop"], "Larkspur Mechanical");
    EXPECT_EQ(json["shop_address"], "Port Ansel");
    EXPECT_EQ(json["reclaimer"], "Cape Reclaim");
    EXPECT_EQ(json["reclaimer_address"], "Foundry Way 2, Port Ansel");
    EXPECT_EQ(json["reclaimer_number"], "R-0417");
    const std::string text = manifestText(manifest());
    for (const char* key : {"title", "batch", "issued", "shop", "shop_address", "reclaimer",
                            "reclaimer_address", "reclaimer_number", "head"}) {
        EXPECT_NE(text.find(json[key].get<std::string>()), std::string::npos) << key;
    }
}

TEST_F(ManifestTest, ColumnsLineUpByCharacters) {
    const auto lines = linesOf(manifestText(manifest()));
    std::vector<std::size_t> places; // of the last column, in characters
    for (const std::string& line : lines) {
        for (const char* cell : {"Gas of", "Kjøl og Frost Ærø", "Ansel Harbor Cold Storage"}) {
            const std::size_t byte = line.find(cell);
            if (byte != std::string::npos) {
                places.push_back(characterCount(std::string_view(line).substr(0, byte)));
            }
        }
    }
    ASSERT_EQ(places.size(), 3U);
    EXPECT_EQ(places[0], places[1]);
    EXPECT_EQ(places[0], places[2]);
}
