// What is asked of who holds refrigerant: 40 CFR 82.154, 82.161, part 84, Regulation (EU) 2024/573, the
// retained 517/2014, SOR/2022-110, Australian reg. 141, by the facts EPA-15 to EPA-57, EU-02 to EU-22, UK-04
// to UK-19, CA-01 to CA-08, AU-01 to AU-11 of the reference, which names the copy read for each.
#include "core/rules/duties.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "core/base/text.h"
#include "core/rules/disposal_record.h"
#include "core/rules/gas_kinds.h"
#include "core/rules/technician.h"
#include "tests/rules/book_fixture.h"

using namespace tarebook;

namespace {

std::vector<std::string> subjects(const char* book, const char* contents, const char* day = "2026-11-26") {
    std::vector<std::string> found;
    for (const Finding& finding : must(dutiesOf(bookOn(book, day), testCatalogue(), contentsOf(contents)))) {
        found.push_back(finding.rule.substr(5));
    }
    return found;
}

bool has(const std::vector<std::string>& list, const std::string& one) {
    return std::find(list.begin(), list.end(), one) != list.end();
}

/// Of the subject's row that holds for the contents on the day: citation and words; empty where none does.
std::string row(const char* book, const char* subject, const char* contents, const char* day) {
    for (const Finding& finding : must(dutiesOf(bookOn(book, day), testCatalogue(), contentsOf(contents)))) {
        if (finding.rule == std::string("duty.") + subject) {
            return finding.citation + ": " + finding.headline;
        }
    }
    return {};
}

} // namespace

TEST(GasKinds, ByClassAndGroup) {
    const auto kinds = [](const char* contents) { return gasKinds(testCatalogue(), contentsOf(contents)); };
    EXPECT_TRUE(kinds("R-22").contains("ods"));
    EXPECT_FALSE(kinds("R-1233zd(E)").contains("ods"));
    EXPECT_TRUE(kinds("R-1233zd(E)").contains("hfo"));
    EXPECT_TRUE(kinds("R-454B").contains("a2l"));
    EXPECT_TRUE(kinds("R-454B").contains("hfc"));
    EXPECT_FALSE(kinds("R-410A").contains("a2l"));
    EXPECT_TRUE(kinds("R-290").contains("hydrocarbon"));
    EXPECT_FALSE(kinds("R-290").contains("halocarbon"));
    EXPECT_TRUE(kinds("R-744").contains("carbon-dioxide"));
    EXPECT_TRUE(kinds("R-717").contains("ammonia"));
    EXPECT_FALSE(kinds("R-744:0.5+R-32:0.5").contains("carbon-dioxide"));
}

// EPA-15, EPA-16: the ban and its exemptions.
TEST(Duties, VentingBanAndExemptions) {
    EXPECT_TRUE(has(subjects("us", "R-410A"), "venting"));
    EXPECT_TRUE(has(subjects("us", "R-1234yf"), "venting"));
    EXPECT_FALSE(has(subjects("us", "R-744"), "venting"));
    EXPECT_TRUE(has(subjects("us", "R-744"), "venting-exempt"));
    EXPECT_NE(row("us", "venting-exempt", "R-290", "2026-11-26").find("only in the uses"), std::string::npos);
    EXPECT_NE(row("us", "venting-exempt", "R-717", "2026-11-26").find("only in the uses"), std::string::npos);
    EXPECT_FALSE(has(subjects("us", "R-744:0.5+R-32:0.5"), "venting-exempt"));
}

// EPA-20: HFCs joined the sales restriction on 2018-01-01. EPA-53, EPA-54: 15 % from 2026-01-01, reclaimed
// gas for service from 2029-01-01. EPA-51: disposable cylinders of HFC from 2028-01-01.
TEST(Duties, ADayHasTheRulesOfItsDay) {
    EXPECT_TRUE(row("us", "sale", "R-410A", "2017-12-31").empty());
    EXPECT_FALSE(row("us", "sale", "R-410A", "2018-01-01").empty());
    EXPECT_FALSE(row("us", "sale", "R-22", "2017-12-31").empty());
    EXPECT_TRUE(row("us", "reclaimed-share", "R-410A", "2025-12-31").empty());
    EXPECT_NE(row("us", "reclaimed-share", "R-410A", "2026-01-01").find("15 %"), std::string::npos);
    EXPECT_TRUE(row("us", "reclaimed-service", "R-404A", "2028-12-31").empty());
    EXPECT_FALSE(row("us", "reclaimed-service", "R-404A", "2029-01-01").empty());
    EXPECT_TRUE(row("us", "disposable-heel", "R-410A", "2027-12-31").starts_with("40 CFR 82.154(a)"));
    EXPECT_TRUE(row("us", "disposable-heel", "R-410A", "2028-01-01").starts_with("40 CFR 84.116"));
    EXPECT_NE(row("us", "disposable-heel", "R-410A", "2028-01-01").find("15 inches"), std::string::npos);
    EXPECT_TRUE(row("us", "disposable-heel", "R-22", "2028-01-01").starts_with("40 CFR 82.154(a)"));
}

// EU-18, EU-19, EU-21: service bans by GWP: R-404A is above 2,500, R-410A below.
TEST(Duties, EuropeanServiceBans) {
    EXPECT_NE(row("eu", "service-ban", "R-404A", "2024-12-31").find("40 t"), std::string::npos);
    EXPECT_NE(row("eu", "service-ban", "R-404A", "2025-01-01").find("whatever its charge"),
              std::string::npos);
    EXPECT_TRUE(row("eu", "service-ban", "R-410A", "2026-11-26").empty());
    EXPECT_FALSE(row("eu", "service-ban-reclaimed", "R-404A", "2029-12-31").empty());
    EXPECT_TRUE(row("eu", "service-ban-reclaimed", "R-404A", "2030-01-01").empty());
    EXPECT_TRUE(row("eu", "service-ban-air", "R-404A", "2025-12-31").empty());
    EXPECT_FALSE(row("eu", "service-ban-air", "R-404A", "2026-01-01").empty());
    EXPECT_FALSE(row("eu", "service-ban-2032", "R-410A", "2032-01-01").empty());
    EXPECT_TRUE(row("eu", "service-ban-2032", "R-32", "2032-01-01").empty()); // 675
    EXPECT_FALSE(row("eu", "reuse", "R-404A", "2026-11-26").empty());
    EXPECT_TRUE(row("uk", "waste-tracking", "R-410A", "2026-09-30").empty());
    EXPECT_FALSE(row("uk", "waste-tracking", "R-410A", "2026-10-01").empty()); // UK-19
}

// Every row of every duties.csv is met by some contents on some day, with its own words, and says where it is
// from.
TEST(Duties, EveryRowIsReached) {
    const std::vector<const char*> contents{"R-22",     "R-404A", "R-410A", "R-454B",
                                            "R-1234yf", "R-290",  "R-717",  "R-744"};
    const std::vector<const char*> days{"2024-06-01", "2026-11-26", "2028-01-01", "2032-06-01"};
    for (const std::string& book : Rulebook::names()) {
        for (const char* day : days) {
            std::set<std::string> met;
            for (const char* one : contents) {
                for (const Finding& finding :
                     must(dutiesOf(bookOn(book, day), testCatalogue(), contentsOf(one)))) {
                    met.insert(finding.rule + finding.headline);
                    EXPECT_EQ(finding.edition,
                              finding.citation == "common practice" ? "" : bookOn(book, day).edition());
                    EXPECT_FALSE(finding.citation.empty());
                }
            }
            for (const RuleRow& its : bookOn(book, day).table("duties")->rows) {
                EXPECT_TRUE(met.contains("duty." + its.cell("subject") + its.cell("duty")))
                    << book << " " << day << " " << its.cell("subject") << " " << its.cell("applies");
            }
        }
    }
}

// US-SP-11 and E9: no certification for a private carrier, a signed one for another.
TEST(Duties, CertificationByCarrier) {
    const auto words = [](bool own) {
        std::string text;
        for (const Finding& finding : carriageDuties(bookOn("us"), own)) {
            text += finding.rule == "carriage.certification" ? finding.headline : "";
        }
        return text;
    };
    EXPECT_TRUE(words(true).starts_with("No shipper's certification"));
    EXPECT_NE(words(false).find("signed"), std::string::npos);
    for (const std::string& book : Rulebook::names()) {
        const RuleTable* table = bookOn(book).table("carriage-duties");
        const std::size_t once = book == "us" ? 1 : 0; // the row of the other carrier
        EXPECT_EQ(carriageDuties(bookOn(book), true).size(),
                  table == nullptr ? 0 : table->rows.size() - once);
    }
}

// The words of carriage, by the facts of the reference: 172.202 and 172.204 (US-SP-01, US-SP-11), 172.604 (a
// number that is answered), 172.704 (three years), 172.201(e) (two years, three for hazardous waste; MEMORY),
// ADR 5.4.1.1.1, 1.1.3.6.2 (MEMORY), a consignment note in England (UK-09, UK-11), TDG part 3 (CA-17,
// MEMORY).
TEST(Duties, WordsOfCarriage) {
    const auto has = [](const char* book, const char* subject, const char* words, Firmness firmness) {
        for (const Finding& finding : carriageDuties(bookOn(book), false)) {
            if (finding.rule == std::string("carriage.") + subject) {
                return finding.headline.find(words) != std::string::npos && finding.firmness == firmness;
            }
        }
        return false;
    };
    EXPECT_TRUE(has("us", "paper", "number, name, class, with nothing between", Firmness::verified));
    EXPECT_TRUE(has("us", "certification", "stands on the paper and is signed", Firmness::verified));
    EXPECT_TRUE(has("us", "emergency-number", "no call-back; residue does not excuse", Firmness::verified));
    EXPECT_TRUE(has("us", "residue-paper", "no paper when a contract or private", Firmness::verified));
    EXPECT_TRUE(has("us", "training", "at least every three years", Firmness::verified));
    EXPECT_TRUE(has("us", "marks", "green 2.2, red 2.1", Firmness::memory));
    EXPECT_TRUE(has("us", "secured", "upright or lying in racks", Firmness::memory));
    EXPECT_TRUE(has("us", "copies", "two years, three for hazardous waste", Firmness::memory));
    EXPECT_TRUE(has("us", "driver", "within reach", Firmness::memory));
    for (const char* book : {"eu", "uk"}) {
        EXPECT_TRUE(
            has(book, "paper", "label numbers, tunnel code, packages and net mass", Firmness::memory));
        EXPECT_TRUE(has(book, "marks", "stays until the cylinder is cleaned and purged", Firmness::memory));
        EXPECT_TRUE(has(book, "beyond-small-load", "trained driver with certificate, orange plates",
                        Firmness::memory));
    }
    EXPECT_TRUE(has("uk", "waste-paper", "consignment note", Firmness::verified));
    EXPECT_TRUE(has("ca", "paper", "consignor's certification, a telephone number", Firmness::memory));
}

// EPA-26, EPA-29: more than 5 and less than 50 lb, since 2018-01-01. WE-06: 5 lb = 2.268 kg, 50 lb = 22.680
// kg.
TEST(DisposalRecords, TheBoundsAreNotIncluded) {
    const DisposalScope scope = *must(disposalScope(bookOn("us")));
    EXPECT_FALSE(scope.contains(weight("5 lb")));
    EXPECT_TRUE(scope.contains(weight("5.1 lb")));
    EXPECT_TRUE(scope.contains(weight("49.9 lb")));
    EXPECT_FALSE(scope.contains(weight("50 lb")));
    EXPECT_FALSE(scope.contains(weight("2.2679 kg")));
    EXPECT_TRUE(scope.contains(weight("22.679 kg")));
    ASSERT_EQ(scope.records.size(), 3U);
    EXPECT_NE(scope.records[0].cell("fields").find("location"), std::string::npos);
    EXPECT_EQ(scope.records[1].cell("per"), "month");
    EXPECT_EQ(scope.records[2].cell("keep_years"), "3");
    EXPECT_FALSE(must(disposalScope(bookOn("us", "2017-12-31"))));
    EXPECT_FALSE(must(disposalScope(bookOn("eu"))));
}

// EPA-39, MEMORY: I small; II high and very high (and medium); III low; universal all.
TEST(Technicians, TypesAndAppliances) {
    const auto suits = [](const char* certificate, const char* refrigerant, const char* charge) {
        const auto appliance =
            must(appliancePressure(bookOn("us"), testCatalogue(), contentsOf(refrigerant)));
        return !must(certificateFinding(bookOn("us"), "MORGAN VALE", certificate, appliance, weight(charge)));
    };
    EXPECT_TRUE(suits("Type II", "R-410A", "34 lb"));
    EXPECT_TRUE(suits("TYPE 2", "R-23", "34 lb"));
    EXPECT_TRUE(suits("type ii", "R-134a", "34 lb"));
    EXPECT_FALSE(suits("Type II", "R-123", "300 lb"));
    EXPECT_TRUE(suits("Type III", "R-123", "300 lb"));
    EXPECT_FALSE(suits("Type III", "R-410A", "34 lb"));
    EXPECT_FALSE(suits("Type I", "R-410A", "34 lb"));
    EXPECT_TRUE(suits("Type I", "R-134a", "4 lb"));
    EXPECT_TRUE(suits("Type I & III", "R-123", "300 lb"));
    EXPECT_FALSE(suits("Section 609", "R-134a", "34 lb"));
    for (const char* refrigerant : {"R-123", "R-134a", "R-410A", "R-23"}) {
        EXPECT_TRUE(suits("Universal", refrigerant, "34 lb")) << refrigerant;
        EXPECT_TRUE(suits("CERT-48213", refrigerant, "34 lb")) << "a number names no type";
        EXPECT_FALSE(suits("", refrigerant, "34 lb"));
    }
    // A small appliance as such: type I and universal are for it, II and III are not.
    const AppliancePressure small{"small", {}, {}};
    const auto forSmall = [&](const char* certificate) {
        return !must(certificateFinding(bookOn("us"), "MORGAN VALE", certificate, small, {}));
    };
    EXPECT_TRUE(forSmall("Universal"));
    EXPECT_TRUE(forSmall("Type I"));
    EXPECT_FALSE(forSmall("Type II"));
    EXPECT_FALSE(forSmall("Type III"));
    const auto appliance = must(appliancePressure(bookOn("us"), testCatalogue(), contentsOf("R-123")));
    const auto finding = must(certificateFinding(bookOn("us"), "MORGAN VALE", "Type II", appliance, {}));
    ASSERT_TRUE(finding);
    EXPECT_EQ(finding->severity, Severity::caution);
    EXPECT_EQ(finding->citation, "40 CFR 82.161");
    EXPECT_EQ(finding->firmness, Firmness::memory);
    EXPECT_FALSE(must(certificateFinding(bookOn("eu"), "MORGAN VALE", "", appliance, {})));
}
