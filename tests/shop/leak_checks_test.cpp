// Leak checks by the size of a charge, of the systems in the register: EU-03, UK-01 (5 t of CO2 equivalent
// every 12 months); IPCC AR4 potentials as in WE-13 of the reference. A charge that the rulebook has no
// potential for is pointed out, it does not drop out of sight.
#include "core/shop/equipment.h"
#include "core/shop/questions.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class LeakChecksTest : public ShopTest {
protected:
    void open(const std::string& rulebook) {
        Settings settings;
        settings.name = "Larkspur Mechanical";
        settings.zone = "Europe/Berlin";
        settings.rulebook = rulebook;
        auto opened = Shop::create((m_folder / (rulebook + ".tarebook")).string(), settings, environment());
        ASSERT_TRUE(opened.shop) << opened.error.text();
        m_shop = std::move(opened.shop);
    }
    /// What is said of a system of such a charge, by rule.
    std::map<std::string, Finding> findingsOf(const std::string& refrigerant, const std::string& charge) {
        System system;
        system.site = "HALL";
        system.tag = refrigerant;
        system.customer = "St. Alder Schools";
        system.refrigerant = refrigerant;
        system.nominalCharge = Mass::parse(charge).value();
        expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
        std::map<std::string, Finding> found;
        const auto all = leaks(*m_shop, m_shop->today(), system.key());
        EXPECT_TRUE(all) << all.error().text();
        for (const Finding& finding : all.value().front().findings) {
            EXPECT_EQ(finding.subject, "system:" + system.key());
            found[finding.rule] = finding;
        }
        return found;
    }
    void enter(const std::string& tag, const std::string& refrigerant, const std::string& charge) {
        System system;
        system.site = "HALL";
        system.tag = tag;
        system.customer = "St. Alder Schools";
        system.refrigerant = refrigerant;
        system.equipment = "comfort cooling";
        if (!charge.empty()) {
            system.nominalCharge = Mass::parse(charge).value();
        }
        expectRecorded(m_shop->record(draftsOf(*m_shop, system)));
    }
    /// What the question of the units says is asked of each, by its tag.
    std::map<std::string, std::string> unitsAsked() {
        const Question* question = questionNamed("units");
        const Date on = m_shop->today();
        const auto answer = answered(*m_shop, *question, {on, on, ""});
        EXPECT_TRUE(answer) << answer.error().text();
        std::map<std::string, std::string> asked;
        const auto& columns = answer.value().table.columns;
        const auto place = std::find(columns.begin(), columns.end(), "asked") - columns.begin();
        for (const auto& row : answer.value().table.rows) {
            asked[row.front().substr(row.front().find('/') + 1)] = row.at(static_cast<std::size_t>(place));
        }
        return asked;
    }
};

} // namespace

// R-438A holds R-601a: 2264.5 by mass; 10 kg are 22.6 t. R-413A holds R-218: 2053.2; 10 kg are 20.5 t.
TEST_F(LeakChecksTest, BlendsWithSmallPartsAreChecked) {
    for (const char* rulebook : {"eu", "uk"}) {
        open(rulebook);
        for (const char* blend : {"R-438A", "R-413A", "R-424A"}) {
            const auto found = findingsOf(blend, "10 kg");
            ASSERT_TRUE(found.contains("leak.check")) << rulebook << " " << blend;
            EXPECT_NE(found.at("leak.check").headline.find("every 12 months"), std::string::npos)
                << found.at("leak.check").headline;
        }
    }
}

// R-13I1 has no potential in the law, R-22 is under another one; propane is asked nothing.
TEST_F(LeakChecksTest, AChargeWithoutAnAnswerIsPointedOut) {
    open("eu");
    for (const char* refrigerant : {"R-466A", "R-408A", "R-22"}) {
        const auto found = findingsOf(refrigerant, "10 kg");
        EXPECT_FALSE(found.contains("leak.check")) << refrigerant;
        ASSERT_TRUE(found.contains("leak.no-answer")) << refrigerant;
        EXPECT_EQ(found.at("leak.no-answer").severity, Severity::caution);
        EXPECT_FALSE(found.at("leak.no-answer").remedy.empty());
    }
    EXPECT_NE(findingsOf("R-466A", "12 kg").at("leak.no-answer").headline.find("R-13I1"), std::string::npos);
    EXPECT_TRUE(findingsOf("R-290", "10 kg").empty());
    EXPECT_FALSE(findingsOf("R-410A", "10 kg").contains("leak.no-answer"));
}

// Nothing was ever added to these. R-410A at 2087.5 (WE-13): 5 t are 2.395 kg, 50 t 23.952 kg, 500 t 239.52
// kg, every 12, 6 and 3 months (EU-03, UK-01); R-1234yf alone goes by kilograms in the EU (EU-04).
TEST_F(LeakChecksTest, UnitsThatWereNeverToppedUpAreAskedToo) {
    for (const char* rulebook : {"eu", "uk"}) {
        open(rulebook);
        enter("SMALL", "R-410A", "2.39 kg");
        enter("YEARLY", "R-410A", "2.40 kg");
        enter("HALF", "R-410A", "24 kg");
        enter("QUARTER", "R-410A", "240 kg");
        enter("BLANK", "R-410A", "");
        enter("PROPANE", "R-290", "10 kg");
        enter("OLEFIN", "R-1234yf", "12 kg");
        auto asked = unitsAsked();
        ASSERT_EQ(asked.size(), 7U);
        const auto expectSaid = [&](const char* tag, const char* words) {
            EXPECT_NE(asked[tag].find(words), std::string::npos)
                << rulebook << ", " << tag << ": " << asked[tag];
        };
        expectSaid("SMALL", "no leak check asked for");
        expectSaid("YEARLY", "at least every 12 months");
        expectSaid("HALF", "at least every 6 months");
        expectSaid("QUARTER", "at least every 3 months");
        expectSaid("BLANK", "not told: its full charge is not on file");
        expectSaid("PROPANE", "nothing by this rulebook");
        if (std::string(rulebook) == "eu") {
            expectSaid("OLEFIN", "12.000 kg: a leak check at least every 6 months");
        }
    }
    open("us"); // comfort cooling from 15 lb of an HFC: 10 % (40 CFR 84.106)
    enter("ROOF", "R-410A", "20 lb");
    enter("WINDOW", "R-410A", "10 lb");
    EXPECT_EQ(unitsAsked()["ROOF"], "leak limit 10 %");
    EXPECT_EQ(unitsAsked()["WINDOW"], "nothing by this rulebook");
}
