// Who did it, at the command line: verbs, passphrases from files and variables, exit codes.
#include <sys/stat.h>

#include "tests/app/week_ctl.h"

using namespace tarebook::tests;

namespace {

class OperatorsAtTheCommandLine : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        write("pat.txt", "four quiet blue valves\n");
        write("robin.txt", "a heel of nine pounds\r\nsecond line\n");
        write("wrong.txt", "something else\n");
        write("empty.txt", "\n");
        good("init s --name Larkspur");
    }
    void beginWithTwo() {
        good("operator add s 'PAT KESTREL' manager --new-passphrase-file pat.txt");
        good(pat("operator add s 'ROBIN ALDER' technician --new-passphrase-file robin.txt"));
    }
    [[nodiscard]] static std::string pat(const std::string& verb) {
        return verb + " --operator 'PAT KESTREL' --passphrase-file pat.txt";
    }
    [[nodiscard]] static std::string robin(const std::string& verb) {
        return verb + " --operator 'ROBIN ALDER' --passphrase-file robin.txt";
    }
    void expectRefused(const std::string& verb, const std::string& part, int code = 1) const {
        const Answer answer = run(verb);
        EXPECT_EQ(answer.code, code) << verb;
        EXPECT_TRUE(holds(answer.err, part)) << verb << "\n" << answer.err;
        EXPECT_FALSE(holds(answer.err + answer.out, "quiet")) << "a passphrase is never repeated";
    }
};

} // namespace

TEST_F(OperatorsAtTheCommandLine, WithoutOperatorsNothingChanges) {
    EXPECT_TRUE(holds(good("operator list s").out, "nobody signs in"));
    EXPECT_EQ(good("operator list s --json").json(), nlohmann::json::array());
    good("party s supplier Nordgas");
}

TEST_F(OperatorsAtTheCommandLine, EveryEntryNeedsWhoeverMakesIt) {
    expectRefused("operator add s 'ROBIN ALDER' technician --new-passphrase-file robin.txt",
                  "must be a manager");
    beginWithTwo();
    const auto list = good("operator list s --json").json();
    ASSERT_EQ(list.size(), 2U);
    EXPECT_EQ(list[0]["name"], "PAT KESTREL");
    EXPECT_EQ(list[1]["role"], "technician");
    good("fleet s"); // reading asks for nothing: whoever reads the file reads it
    expectRefused("party s supplier Nordgas --operator 'PAT KESTREL'", "--passphrase-file");
    expectRefused("party s supplier Nordgas --passphrase-file pat.txt", "does not sign in");
    expectRefused("party s supplier Nordgas --operator 'PAT KESTREL' --passphrase-file wrong.txt",
                  "the passphrase is wrong; 4 tries left");
    expectRefused("fleet s --operator 'PAT KESTREL' --passphrase-file wrong.txt", "3 tries left");
    expectRefused("party s supplier Nordgas --operator 'PAT KESTREL' --passphrase-file none.txt",
                  "--passphrase-file: 'none.txt' cannot be read");
    good(pat("party s supplier Nordgas"));
    expectRefused(robin("party s supplier Nordgas"), "ROBIN ALDER, technician, may not enter this");
    const auto journal = good("journal s").out;
    EXPECT_TRUE(holds(journal, "\"operator\":\"PAT KESTREL\""));
    EXPECT_FALSE(holds(journal, "quiet"));
    EXPECT_FALSE(holds(journal, "argon"));
    good("verify s");
}

TEST_F(OperatorsAtTheCommandLine, AVariableServesAsWell) {
    beginWithTwo();
    m_before = "TAREBOOK_PASSPHRASE='four quiet blue valves'";
    good("party s supplier Nordgas --operator 'PAT KESTREL'");
    m_before = "TAREBOOK_PASSPHRASE='four quiet blue valves' TAREBOOK_NEW_PASSPHRASE='nine pounds of heel'";
    good("operator passphrase s 'ROBIN ALDER' --operator 'PAT KESTREL'");
    m_before = "TAREBOOK_PASSPHRASE='nine pounds of heel'";
    good("operator passphrase s --operator 'ROBIN ALDER' --new-passphrase-file robin.txt");
    m_before.clear();
    expectRefused(robin("operator passphrase s 'PAT KESTREL' --new-passphrase-file robin.txt"), "may not");
    expectRefused(robin("operator passphrase s --new-passphrase-file empty.txt"), "passphrase");
}

TEST_F(OperatorsAtTheCommandLine, RolesAndRemoval) {
    beginWithTwo();
    expectRefused(pat("operator role s 'ROBIN ALDER' owner"), "ROLE: 'owner' is no role");
    expectRefused(pat("operator role s 'PAT KESTREL' auditor"), "nobody would be a manager");
    EXPECT_TRUE(holds(good(pat("operator role s 'ROBIN ALDER' storekeeper")).out,
                      "ROBIN ALDER signs in as storekeeper"));
    good(robin("party s supplier Nordgas"));
    expectRefused(robin("setting s out_days 21"), "a manager may");
    EXPECT_TRUE(holds(good(pat("operator remove s 'ROBIN ALDER'")).out, "no longer signs in"));
    expectRefused(robin("party s supplier Nordgas"), "does not sign in");
    expectRefused(pat("operator remove s NOBODY"), "does not sign in");
    expectRefused("operator nonsense s", "", 2);
    expectRefused("operator add s", "", 2);
}

TEST_F(OperatorsAtTheCommandLine, AnotherClockDoesNotEndTheWait) {
    beginWithTwo();
    for (int tries = 0; tries < 5; ++tries) {
        EXPECT_EQ(run("fleet s --operator 'PAT KESTREL' --passphrase-file wrong.txt").code, 1);
    }
    expectRefused(pat("fleet s"), "5 wrong tries in a row; try again in");
    m_now = "2027-09-14T08:00:00-05:00";
    expectRefused(pat("fleet s"), "5 wrong tries in a row; try again in");
    good("fleet s");
}

TEST_F(OperatorsAtTheCommandLine, FilesAreTheOwnersAlone) {
    good("backup s copy");
    for (const char* name : {"s", "copy"}) {
        struct stat its {};
        ASSERT_EQ(::stat(file(name).c_str(), &its), 0);
        EXPECT_EQ(its.st_mode & 0777U, 0600U) << name;
    }
}
