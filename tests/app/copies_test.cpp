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
    for (const char* said : {"", " --lose 2"}) {
        const Answer refused = run("restore '" + copy + "' s" + said);
        EXPECT_EQ(refused.code, 1);
        EXPECT_NE(refused.err.find("nothing was restored: one entry would be lost; say --lose 1"),
                  std::string::npos)
            << refused.err;
        EXPECT_NE(refused.err.find("Registered A102"), std::string::npos) << refused.err;
        EXPECT_EQ(good("verify s --json").json(), before);
    }
    const Answer done = good("restore '" + copy + "' s --lose 1");
    EXPECT_NE(done.out.find("kept as s.before-restore-1; the books have lost its last entry"),
              std::string::npos)
        << done.out;
    EXPECT_NE(done.out.find("Registered A102"), std::string::npos) << done.out;
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

TEST_F(CopiesTest, WhoeverSaysYesLosesThemAll) {
    good("backup s copy");
    enter("A102");
    enter("A103");
    EXPECT_EQ(run("restore copy s --lose 1 --yes").code, 2) << "one or the other";
    const auto done = good("restore copy s --yes --json").json();
    EXPECT_EQ(done["lost"], 2);
    EXPECT_EQ(done["lost_entries"].size(), 2U);
    EXPECT_EQ(done["kept"], "s.before-restore-1");
    EXPECT_EQ(good("fleet s.before-restore-1 --json").json().size(), 3U);
}

// As in the window: going back is for a manager (docs/who-did-it.md).
TEST_F(CopiesTest, WherePeopleSignInAManagerGoesBack) {
    write("boss", "four words no one guesses\n");
    write("hand", "seven others nobody knows\n");
    good("operator add s 'PAT KESTREL' manager --operator 'PAT KESTREL' --new-passphrase-file boss");
    good("operator add s 'MORGAN VALE' technician --operator 'PAT KESTREL' --passphrase-file boss "
         "--new-passphrase-file hand");
    good("backup s copy");
    const auto before = good("verify s --json").json();
    for (const char* who : {"", " --operator 'MORGAN VALE' --passphrase-file hand",
                            " --operator 'PAT KESTREL' --passphrase-file hand"}) {
        const Answer refused = run(std::string("restore copy s") + who);
        EXPECT_EQ(refused.code, 1) << who;
        EXPECT_NE(refused.err.find("manager"), std::string::npos) << refused.err;
        EXPECT_EQ(good("verify s --json").json(), before);
        EXPECT_FALSE(std::filesystem::exists(file("s.before-restore-1")));
    }
    good("restore copy s --operator 'PAT KESTREL' --passphrase-file boss");
    good("restore copy new"); // nobody's books are replaced
}

TEST_F(CopiesTest, RefusesWhatIsNone) {
    EXPECT_EQ(run("copies none").code, 1);
    EXPECT_EQ(run("restore none s --preview").code, 1);
    write("x", "no shop");
    const Answer refused = run("restore x s --preview");
    EXPECT_EQ(refused.code, 1);
    EXPECT_NE(refused.err.find("no shop file"), std::string::npos) << refused.err;
}
