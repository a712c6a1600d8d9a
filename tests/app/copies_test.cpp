// Copies of a shop file from the command line: listing, making, what going back would lose, going back.
#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

class CopiesTest : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init s --name 'Larkspur Mechanical' --zone America/Chicago");
        enter("A101");
    }
    void enter(const char* serial) const {
        good(fmt::format("register s {} --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' "
                         "--manufactured 2024-01 --evacuated",
                         serial));
    }
};

} // namespace

TEST_F(CopiesTest, KeepsOneWhereTheBooksHaveChanged) {
    EXPECT_EQ(good("copies s").out, "no copy has been kept yet\n");
    const auto first = good("copies s --keep --json").json();
    ASSERT_EQ(first.size(), 1U);
    EXPECT_EQ(first[0]["lost"], 0);
    EXPECT_EQ(first[0]["head"], good("verify s --json").json()["head"]);
    EXPECT_EQ(good("copies s --keep --json").json().size(), 1U) << "the same books once more";
}

TEST_F(CopiesTest, SaysWhatWouldBeLostAndGoesBack) {
    good("copies s --keep");
    enter("A102");
    const std::string copy = good("copies s --json").json()[0]["copy"];
    const auto before = good("verify s --json").json();
    const Answer told = good("restore '" + copy + "' s --preview");
    EXPECT_NE(told.out.find("the last entry would be lost"), std::string::npos) << told.out;
    EXPECT_NE(told.out.find("Registered A102"), std::string::npos) << told.out;
    EXPECT_EQ(good("verify s --json").json(), before) << "a preview changes nothing";
    const auto json = good("restore '" + copy + "' s --preview --json").json();
    EXPECT_EQ(json["lost"], 1);
    EXPECT_EQ(json["lost_entries"].size(), 1U);
    good("restore '" + copy + "' s");
    EXPECT_EQ(good("fleet s --json").json().size(), 1U);
    const auto kept = good("copies s --json").json();
    EXPECT_EQ(kept.size(), 2U) << "what was restored over is kept as well";
}

TEST_F(CopiesTest, OfAShopThatCannotBeReadTheCopiesAreStillListed) {
    good("copies s --keep");
    write("s", "nothing that could be a shop");
    const Answer listed = run("copies s --json");
    EXPECT_EQ(listed.json().size(), 1U) << listed.err;
    EXPECT_FALSE(listed.json()[0].contains("lost"));
    const std::string copy = listed.json()[0]["copy"];
    good("restore '" + copy + "' s");
    EXPECT_EQ(good("fleet s --json").json().size(), 1U);
}

TEST_F(CopiesTest, RefusesWhatIsNone) {
    EXPECT_EQ(run("copies none").code, 1);
    EXPECT_EQ(run("restore none s --preview").code, 1);
    write("x", "no shop");
    const Answer refused = run("restore x s --preview");
    EXPECT_EQ(refused.code, 1);
    EXPECT_NE(refused.err.find("no shop file"), std::string::npos) << refused.err;
}
