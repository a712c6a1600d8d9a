// Residue and lines of shipping papers: 49 CFR 173.29 (US-EM-01 to -07, read), 172.202, 172.203 (US-SP-01 to
// -06, read); cases E1 to E5 and E10 of the reference. ADR 5.4.1.1.6 and TDG part 3 are MEMORY.
#include <gtest/gtest.h>

#include "core/rules/residue.h"
#include "core/rules/shipping_line.h"
#include "tests/rules/book_fixture.h"

using namespace tarebook;

namespace {

ResidueVerdict verdict(const char* contents, ResidueAsk ask, const char* book = "us") {
    ask.contents = contentsOf(contents);
    const auto description = must(shippingDescription(bookOn(book), testCatalogue(), ask.contents));
    return must(residue(bookOn(book), testCatalogue(), description, ask));
}

ResidueAsk measured(double kilopascal) {
    ResidueAsk ask;
    ask.measured = GaugePressure::fromKilopascal(kilopascal);
    return ask;
}

ResidueAsk left(const char* mass, double litres) {
    ResidueAsk ask;
    ask.left = weight(mass);
    ask.volume = Volume::fromLitres(litres);
    return ask;
}

bool inOrder(const std::string& line, const char* book = "us") {
    return !shippingLineProblem(bookOn(book), line);
}

} // namespace

// US-EM-02: below 200 kPa gauge (29.0 psig) at 20 degC, division 2.2 only.
TEST(Residue, ThePressureDecides) {
    EXPECT_TRUE(verdict("R-134a", measured(199.9)).free);
    EXPECT_FALSE(verdict("R-134a", measured(200)).free);
    EXPECT_FALSE(verdict("R-32", measured(10)).free) << "2.1";
    EXPECT_FALSE(verdict("R-717", measured(10)).free) << "not anhydrous ammonia";
    EXPECT_FALSE(verdict("R-134a", {}).free) << "nobody knows";
    EXPECT_EQ(verdict("R-134a", measured(150)).finding.citation, "49 CFR 173.29(a), (b)(2), 172.203(e)");
}

// US-EM-04: with any liquid R-134a or R-22 stands far above 29 psig at 20 degC. As vapour alone: 0.1 kg of
// R-134a (102.03 kg/kmol) in 21.6 l: 0.1 x 8.3145 x 293.15 / (102.03 x 0.0216) = 110.6 kPa absolute, by hand.
TEST(Residue, TheMassOnlyBoundsThePressure) {
    const ResidueVerdict vapour = verdict("R-134a", left("0.1 kg", 21.6));
    EXPECT_TRUE(vapour.free);
    EXPECT_TRUE(says(vapour.finding, "= 111 kPa absolute"));
    EXPECT_FALSE(verdict("R-134a", left("0.3 kg", 21.6)).free); // 331.8 kPa
    const ResidueVerdict liquid = verdict("R-134a", left("5 kg", 21.6));
    EXPECT_FALSE(liquid.free);
    EXPECT_TRUE(says(liquid.finding, "liquid can be left"));
    EXPECT_FALSE(verdict("R-22", left("2 kg", 21.6)).free);
}

// US-EM-02: what was cleaned and purged is free whatever was in it. That a vacuum and an inert gas do so is a
// reading in the United States; elsewhere from memory (ADR 5.1.3.1, TDG Regulations 1.4).
TEST(Residue, APurgeWithAnInertGasFreesWhatNoPressureDoes) {
    const auto purged = [](const char* contents, const char* gas, const char* book) {
        ResidueAsk ask;
        ask.left = Mass();
        ask.volume = Volume::fromLitres(21.6);
        ask.purgedWith = gas;
        return verdict(contents, ask, book);
    };
    for (const char* contents : {"R-32", "R-290", "R-1234yf", "R-717", "R-764", "R-22"}) {
        const ResidueVerdict free = purged(contents, "nitrogen", "us");
        EXPECT_TRUE(free.free) << contents;
        EXPECT_EQ(free.finding.citation, "49 CFR 173.29(b)(2)");
        EXPECT_EQ(free.finding.firmness, Firmness::reading);
        EXPECT_NE(free.finding.remedy.find("marks and labels"), std::string::npos);
    }
    for (const char* gas : {"Nitrogen", " dry nitrogen ", "N2", "argon", "helium"}) {
        EXPECT_TRUE(purged("R-32", gas, "us").free) << gas;
    }
    for (const char* gas : {"", "air", "oxygen", "nitrogenous", "nitrogen;", "R-290", ";"}) {
        EXPECT_FALSE(purged("R-32", gas, "us").free) << gas;
    }
    EXPECT_TRUE(says(purged("R-32", "air", "us").finding, "purged with air, which the rulebook does not"));
    EXPECT_TRUE(purged("R-22", "air", "us").free) << "below the pressure all the same";
    for (const char* book : {"eu", "uk", "ca"}) {
        EXPECT_TRUE(purged("R-32", "nitrogen", book).free) << book;
        EXPECT_EQ(purged("R-32", "nitrogen", book).finding.firmness, Firmness::memory);
        EXPECT_FALSE(purged("R-22", "", book).free) << book;
    }
}

// E5: the words are allowed in the United States, asked for elsewhere.
TEST(Residue, TheWordsOnThePaper) {
    EXPECT_EQ(verdict("R-134a", {}).words,
              "UN3159, 1,1,1,2-Tetrafluoroethane, 2.2, RESIDUE: Last Contained 1,1,1,2-Tetrafluoroethane");
    EXPECT_TRUE(says(verdict("R-134a", {}).finding, "the paper may say"));
    for (const char* book : {"eu", "uk"}) {
        EXPECT_EQ(verdict("R-134a", {}, book).words, "EMPTY RECEPTACLE, 2.2");
        EXPECT_EQ(verdict("R-32", {}, book).words, "EMPTY RECEPTACLE, 2.1");
        EXPECT_EQ(verdict("R-717", {}, book).words, "EMPTY RECEPTACLE, 2.3");
        EXPECT_FALSE(verdict("R-134a", measured(10), book).free);
    }
    EXPECT_TRUE(says(verdict("R-134a", {}, "eu").finding, "the paper says"));
    EXPECT_EQ(verdict("R-22", {}, "ca").words,
              "UN1018, Chlorodifluoromethane, 2.2, Residue - Last Contained Chlorodifluoromethane");
    EXPECT_EQ(verdict("R-717", {}, "ca").finding.firmness, Firmness::memory);
    EXPECT_TRUE(verdict("R-32", {}, "ca").words.ends_with("Last Contained Difluoromethane"));
    EXPECT_TRUE(verdict("R-764", {}).words.starts_with("UN1079, Sulfur dioxide, 2.3 (8), RESIDUE"));
}

// E1, E2, E3, E5: right and wrong lines.
TEST(ShippingLine, OrderAndTechnicalNames) {
    EXPECT_TRUE(inOrder("UN1018, Chlorodifluoromethane, 2.2"));
    EXPECT_TRUE(inOrder("UN1018, Refrigerant gas R 22, 2.2"));
    EXPECT_TRUE(inOrder("UN1018, CHLORODIFLUOROMETHANE, 2.2, 3 cyl."));
    EXPECT_TRUE(inOrder("UN3163, Liquefied gas, n.o.s. (Difluoromethane, Pentafluoroethane), 2.2"));
    EXPECT_TRUE(inOrder("UN3163, Liquefied gas, n.o.s., 2.2 (Difluoromethane, Pentafluoroethane)"));
    EXPECT_TRUE(
        inOrder("UN3159, 1,1,1,2-Tetrafluoroethane, 2.2, RESIDUE: Last Contained 1,1,1,2-Tetrafluoroethane"));
    EXPECT_FALSE(inOrder("UN3163, Liquefied gas, n.o.s., 2.2"));
    EXPECT_FALSE(inOrder("Chlorodifluoromethane, 2.2, UN1018"));
    EXPECT_FALSE(inOrder("UN1018, 3 cyl., Chlorodifluoromethane, 2.2"));
    EXPECT_FALSE(inOrder("UN1018, Chlorodifluoromethane, 75 lb, 2.2"));
    EXPECT_FALSE(inOrder("UN1018, Chlorodifluoromethane, 2.1"));
    EXPECT_FALSE(inOrder("UN1018, Chlorodifluoromethane"));
    EXPECT_FALSE(inOrder("UN3163, Liquefied gas, n.o.s. (Difluoromethane, 2.2"));
    EXPECT_FALSE(inOrder(""));
    EXPECT_NE(
        shippingLineProblem(bookOn("us"), "UN3163, Liquefied gas, n.o.s., 2.2")->wrong.find("technical"),
        std::string::npos);
}

// What the program writes itself is in order, for every refrigerant of the tables, in every book.
TEST(ShippingLine, OurOwnLinesAreInOrder) {
    for (const std::string& book : Rulebook::names()) {
        int lines = 0;
        for (const RuleRow& row : bookOn(book).table("un-numbers")->rows) {
            const auto contents = testCatalogue().contents(row.cell("refrigerant"));
            if (row.cell("kind") == "collective" || !contents) {
                continue;
            }
            const auto its = must(shippingDescription(bookOn(book), testCatalogue(), contents.value()));
            if (its.regulated) {
                EXPECT_TRUE(inOrder(its.text, book.c_str())) << book << " " << its.text;
                ++lines;
            }
        }
        EXPECT_GT(lines, 50) << book;
    }
}

// E4, E10.
TEST(ShippingLine, NumbersThatAreNotThere) {
    const auto line = must(shippingDescription(bookOn("us"), testCatalogue(), contentsOf("R-407F")));
    EXPECT_EQ(line.unNumber, "UN3163");
    EXPECT_EQ(line.technicalNames.size(), 2U);
    const auto low = must(shippingDescription(bookOn("us"), testCatalogue(), contentsOf("R-123")));
    EXPECT_FALSE(low.regulated);
    EXPECT_TRUE(low.text.empty() && low.unNumber.empty());
}
