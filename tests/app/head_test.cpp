// A head that somebody has on paper is part of these books, or is not: never believed for a digit or two,
// never disbelieved for how it was written down.
#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

class HeadTest : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init s --name 'Larkspur Mechanical' --zone America/Chicago");
        m_head = good("verify s --json").json()["head"];
        m_entry = good("verify s --json").json()["entries"];
        good("person s 'MORGAN VALE'");
    }
    static std::string upper(std::string text) {
        std::transform(text.begin(), text.end(), text.begin(),
                       [](unsigned char c) { return std::toupper(c); });
        return text;
    }

    std::string m_head;
    int m_entry = 0;
};

} // namespace

TEST_F(HeadTest, IsFoundHoweverItWasWrittenDown) {
    const std::string paper = m_head.substr(0, 16);
    for (const std::string& head : {m_head, paper, upper(paper), " " + paper, paper + "…", paper + "...",
                                    paper.substr(0, 4) + " " + paper.substr(4, 4) + " " + paper.substr(8)}) {
        const Answer answer = good("verify s --head '" + head + "'");
        EXPECT_TRUE(
            holds(answer.out, fmt::format("that of entry {}: those books are part of these", m_entry)))
            << head << answer.out;
        EXPECT_EQ(good("verify s --json --head '" + head + "'").json()["entry_of_head"], m_entry);
    }
}

TEST_F(HeadTest, TooFewDigitsOrNoneAreRefused) {
    for (const auto& [head, words] :
         {std::pair{m_head.substr(0, 1), "'" + m_head.substr(0, 1) + "' has 1 digits"},
          {m_head.substr(0, 15), "has 15 digits"},
          {std::string(), "no digest is given"},
          {std::string(" "), "no digest is given"},
          {std::string("entry 7"), "is no digest"},
          {m_head + "0", "is no digest"}}) {
        const Answer answer = run("verify s --head '" + head + "'");
        EXPECT_EQ(answer.code, 1) << head;
        EXPECT_TRUE(holds(answer.err, "--head: ") && holds(answer.err, words)) << answer.err;
        EXPECT_TRUE(holds(answer.err, "give all 16 digits")) << answer.err;
        EXPECT_TRUE(answer.out.empty()) << answer.out;
    }
}

TEST_F(HeadTest, AnotherHeadLeavesTheBooksSound) {
    const std::string other = (m_head[0] == '0' ? "1" : "0") + m_head.substr(1, 15);
    const Answer answer = run("verify s --head " + other);
    EXPECT_EQ(answer.code, 1);
    EXPECT_TRUE(holds(answer.out, "chain, balances, views and file are sound")) << answer.out;
    EXPECT_FALSE(holds(answer.out + answer.err, "NOT sound"));
    EXPECT_TRUE(holds(answer.err, "has a digest that begins with " + other)) << answer.err;
    const auto json = run("verify s --json --head " + other).json();
    EXPECT_EQ(json["sound"], true);
    EXPECT_EQ(json["ok"], false);
    EXPECT_TRUE(json["entry_of_head"].is_null());
}
