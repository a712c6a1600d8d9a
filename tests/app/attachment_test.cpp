// Photos and papers from the command line: kept, listed, written out again, taken back. Hashes are checked
// with sha256sum, another program.
#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

class AttachmentCtlTest : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init s --name 'Larkspur Mechanical' --zone America/Chicago");
        m_entry = good("register s A101 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' "
                       "--manufactured 2024-01 --evacuated --json")
                      .json()["entries"][0]
                      .get<int>();
        write("collar.jpg", m_photo);
    }
    int m_entry = 0; // of the registration
    std::string m_photo =
        "\xff\xd8\xff\xe0 a photo, \n with a nought " + std::string(1, '\0') + " and the rest";
};

} // namespace

TEST_F(AttachmentCtlTest, IsKeptAndWrittenOutAsItWas) {
    good(fmt::format("attach s {} collar.jpg --note 'the stamped collar'", m_entry));
    const auto listed = good("attached s --json").json();
    ASSERT_EQ(listed.size(), 1U);
    EXPECT_EQ(listed[0]["type"], "image/jpeg");
    EXPECT_EQ(listed[0]["about"], nlohmann::json({"cylinder:A101"}));
    write("sums", listed[0]["sha256"].get<std::string>() + "  collar.jpg\n");
    EXPECT_EQ(std::system(("cd '" + m_folder.string() + "' && sha256sum -c --quiet sums").c_str()), 0);
    const auto saved = good(fmt::format("attached s {} --save out --json", m_entry)).json();
    EXPECT_EQ(read(file(saved[0]["saved"])), m_photo);
    EXPECT_EQ(run(fmt::format("attached s {} --save out", m_entry)).code, 1)
        << "what is there is not written over";
    EXPECT_TRUE(good("verify s --json").json()["problems"].empty());
    EXPECT_NE(good("journal s").out.find(listed[0]["sha256"].get<std::string>()), std::string::npos);
}

TEST_F(AttachmentCtlTest, GoesAlongWithTheEvidence) {
    good(fmt::format("attach s {} collar.jpg", m_entry));
    const auto seq = good("attached s --json").json()[0]["attached_by"].get<int>();
    good("evidence s pack --cylinder A101");
    EXPECT_EQ(read(file(fmt::format("pack/attached/{}-collar.jpg", seq))), m_photo);
    EXPECT_EQ(std::system(("cd '" + m_folder.string() +
                           "/pack' && sha256sum -c --quiet SHA256SUMS && sh prove.sh > /dev/null")
                              .c_str()),
              0);
}

TEST_F(AttachmentCtlTest, IsTakenBackByReversingItsEntry) {
    good(fmt::format("attach s {} collar.jpg", m_entry));
    EXPECT_EQ(run(fmt::format("attach s {} collar.jpg", m_entry)).code, 1) << "it belongs there already";
    const auto seq = good("attached s --json").json()[0]["attached_by"].get<int>();
    good(fmt::format("reverse s {} 'another cylinder'", seq));
    EXPECT_EQ(good("attached s --json").json()[0]["withdrawn_by"], seq + 1);
    good(fmt::format("attach s {} collar.jpg", m_entry));
    EXPECT_EQ(good(fmt::format("attached s {} --json", m_entry)).json().size(), 2U);
    EXPECT_EQ(good(fmt::format("attached s --head {} --json", seq)).json()[0]["withdrawn_by"], nullptr)
        << "as the books stood then";
}

TEST_F(AttachmentCtlTest, WhatIsNoPaperIsRefused) {
    for (const std::string& arguments : {"1 missing.pdf", "1 s", "99 collar.jpg", "0 collar.jpg"}) {
        const Answer answer = run("attach s " + arguments);
        EXPECT_EQ(answer.code, 1) << arguments << answer.out << answer.err;
        EXPECT_FALSE(answer.err.empty());
    }
    good(fmt::format("attach s {} collar.jpg", m_entry));
    const auto seq = good("attached s --json").json()[0]["attached_by"].get<int>();
    EXPECT_EQ(run(fmt::format("attach s {} collar.jpg", seq)).code, 1) << "a paper has no papers";
    EXPECT_EQ(good("attached s").out.find("collar.jpg") == std::string::npos, false);
}
