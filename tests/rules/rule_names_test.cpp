// An inspector looks up the name that a finding prints: it leads to the rows behind it, or to a sentence of
// what it rests on, with its place in the reading guides of docs.
#include "core/rules/rule_names.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>

#include <gtest/gtest.h>

#include "core/rules/duties.h"
#include "tests/rules/book_fixture.h"

using namespace tarebook;

namespace {

std::optional<RuleMeaning> meant(const std::string& book, const std::string& rule) {
    return must(ruleMeaning(TAREBOOK_RESOURCE_DIR, bookOn(book), rule));
}

/// Tables of the rows behind a name, each once.
std::set<std::string> tablesBehind(const std::string& book, const std::string& rule) {
    std::set<std::string> tables;
    const auto found = meant(book, rule);
    for (const RowPlace& place : found.value().rows) {
        tables.insert(place.table->name);
    }
    return tables;
}

} // namespace

TEST(RuleNames, ANameLeadsToTheRowsBehindIt) {
    using Tables = std::set<std::string>;
    EXPECT_EQ(tablesBehind("us", "retest.overdue"), Tables{"requalification"});
    EXPECT_EQ(tablesBehind("us", "retest.filled-late"), Tables{"requalification"});
    EXPECT_EQ(tablesBehind("us", "fill.named-row"), Tables{"filling-density"});
    EXPECT_EQ(tablesBehind("us", "pressure.named-row"), Tables{"filling-density"});
    EXPECT_EQ(tablesBehind("us", "load.relief"), Tables{"vehicle-limits"});
    EXPECT_EQ(tablesBehind("eu", "load.relief"), Tables{"vehicle-points"});
    EXPECT_EQ(tablesBehind("us", "leak.rate"), Tables{"leak-thresholds"});
    EXPECT_EQ(tablesBehind("us", "release.evacuation"), Tables{"evacuation"});
    EXPECT_EQ(tablesBehind("eu", "co2e"), Tables{"gwp"});
    EXPECT_EQ(tablesBehind("au", "identity.air"), Tables{"contents"});
    EXPECT_EQ(tablesBehind("ca", "plan.contents"), Tables{"contents"});
    // 49 CFR 173.304a(a)(2): the generic row has 240 psig; (d)(1): 32 bands of gravity.
    const auto generic = meant("us", "pressure.generic-row");
    ASSERT_EQ(generic->rows.size(), 1U);
    EXPECT_EQ(generic->rows[0].table->rows[generic->rows[0].row].cell("min_sp_psig_4BA"), "240");
    EXPECT_EQ(meant("us", "fill.lpg")->rows.size(), 32U);
    // 40 CFR 82.154(d)
    const auto reuse = meant("us", "duty.reuse");
    ASSERT_EQ(reuse->rows.size(), 1U);
    EXPECT_EQ(reuse->rows[0].table->rows[reuse->rows[0].row].section, "40 CFR 82.154(d)");
    // A rule of the rows themselves needs no other words.
    EXPECT_TRUE(meant("us", "retest.base-5")->says.empty());
    EXPECT_FALSE(meant("us", "retest.base-5")->rows.empty());
}

TEST(RuleNames, WhatIsNoLawSaysSo) {
    const auto margin = meant("us", "fill.shop");
    EXPECT_TRUE(margin->rows.empty());
    EXPECT_EQ(margin->restsOn, "the shop's own setting");
    EXPECT_EQ(margin->place, "docs/rules-contents.md: Settings of the shop");
    EXPECT_EQ(meant("us", "load.secured")->restsOn, "common practice, no law");
    EXPECT_EQ(meant("us", "weight.differs")->restsOn, "what the books hold");
    for (const char* nonsense :
         {"retest.no-such", "duty.no-such", "carriage.", "plan.nonsense", "", "duty"}) {
        EXPECT_FALSE(meant("us", nonsense)) << nonsense;
    }
    EXPECT_FALSE(ruleMeaning("/nowhere", bookOn("us"), "retest.overdue"));
}

// Every duty of every rulebook, on days on which other rows hold.
TEST(RuleNames, EveryDutyIsFound) {
    int checked = 0;
    for (const std::string& name : Rulebook::names()) {
        for (const char* table : {"duties", "carriage-duties"}) {
            const RuleTable* its = bookOn(name).table(table);
            for (std::size_t row = 0; its != nullptr && row < its->rows.size(); ++row) {
                const std::string family = std::string(table) == "duties" ? "duty." : "carriage.";
                const auto found = meant(name, family + its->rows[row].cell("subject"));
                ASSERT_TRUE(found) << name << its->rows[row].cell("subject");
                EXPECT_NE(std::find(found->rows.begin(), found->rows.end(), RowPlace{its, row}),
                          found->rows.end());
                ++checked;
            }
        }
    }
    EXPECT_GT(checked, 60);
}

// Each line names what it rests on, a table that some rulebook has, and a heading that stands in the guide.
TEST(RuleNames, EveryLineHoldsTogether) {
    const Table table = must(readTableFile(TAREBOOK_RESOURCE_DIR "/rulebooks/rule-names.csv"));
    const std::filesystem::path root = std::filesystem::path(TAREBOOK_RESOURCE_DIR).parent_path();
    std::string last;
    for (const auto& line : table.rows) {
        const std::string rule = cellOf(table, line, "rule");
        const std::string its = cellOf(table, line, "table");
        const std::string column = cellOf(table, line, "column");
        if (!its.empty()) {
            bool found = false;
            for (const std::string& name : Rulebook::names()) {
                const RuleTable* rows = bookOn(name).table(its);
                for (std::size_t row = 0; rows != nullptr && row < rows->rows.size(); ++row) {
                    const std::string value = cellOf(table, line, "value");
                    found = found || column.empty() || value == "*" || rows->rows[row].cell(column) == value;
                }
            }
            EXPECT_TRUE(found) << rule << ": " << its << " " << column;
        }
        if (rule == last) {
            continue;
        }
        last = rule;
        EXPECT_TRUE(cellOf(table, line, "says").ends_with(".")) << rule;
        EXPECT_EQ(cellOf(table, line, "rests_on") == "rows" && its.empty(), false) << rule;
        const std::string place = cellOf(table, line, "place");
        const std::size_t cut = place.find(": ");
        ASSERT_NE(cut, std::string::npos) << rule;
        std::ifstream guide(root / place.substr(0, cut));
        bool heading = false;
        for (std::string text; std::getline(guide, text);) {
            heading = heading || text == "## " + place.substr(cut + 2);
        }
        EXPECT_TRUE(heading) << rule << ": " << place;
    }
}
