// How firm rows are said to be is never more than their source gives. EU-03, EU-05 and EU-07 of the reference
// were read in texts of Regulation (EU) 517/2014, their places in 2024/573 are MEMORY; EPA-50 gives the days
// of automatic detection, EPA-63 the exchange values of the AIM Act as MEMORY; sections 84.108, 84.112
// and 84.116 were not read.
#include <gtest/gtest.h>

#include "tests/rules/book_fixture.h"

using namespace tarebook;

namespace {

/// The rows of a table whose cells are so, each with its firmness.
void expectAtLeastAsDoubtful(const char* book, const char* table,
                             const std::map<std::string, std::string>& cells, Firmness firmness,
                             std::size_t rows) {
    std::size_t found = 0;
    for (const RuleRow& row : bookOn(book).table(table)->rows) {
        bool its = true;
        for (const auto& [column, value] : cells) {
            its = its && (column == "section" ? row.section : row.cell(column)) == value;
        }
        if (its) {
            ++found;
            EXPECT_GE(row.firmness, firmness)
                << book << " " << table << " " << row.place << " " << row.source;
        }
    }
    EXPECT_EQ(found, rows) << book << " " << table;
}

} // namespace

TEST(Marks, EuropeanRowsReadInTheOlderRegulation) {
    expectAtLeastAsDoubtful("eu", "leak-checks", {{"what", "check"}, {"gases", "hfc"}}, Firmness::memory, 3);
    expectAtLeastAsDoubtful("eu", "leak-checks", {{"what", "exempt"}}, Firmness::memory, 2);
    expectAtLeastAsDoubtful("eu", "leak-checks", {{"what", "detection"}}, Firmness::memory, 1);
    expectAtLeastAsDoubtful("eu", "duties", {{"subject", "repair"}}, Firmness::memory, 1);
    for (const char* subject : {"venting", "records", "buyers", "disposable"}) {
        expectAtLeastAsDoubtful("eu", "duties", {{"subject", subject}}, Firmness::reading, 1);
    }
    for (const char* gas : {"R-23", "R-125", "R-134a", "R-143a", "R-227ea"}) {
        expectAtLeastAsDoubtful("eu", "gwp", {{"substance", gas}}, Firmness::reading, 1);
    }
    // In Great Britain the older regulation itself is the law: what was read there is read.
    for (const RuleRow& row : bookOn("uk").table("leak-checks")->rows) {
        EXPECT_EQ(row.firmness, Firmness::verified) << row.place;
    }
}

TEST(Marks, PartEightyFour) {
    expectAtLeastAsDoubtful("us", "leak-thresholds", {{"period", "detection"}}, Firmness::memory, 2);
    expectAtLeastAsDoubtful("us", "gwp", {{"section", "40 CFR part 84 appendix A"}}, Firmness::memory, 13);
    const Rulebook later = bookOn("us", "2029-06-01");
    std::size_t found = 0;
    for (const RuleRow& row : later.table("duties")->rows) {
        if (row.section == "40 CFR 84.112" || row.section == "40 CFR 84.116") {
            EXPECT_EQ(row.firmness, Firmness::reading) << row.place;
            EXPECT_NE(row.source.find("section from memory"), std::string::npos) << row.source;
            ++found;
        }
    }
    EXPECT_EQ(found, 3U);
}

// UN-FL-08: the formula with the molar mass was read in P200 of the UN Model Regulations (2011).
TEST(Marks, TheFormulaOfP200WasRead) {
    const FillLimit limit = must(limitOf("UN ISO 9809-1 PH250", "10 l", "R-508B", "eu"));
    EXPECT_EQ(candidateOf(limit, "fill.p200-formula")->firmness, Firmness::verified);
    const FillLimit australian = must(limitOf("UN ISO 9809-1 PH250", "10 l", "R-508B", "au"));
    EXPECT_EQ(candidateOf(australian, "fill.p200-formula")->firmness, Firmness::memory);
}
