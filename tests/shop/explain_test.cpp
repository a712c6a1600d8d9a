// What the rules say of a cylinder, whether it needs doing or not. Figures: the week at the counter
// (tests/shop/a_week_test.cpp) and 49 CFR 173.304a(a)(2), 173.301(a)(8), 180.205 and 180.209.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "core/shop/explain.h"
#include "core/shop/retest_of.h"
#include "core/shop/rule_uses.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class ExplainTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        for (const System& system : weekSystems()) {
            for (const Draft& draft : draftsOf(*m_shop, system)) {
                expectRecorded(m_shop->record({draft}));
            }
        }
        expectRecorded(registerCylinders(*m_shop, weekCylinders()));
    }
    std::vector<Finding> explained(const char* serial, const char* planned = "") {
        return explanation(*m_shop, m_shop->store().cylinder(serial).value().value(), m_shop->today(),
                           planned);
    }
    static const Finding& of(const std::vector<Finding>& findings, const std::string& rule) {
        const auto found = std::find_if(findings.begin(), findings.end(),
                                        [&](const Finding& finding) { return finding.rule == rule; });
        if (found == findings.end()) {
            throw std::runtime_error("no finding " + rule);
        }
        return *found;
    }
};

} // namespace

TEST_F(ExplainTest, SaysEveryLimitAndHowFarItIsFromTheOneThatGoverns) {
    const auto findings = explained("A103"); // 14.6 lb of R-22 in 26.2 lb of water
    // 1.05 x 26.2 lb = 27.51 lb; the practice, 80 % at 25 °C, is lower and governs.
    const Finding& law = of(findings, "fill.named-row");
    EXPECT_EQ(law.severity, Severity::note);
    EXPECT_NE(law.headline.find("Filling density of the gas: at most 27.5 lb"), std::string::npos)
        << law.headline;
    EXPECT_NE(law.headline.find("above the one that governs"), std::string::npos) << law.headline;
    EXPECT_NE(law.citation.find("173.304a(a)(2)"), std::string::npos) << law.citation;
    EXPECT_FALSE(law.overrulable);
    const Finding& practice = of(findings, "fill.practice-80");
    EXPECT_NE(practice.headline.find("this one governs"), std::string::npos) << practice.headline;
    EXPECT_TRUE(practice.overrulable);
    EXPECT_EQ(practice.firmness, Firmness::practice);
    const Limits limits = card(*m_shop, "A103").value().limits;
    EXPECT_NE(practice.headline.find(m_shop->display().limit(limits.grossToStop)), std::string::npos);
    (void)of(findings, "fill.not-full-55C");
    // Made 2024-10, five years: 180.209(a).
    EXPECT_NE(of(findings, "retest.base-5").headline.find("2029-10"), std::string::npos)
        << of(findings, "retest.base-5").headline;
    EXPECT_NE(of(findings, "ship.description").headline.find("UN1018"), std::string::npos);
    for (const Finding& finding : findings) {
        EXPECT_EQ(finding.subject, "cylinder:A103");
        EXPECT_FALSE(finding.edition.empty()) << finding.rule;
        EXPECT_FALSE(finding.headline.empty()) << finding.rule;
    }
}

TEST_F(ExplainTest, NoRuleIsSaidTwiceAndTheWorstComesFirst) {
    for (const char* serial : {"A101", "A102", "A103", "A104", "A105", "A107", "D001"}) {
        const auto findings = explained(serial, "R-410A");
        std::set<std::pair<std::string, std::string>> seen;
        for (const Finding& finding : findings) {
            EXPECT_TRUE(seen.insert({finding.rule, finding.headline}).second) << serial << finding.rule;
        }
        EXPECT_TRUE(
            std::is_sorted(findings.begin(), findings.end(), [](const Finding& one, const Finding& other) {
                return one.severity > other.severity;
            }));
    }
    // 350 x 1.25 = 437.5 psig, and R-410A reaches more at 55 °C.
    EXPECT_EQ(of(explained("A104", "R-410A"), "pressure.five-quarters").severity, Severity::danger);
}

TEST_F(ExplainTest, AnEmptyOneWithoutAPurposeHasNoLimitAndSaysWhy) {
    const auto findings = explained("A101");
    EXPECT_NE(of(findings, "fill.no-answer").headline.find("depends on what goes in"), std::string::npos);
}

TEST_F(ExplainTest, QuickFiguresAreThoseOfTheCard) {
    for (const char* serial : {"A103", "A105"}) {
        const Card its = card(*m_shop, serial).value();
        TalkedOf cylinder;
        cylinder.plate = its.state.plate;
        cylinder.plate.serial.clear();
        cylinder.contents = its.limits.contents;
        cylinder.inside = its.state.content.total();
        cylinder.recoveryUse = true;
        const auto quick = quickFigures(*m_shop, cylinder, m_shop->today());
        ASSERT_TRUE(quick) << quick.error().text();
        EXPECT_EQ(quick.value().limits.net, its.limits.net);
        EXPECT_EQ(quick.value().limits.room, its.limits.room);
        EXPECT_EQ(quick.value().limits.grossToStop, its.limits.grossToStop);
        EXPECT_EQ(quick.value().due, its.due);
        EXPECT_EQ(quick.value().fillAllowed, its.fillAllowed);
    }
    TalkedOf wrong;
    wrong.contents = "R-4I0A";
    EXPECT_FALSE(quickFigures(*m_shop, wrong, m_shop->today()));
}

TEST_F(ExplainTest, AQuickMixtureIsJudgedAsTheMixture) {
    TalkedOf cylinder;
    cylinder.plate = weekCylinders()[3].plate; // A104, DOT-4BA350
    cylinder.contents = "R-22:0.7+R-410A:0.3";
    cylinder.inside = pounds("10");
    const auto quick = quickFigures(*m_shop, cylinder, m_shop->today());
    ASSERT_TRUE(quick) << quick.error().text();
    ASSERT_TRUE(quick.value().limits.known) << quick.value().limits.problem;
    EXPECT_EQ(quick.value().limits.room.milligrams(),
              quick.value().limits.net.milligrams() - pounds("10").milligrams());
    // A mixture has no row of its own in 173.304a(a)(2).
    EXPECT_THROW((void)of(quick.value().findings, "fill.named-row"), std::runtime_error);
}

TEST_F(ExplainTest, RowsSayWhereTheyApply) {
    const auto uses = RuleUses::gather(*m_shop, m_shop->today());
    ASSERT_TRUE(uses) << uses.error().text();
    const auto rowOf = [&](const char* table, const char* column, const std::string& cell) {
        const auto& rows = m_shop->rulebook().table(table)->rows;
        const auto found = std::find_if(rows.begin(), rows.end(),
                                        [&](const RuleRow& row) { return row.cell(column) == cell; });
        EXPECT_NE(found, rows.end()) << cell;
        return static_cast<std::size_t>(found - rows.begin());
    };
    using Subjects = std::vector<std::string>;
    EXPECT_EQ(uses.value().of("requalification", rowOf("requalification", "rule", "retest.one-life")),
              Subjects{"cylinder:D001"});
    EXPECT_EQ(uses.value().of("requalification", rowOf("requalification", "rule", "retest.base-5")),
              (Subjects{"cylinder:A101", "cylinder:A102", "cylinder:A103", "cylinder:A104", "cylinder:A105",
                        "cylinder:A107"}));
    EXPECT_EQ(uses.value().of("filling-density", rowOf("filling-density", "r_number", "R-22")),
              Subjects{"cylinder:A103"});
    EXPECT_EQ(uses.value().of("un-numbers", rowOf("un-numbers", "refrigerant", "R-22")),
              Subjects{"cylinder:A103"});
    EXPECT_EQ(uses.value().of("condition", rowOf("condition", "happening", "condemned")), Subjects{});
    expectRecorded(condemn(*m_shop, "A101", "bulged"));
    const auto later = RuleUses::gather(*m_shop, m_shop->today());
    EXPECT_EQ(later.value().of("condition", rowOf("condition", "happening", "condemned")),
              Subjects{"cylinder:A101"});
    EXPECT_TRUE(RuleUses::covers("condition"));
    EXPECT_FALSE(RuleUses::covers("technical-names"));
}

// Whatever is said of a limit that cannot be given has a citation: the row of the gas that does not authorise
// the packaging (49 CFR 173.304a(a)(2): ammonia is in no 4BA), or the first condition that a limit would have
// to meet.
TEST_F(ExplainTest, NoLimitIsWithoutACitation) {
    const auto findings = explained("A103", "R-717");
    const Finding& refused = of(findings, "fill.no-answer");
    EXPECT_EQ(refused.severity, Severity::refusal);
    EXPECT_NE(refused.citation.find("173.304a(a)(2)"), std::string::npos) << refused.citation;
    EXPECT_EQ(refused.firmness, Firmness::verified);
    EXPECT_TRUE(refused.row.starts_with("filling-density:")) << refused.row;
    const auto fleet = m_shop->store().fleet({});
    ASSERT_TRUE(fleet);
    for (const FleetRow& row : fleet.value()) {
        for (const char* planned : {"", "R-717", "R-1234yf", "unknown"}) {
            for (const Finding& finding : explained(row.serial.c_str(), planned)) {
                EXPECT_FALSE(finding.rule == "fill.no-answer" && finding.citation.empty())
                    << row.serial << " " << planned << " " << finding.headline;
            }
        }
    }
}

// A later edition is a new folder: what is asked about a day before it is answered by the edition of that
// day, limits as well as dates. The second edition is the first with one figure changed, 105 % of R-22 to 90
// %.
TEST_F(ExplainTest, EveryDayIsAnsweredByItsOwnEdition) {
    namespace fs = std::filesystem;
    const fs::path resources = m_folder / "resources";
    fs::copy(TAREBOOK_RESOURCE_DIR, resources, fs::copy_options::recursive);
    const fs::path later = resources / "rulebooks/us/2027-01";
    fs::copy(resources / "rulebooks/us/2021-01", later, fs::copy_options::recursive);
    const auto change = [&](const char* file, const std::string& from, const std::string& to) {
        std::ifstream in(later / file);
        std::string text((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
        const auto place = text.find(from);
        ASSERT_NE(place, std::string::npos) << file;
        text.replace(place, from.size(), to);
        std::ofstream(later / file) << text;
    };
    change("edition.csv", "2021-01", "2027-01");
    change("edition.csv", "2021-01-01", "2027-01-01");
    change("filling-density.csv", "Chlorodifluoromethane,R-22,2.2,105", "Chlorodifluoromethane,R-22,2.2,90");
    const std::string path = m_shop->store().path();
    m_shop.reset();
    Environment other = environment();
    other.resourceFolder = resources.string();
    m_shop = Shop::open(path, other).shop;
    ASSERT_TRUE(m_shop);
    const auto limitOn = [&](const char* day) {
        const auto findings = explanation(*m_shop, m_shop->store().cylinder("A103").value().value(),
                                          Date::parse(day).value(), "");
        return of(findings, "fill.named-row").headline;
    };
    // 26.2 lb of water: 1.05 x is 27.5 lb, 0.90 x 23.5 lb.
    EXPECT_NE(limitOn("2026-12-31").find("27.5 lb"), std::string::npos) << limitOn("2026-12-31");
    EXPECT_NE(limitOn("2027-01-01").find("23.5 lb"), std::string::npos) << limitOn("2027-01-01");
    EXPECT_NE(limitOn("2026-12-31").find("27.5 lb"), std::string::npos);
}
