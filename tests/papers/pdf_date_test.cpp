// A PDF whose date is put in place of another: the places in its cross-reference table must hold afterwards
// (ISO 32000-1, 7.5.4: ten digits from the first byte to `N 0 obj`, and 7.5.5: startxref). Written by hand,
// read back by the same paragraphs.
#include "core/papers/pdf_date.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

using namespace tarebook;

namespace {

/// Two objects, the first with the date, and the table behind them.
std::string pdfWith(const std::string& date) {
    std::string pdf = "%PDF-1.4\n";
    const std::size_t first = pdf.size();
    pdf += fmt::format("1 0 obj\n<<\n/Title (A (paper\\))\n/CreationDate ({})\n>>\nendobj\n", date);
    const std::size_t second = pdf.size();
    pdf += "2 0 obj\n<<\n/Type /Catalog\n>>\nendobj\n";
    const std::size_t table = pdf.size();
    pdf += fmt::format("xref\n0 3\n0000000000 65535 f \n{:010} 00000 n \n{:010} 00000 n \n", first, second);
    pdf += fmt::format("trailer\n<<\n/Size 3\n/Info 1 0 R\n/Root 2 0 R\n>>\nstartxref\n{}\n%%EOF\n", table);
    return pdf;
}

/// Whether each place of the table is that of its object, and startxref that of the table.
void expectSound(const std::string& pdf) {
    const std::size_t last = pdf.rfind("startxref\n");
    ASSERT_NE(last, std::string::npos);
    const std::size_t table = std::stoul(pdf.substr(last + 10));
    ASSERT_EQ(pdf.substr(table, 9), "xref\n0 3\n");
    for (int object = 1; object <= 2; ++object) {
        const std::string row = pdf.substr(table + 9 + static_cast<std::size_t>(object) * 20, 20);
        EXPECT_EQ(row.substr(10), " 00000 n \n");
        const std::string begin = fmt::format("{} 0 obj", object);
        EXPECT_EQ(pdf.substr(std::stoul(row), begin.size()), begin);
    }
}

const ZipTime kBooks{Date::of(2026, 9, 14).value(), 8, 30, 5};

} // namespace

TEST(PdfDateTest, EveryZoneOfTheMachineGivesTheSameBytes) {
    const std::string utc = datedPdf(pdfWith("D:20270201140000Z"), kBooks);
    const std::string west = datedPdf(pdfWith("D:20270201080000-06'00'"), kBooks);
    const std::string bare = datedPdf(pdfWith("D:20"), kBooks); // shorter than what is put there
    EXPECT_EQ(utc, west);
    EXPECT_EQ(utc, bare);
    EXPECT_NE(utc.find("/CreationDate (D:20260914083005)\n"), std::string::npos) << utc;
    expectSound(utc);
}

TEST(PdfDateTest, WhatIsNotUnderstoodStaysAsItWas) {
    std::string broken = pdfWith("D:20270201140000Z");
    broken.replace(broken.find("xref\n0 3"), 4, "xxxx");
    for (const std::string& pdf : {std::string(), std::string("%PDF-1.4\nno date\nstartxref\n0\n%%EOF\n"),
                                   broken, std::string("%PDF-1.4\n/CreationDate (D:2026")}) {
        EXPECT_EQ(datedPdf(pdf, kBooks), pdf);
    }
}
