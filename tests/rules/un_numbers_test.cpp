// Every row of the tables of shipping names against the reference copy of 49 CFR 172.101
// (tests/standards/transport/un-numbers.csv: rows VERIFIED were read in the 2024 text, the others are MEMORY
// and marked so in the rulebook).
#include <gtest/gtest.h>

#include "core/base/text.h"
#include "core/rules/shipping_description.h"
#include "tests/rules/book_fixture.h"

using namespace tarebook;

namespace {

const Table& reference() {
    static const Table kTable =
        must(readTableFile(std::string(TAREBOOK_TEST_DIR "/standards/transport/un-numbers.csv")));
    return kTable;
}

const std::vector<std::string>* referenceRow(const std::string& refrigerant) {
    for (const auto& row : reference().rows) {
        if (row[0] == refrigerant || row[0].starts_with(refrigerant + " (")) {
            return &row;
        }
    }
    return nullptr;
}

const RuleRow* bookRow(const Rulebook& book, const std::string& refrigerant) {
    for (const RuleRow& row : book.table("un-numbers")->rows) {
        if (refrigerant == row.cell("refrigerant") ||
            refrigerant.starts_with(row.cell("refrigerant") + " (")) {
            return &row;
        }
    }
    return nullptr;
}

std::string joined(const std::string& parts) {
    std::string text = parts;
    for (auto place = text.find(" / "); place != std::string::npos; place = text.find(" / ")) {
        text.replace(place, 3, ", ");
    }
    return text;
}

std::string plain(const std::string& name) {
    std::string letters;
    for (const char letter : lowered(name)) {
        if (std::isalnum(static_cast<unsigned char>(letter)) != 0) {
            letters += letter;
        }
    }
    return letters;
}

} // namespace

// Number, name, division and technical names of every refrigerant of the reference.
TEST(UnNumbers, EveryRowOf172101) {
    const Rulebook& us = bookOn("us");
    int compared = 0;
    for (const auto& row : reference().rows) {
        const std::string kind = cellOf(reference(), row, "entry_kind");
        const RuleRow* its = bookRow(us, row[0]);
        if (kind == "generic" || its == nullptr) {
            continue; // collective entries are compared below
        }
        SCOPED_TRACE(row[0]);
        ++compared;
        if (kind == "outside Class 2") {
            EXPECT_EQ(its->cell("kind"), "no-gas");
            EXPECT_TRUE(its->cell("un_number").empty());
            continue;
        }
        EXPECT_EQ(its->cell("un_number"), cellOf(reference(), row, "un_number"));
        const std::string name = cellOf(reference(), row, "proper_shipping_name_us");
        EXPECT_TRUE(name.starts_with(its->cell("name"))) << name;
        if (!its->cell("alternative_name").empty()) {
            EXPECT_TRUE(name.ends_with("or " + its->cell("alternative_name"))) << name;
        }
        EXPECT_TRUE(cellOf(reference(), row, "division").starts_with(its->cell("division")));
        EXPECT_EQ(joined(its->cell("technical_names")), cellOf(reference(), row, "technical_names_to_add"));
        const bool read = cellOf(reference(), row, "status") == "VERIFIED";
        EXPECT_EQ(its->firmness == Firmness::verified, read);
    }
    EXPECT_EQ(compared, 76);
}

// 172.101, symbol G or D: the collective entries of mixtures.
TEST(UnNumbers, CollectiveEntries) {
    int compared = 0;
    for (const RuleRow& its : bookOn("us").table("un-numbers")->rows) {
        if (its.cell("kind") != "collective") {
            continue;
        }
        bool found = false;
        for (const auto& row : reference().rows) {
            found =
                found || (cellOf(reference(), row, "un_number") == its.cell("un_number") &&
                          cellOf(reference(), row, "division") == its.cell("division") &&
                          cellOf(reference(), row, "proper_shipping_name_us").starts_with(its.cell("name")));
        }
        EXPECT_TRUE(found) << its.cell("un_number");
        ++compared;
    }
    EXPECT_EQ(compared, 5);
}

// The United Nations give one number to one substance: the books outside the United States have the same
// (MEMORY there), and ammonia as 2.3 (8).
TEST(UnNumbers, TheSameNumbersElsewhere) {
    for (const char* name : {"eu", "uk", "ca", "au"}) {
        int compared = 0;
        for (const RuleRow& its : bookOn(name).table("un-numbers")->rows) {
            const RuleRow* us = bookRow(bookOn("us"), its.cell("refrigerant"));
            if (us == nullptr || its.cell("kind") != "named" || its.cell("un_number").empty()) {
                continue;
            }
            EXPECT_EQ(its.cell("un_number"), us->cell("un_number")) << name << its.cell("refrigerant");
            EXPECT_EQ(its.cell("division"),
                      its.cell("refrigerant") == "R-717" ? "2.3" : us->cell("division"));
            ++compared;
        }
        EXPECT_EQ(compared, 45) << name;
    }
}

// German refrigeration-guild Q&A of June 2020 (UN-CL-02, UN-CL-03): numbers and labels in Europe.
TEST(UnNumbers, NumbersConfirmedForEurope) {
    const std::vector<std::tuple<const char*, const char*, const char*>> cases{
        {"R-32", "UN3252", "2.1"},   {"R-1234yf", "UN3161", "2.1"},   {"R-452B", "UN3161", "2.1"},
        {"R-454A", "UN3161", "2.1"}, {"R-454C", "UN3161", "2.1"},     {"R-152a", "UN1030", "2.1"},
        {"R-290", "UN1978", "2.1"},  {"R-1270", "UN1077", "2.1"},     {"R-600", "UN1011", "2.1"},
        {"R-600a", "UN1969", "2.1"}, {"R-1234ze(E)", "UN3163", "2.2"}};
    for (const auto& [refrigerant, number, division] : cases) {
        const auto line = must(shippingDescription(bookOn("eu"), testCatalogue(), contentsOf(refrigerant)));
        EXPECT_EQ(line.unNumber, number) << refrigerant;
        EXPECT_EQ(line.labels, division) << refrigerant;
    }
}

// Technical names: what is itself a proper shipping name as in the reference; the others against the chemical
// names of the property library's list (IUPAC style; MEMORY in the rulebook).
TEST(UnNumbers, EveryTechnicalName) {
    // Common names beside the systematic ones: IUPAC recommendations of 1979 and 1993 (MEMORY).
    const std::map<std::string, std::string> synonyms{
        {"R40", "chloromethane"},       {"R41", "fluoromethane"},   {"R161", "fluoroethane"},
        {"R601a", "isopentane"},        {"R610", "diethylether"},   {"R717", "ammonia"},
        {"R764", "sulfurdioxide"},      {"R1150", "ethene"},        {"R1270", "propene"},
        {"R1132a", "11difluoroethene"}, {"RE170", "methoxymethane"}};
    const Table constants =
        must(readTableFile(std::string(TAREBOOK_RESOURCE_DIR "/refrigerants/pure-constants.csv")));
    int fromShipping = 0;
    int fromList = 0;
    for (const RuleRow& row : bookOn("us").table("technical-names")->rows) {
        const std::string& designation = row.cell("designation");
        SCOPED_TRACE(designation);
        const std::string shown = designation.starts_with("RE") || designation.starts_with("RC")
                                      ? designation
                                      : "R-" + designation.substr(1);
        const auto* shipping = referenceRow(shown);
        const std::string& name = row.cell("name");
        if (row.source == "the proper shipping name") {
            ASSERT_NE(shipping, nullptr);
            EXPECT_TRUE(cellOf(reference(), *shipping, "proper_shipping_name_us").starts_with(name));
            ++fromShipping;
            continue;
        }
        if (shipping != nullptr && !cellOf(reference(), *shipping, "technical_names_to_add").empty()) {
            const std::string its = plain(cellOf(reference(), *shipping, "technical_names_to_add"));
            // 2,3,3,3-tetrafluoroprop-1-ene (interpretation 11-0052) is 2,3,3,3-tetrafluoropropene.
            EXPECT_TRUE(its == plain(name) || its == "2333tetrafluoroprop1ene");
            ++fromList;
            continue;
        }
        for (const auto& one : constants.rows) {
            if (one[0] == designation) {
                const auto other = synonyms.find(designation);
                const std::string listed = plain(cellOf(constants, one, "name"));
                EXPECT_TRUE(plain(name) == listed || (other != synonyms.end() && other->second == listed))
                    << name << " or " << listed;
                ++fromList;
            }
        }
    }
    EXPECT_EQ(fromShipping, 33);
    EXPECT_GT(fromList, 25);
}
