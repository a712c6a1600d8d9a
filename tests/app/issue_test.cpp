// Papers of a batch from the command line: a draft until it is issued, then numbered with those of the
// window.
#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

class IssueTest : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init s --name 'Larkspur Mechanical' --zone America/Chicago");
        good("setting s emergency_telephone '+1 555 0100'");
        good("system s HARBOR/DOCK-1 --customer 'Ansel Harbor' --refrigerant R-22 --charge '60 lb'");
        good("party s reclaimer 'Cape Reclaim' --address 'Foundry Way 2'");
        good("register s A1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' "
             "--manufactured 2024-01 --evacuated");
        good("checkin s A1 --gross '42 lb' --from system:HARBOR/DOCK-1");
        good("batch prepare s 'Cape Reclaim' A1 --name B-1");
    }
    [[nodiscard]] std::string head() const { return good("verify s --json").json()["head"]; }
};

} // namespace

TEST_F(IssueTest, TwoPapersNeverHaveOneNumber) {
    for (const char* verb : {"manifest", "shipping-paper"}) {
        const std::string paper = fmt::format("{} s B-1", verb);
        const std::string before = head();
        EXPECT_TRUE(holds(good(paper).out, "Batch B-1, draft, not issued, ")) << verb;
        EXPECT_TRUE(good(paper + " --json").json()["issue"].is_null());
        EXPECT_EQ(head(), before) << "a draft leaves the books as they are";
        const Answer first = good(paper + " --issue");
        EXPECT_TRUE(holds(first.out, "Batch B-1, issue 1, ")) << first.out;
        EXPECT_TRUE(holds(first.out, "Books at " + before.substr(0, 16)) ||
                    holds(first.out, before.substr(0, 16)))
            << "of the books before it was issued: " << first.out;
        EXPECT_TRUE(holds(first.err, "entry ")) << first.err;
        EXPECT_NE(head(), before);
        good("weigh s A1 '41.9 lb'");
        EXPECT_TRUE(holds(good(paper).out, "draft, not issued"));
        EXPECT_TRUE(holds(good(paper + " --issue").out, "Batch B-1, issue 2, "));
        EXPECT_EQ(good(paper + " --issue --json").json()["issue"], 3);
    }
    EXPECT_EQ(run("manifest s B-1 --issue --as-of 2026-09-14").code, 2) << "what was is only asked";
}

TEST_F(IssueTest, TagsAndSlipsSayWhichTheyAre) {
    good("register s A2 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' "
         "--manufactured 2024-01 --evacuated");
    const std::string tags = good("tag s A1 A2").out;
    EXPECT_TRUE(holds(tags, "Tag 1 of 2, draft, not issued, 2026-09-14 08:00, books at ")) << tags;
    EXPECT_TRUE(holds(tags, "Tag 2 of 2, draft, not issued, 2026-09-14 08:00, books at ")) << tags;
    const Answer first = good("tag s A1 A2 --issue");
    EXPECT_TRUE(holds(first.out, "Tag 1 of 2, issue 1, ")) << first.out;
    EXPECT_TRUE(holds(first.err, "Issued cylinder tag for cylinder:A2")) << first.err;
    EXPECT_TRUE(holds(good("tag s A2 --issue").out, "Tag 1 of 1, issue 2, "))
        << "each cylinder counts its own";
    EXPECT_EQ(good("tag s A1 --issue --json").json()[0]["issue"], 2);
    EXPECT_TRUE(good("tag s A1 --json").json()[0]["issue"].is_null());
    EXPECT_EQ(run("tag s A1 --issue --as-of 2026-09-14").code, 2) << "what was is only asked";
    good("person s 'MORGAN VALE'");
    good("checkout s --person 'MORGAN VALE' --purpose carry A2");
    EXPECT_TRUE(holds(good("slip s 'MORGAN VALE'").out,
                      "Slip of MORGAN VALE, draft, not issued, 2026-09-14 08:00, books at "));
    const Answer slip = good("slip s 'MORGAN VALE' --issue");
    EXPECT_TRUE(holds(slip.out, "Slip of MORGAN VALE, issue 1, ")) << slip.out;
    EXPECT_TRUE(holds(slip.err, "Issued check-out slip for person:MORGAN VALE")) << slip.err;
    EXPECT_EQ(good("slip s 'MORGAN VALE' --issue --json").json()["issue"], 2);
}
