// Papers as PDF at the command line, without a display: what is written is read back by `file`-like means
// only (its first bytes, its date, its bytes); how its pages look is held by tests/pages.
#include <filesystem>

#include "tests/app/sample_file.h"

using namespace tarebook::tests;

namespace {

class PdfTest : public SampleFileTest {
protected:
    void SetUp() override {
        if (!std::filesystem::exists(TAREBOOK_CTL "-pdf")) {
            GTEST_SKIP() << "built without what draws papers";
        }
        SampleFileTest::SetUp();
        m_now = "2026-11-21T08:00:00-06:00";
        makeSample("--cylinders 60 --years 1");
        good("setting s.tarebook emergency_telephone '+1 555 0100'");
    }
    void expectPdf(const std::string& name) const {
        const std::string bytes = read(file(name));
        EXPECT_TRUE(bytes.starts_with("%PDF-")) << name;
        EXPECT_TRUE(bytes.ends_with("%%EOF\n")) << name;
        EXPECT_GT(bytes.size(), 3'000U) << name;
        // The clock of the books, not of the machine, which tests do not run in.
        EXPECT_NE(bytes.find("/CreationDate (D:202"), std::string::npos) << name;
    }
    [[nodiscard]] std::string date(const std::string& name) const {
        const std::string bytes = read(file(name));
        const std::size_t begin = bytes.find("/CreationDate (D:");
        return begin == std::string::npos ? "" : bytes.substr(begin + 15, 16);
    }
    /// The newest batch that has not left.
    [[nodiscard]] std::string batch(const std::string& status) {
        std::string name;
        for (const auto& one : good("batch list s.tarebook --json").json()) {
            name = one["status"] == status && name.empty() ? one["batch"].get<std::string>() : name;
        }
        return name;
    }
};

} // namespace

TEST_F(PdfTest, EveryPaperOfABatchIsWrittenInPlaceOfItsText) {
    const std::string shipped = batch("settled");
    ASSERT_FALSE(shipped.empty());
    for (const char* verb : {"manifest", "shipping-paper", "consignment"}) {
        const Answer done = run(fmt::format("{} s.tarebook {} --pdf {}.pdf", verb, shipped, verb));
        if (std::string(verb) == "consignment" && done.code != 0) {
            continue; // a rulebook that asks for none says so, with --pdf as without
        }
        ASSERT_EQ(done.code, 0) << done.err;
        EXPECT_EQ(done.out, fmt::format("{}.pdf: written\n", verb));
        expectPdf(fmt::format("{}.pdf", verb));
    }
    // In JSON as without it, with the file beside it.
    const Answer json = good(fmt::format("manifest s.tarebook {} --json --pdf again.pdf", shipped));
    EXPECT_EQ(json.json()["batch"], shipped);
    expectPdf("again.pdf");
}

TEST_F(PdfTest, TagsSlipsAndStocktakes) {
    good("tag s.tarebook A0001 A0002 --pdf tags.pdf");
    expectPdf("tags.pdf");
    const std::string before = read(file("tags.pdf"));
    good("tag s.tarebook A0001 A0002 --pdf tags.pdf");
    EXPECT_EQ(read(file("tags.pdf")), before) << "the same head and moment give the same bytes";
    good("tag s.tarebook A0001 --pdf label.pdf --on label");
    EXPECT_NE(read(file("label.pdf")), read(file("tags.pdf")));
    const Answer unknown = run("tag s.tarebook A0001 NOSUCH --pdf one.pdf");
    EXPECT_EQ(unknown.code, 1);
    expectPdf("one.pdf"); // what can be made is
    EXPECT_EQ(run("tag s.tarebook A0001 --on label").code, 2) << "a form without a paper";
    write("racks.csv", "serial,gross,remark\nA0001,40 lb,\n");
    const Answer walked = good("stocktake s.tarebook racks.csv --pdf walked.pdf");
    EXPECT_EQ(walked.out, "walked.pdf: written\n");
    expectPdf("walked.pdf");
    for (const auto& one : good("fleet s.tarebook --json").json()) {
        if (one.contains("holder") && one["holder"].is_string() &&
            !one["holder"].get<std::string>().empty()) {
            good(fmt::format("slip s.tarebook '{}' --pdf slip.pdf", one["holder"].get<std::string>()));
            expectPdf("slip.pdf");
            return;
        }
    }
    ADD_FAILURE() << "nobody of the sample has a cylinder";
}

TEST_F(PdfTest, ThePlanOfADay) {
    good("system s.tarebook NEW/UNIT --customer 'Brightwater Grocers' --refrigerant R-410A --charge '20 lb' "
         "--equipment 'comfort cooling'");
    std::string person;
    for (const auto& one : good("person s.tarebook --json").json()) {
        person = one["active"].get<bool>() && one["role"] == "technician" ? one["name"].get<std::string>()
                                                                          : person;
    }
    ASSERT_FALSE(person.empty());
    write("jobs.csv",
          fmt::format("technician,job,direction,system,mass\n{},J-1,recover,NEW/UNIT,5 lb\n", person));
    const Answer done = good("plan s.tarebook --jobs jobs.csv --pdf day.pdf");
    EXPECT_EQ(done.out, "day.pdf: written\n");
    expectPdf("day.pdf");
    const std::string before = read(file("day.pdf"));
    const Answer json = good("plan s.tarebook --jobs jobs.csv --json --pdf day.pdf");
    EXPECT_EQ(json.json()["not_served"], 0) << "in JSON as without it, with the file beside it";
    EXPECT_EQ(read(file("day.pdf")), before) << "the same head and moment give the same bytes";
    write("jobs.csv",
          fmt::format("technician,job,direction,system,mass\n{},J-1,recover,NEW/UNIT,4000 lb\n", person));
    const Answer unserved = run("plan s.tarebook --jobs jobs.csv --pdf unserved.pdf");
    EXPECT_EQ(unserved.code, 1) << "the paper names the job that is not served, and the exit code says it";
    expectPdf("unserved.pdf");
    EXPECT_EQ(run("plan s.tarebook --system NEW/UNIT --expected '5 lb' --pdf one.pdf").code, 2)
        << "one job has no paper";
    EXPECT_FALSE(std::filesystem::exists(file("one.pdf")));
}

TEST_F(PdfTest, IsWrittenOverAnOlderPdfAndOverNothingElse) {
    good("tag s.tarebook A0001 --pdf tag.pdf");
    good("tag s.tarebook A0002 --pdf tag.pdf");
    const std::string books = read(file("s.tarebook"));
    const Answer refused = run("tag s.tarebook A0001 --pdf s.tarebook");
    EXPECT_EQ(refused.code, 1);
    EXPECT_NE(refused.err.find("something that is no PDF is there"), std::string::npos) << refused.err;
    EXPECT_EQ(read(file("s.tarebook")), books);
    const Answer nowhere = run("tag s.tarebook A0001 --pdf no/such/folder.pdf");
    EXPECT_EQ(nowhere.code, 1);
    EXPECT_NE(nowhere.err.find("cannot be written"), std::string::npos) << nowhere.err;
    EXPECT_EQ(run("tag s.tarebook NOSUCH --pdf none.pdf").code, 1);
    EXPECT_FALSE(std::filesystem::exists(file("none.pdf")));
}

// The report lies within the pack and is listed; the same head gives the same bytes, on whatever day and in
// whatever zone the machine is.
TEST_F(PdfTest, TheReportOfEvidenceIsAmongItsFiles) {
    const std::string asked = "--from 2026-04-01 --to 2026-06-30";
    good("evidence s.tarebook one " + asked);
    expectPdf("one/report.pdf");
    EXPECT_NE(read(file("one/SHA256SUMS")).find("  report.pdf\n"), std::string::npos);
    EXPECT_NE(read(file("one/README.txt")).find("report.pdf"), std::string::npos);
    const auto check = [&](const std::string& folder) {
        return std::system(fmt::format("cd '{}' && sha256sum --strict --quiet -c SHA256SUMS && sh prove.sh "
                                       "> /dev/null",
                                       file(folder))
                               .c_str());
    };
    EXPECT_EQ(check("one"), 0);
    m_before = "TZ=Asia/Tokyo LC_ALL=C.UTF-8";
    m_now = "2027-02-01T08:00:00-06:00";
    good("evidence s.tarebook two " + asked);
    EXPECT_EQ(read(file("one/report.pdf")), read(file("two/report.pdf")));
    EXPECT_EQ(read(file("one/SHA256SUMS")), read(file("two/SHA256SUMS")));
    good("evidence s.tarebook three.zip " + asked);
    EXPECT_EQ(
        std::system(fmt::format("cd '{}' && unzip -q three.zip && mv evidence-* three", file(".")).c_str()),
        0);
    EXPECT_EQ(check("three"), 0);
    EXPECT_EQ(read(file("one/report.pdf")), read(file("three/report.pdf")));
    // The day on which the newest entry was recorded, on the clock of the shop.
    EXPECT_EQ(date("one/report.pdf"), "D:20261121080000");
}
