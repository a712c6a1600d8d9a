// As the books stood: every question has the answer that it had then, to the byte, whatever was entered
// since: backdated charges, a reversal, a shipment, another setting. What is compared with is a copy that was
// taken then, asked with the clock of then.
#include "tests/app/week_ctl.h"

using namespace tarebook::tests;

namespace {

class AsTheBooksStood : public AWeekAtTheCommandLine {
protected:
    void SetUp() override {
        AWeekAtTheCommandLine::SetUp();
        begin();
        playMonday();
        playTuesday();
        good("party s reclaimer 'Cape Reclaim' --number R-0417");
        const nlohmann::json newest = lastEntryOf("s");
        m_head = newest["seq"].get<int>();
        m_then = newest["recorded"].get<std::string>();
        good("backup s then");
        playWednesday();
        playLostTicket();
        good("setting s retest_notice_days 3650");
        playThursday();
        good("batch ship s B-1 --carrier 'Own van'");
        playReceipt();
    }
    [[nodiscard]] nlohmann::json lastEntryOf(const std::string& shop) const {
        std::istringstream lines(good("journal " + shop).out);
        std::string line;
        std::string last;
        while (std::getline(lines, line)) {
            last = line;
        }
        return nlohmann::json::parse(last, nullptr, false);
    }
    /// What the copy of then answers at that moment.
    [[nodiscard]] std::string then(const std::string& verb, const std::string& rest) const {
        return good(fmt::format("{} then {} --now {} --json", verb, rest, m_then)).out;
    }
    /// What the books of now answer as of then.
    [[nodiscard]] std::string now(const std::string& verb, const std::string& rest) const {
        return good(fmt::format("{} s {} --head {} --json", verb, rest, m_head)).out;
    }

    int m_head = 0;
    std::string m_then;
};

} // namespace

TEST_F(AsTheBooksStood, EveryQuestionHasTheAnswerItHadThen) {
    const std::string lot = std::to_string(m_monday);
    const std::vector<std::pair<std::string, std::string>> questions = {
        {"fleet", ""},
        {"fleet", "--find 'R-410A'"},
        {"fleet", "--on 2027-06-01"},
        {"alerts", ""},
        {"alerts", "--on 2026-11-01"},
        {"lots", ""},
        {"leaks", ""},
        {"disposals", "--month 2026-09"},
        {"van", "'MORGAN VALE'"},
        {"batch list", ""},
        {"batch candidates", ""},
        {"rules explain", "A105"},
        {"rules explain", "A101 --on 2026-10-01"},
        {"trace", "--entry " + lot},
        {"trace", "--cylinder A107"},
        {"who", "A102"},
        {"card", "A103"},
        {"balance", "--from 2026-09-01 --to 2026-09-30"},
        {"person", ""},
        {"system", ""},
        {"party", ""},
        {"machine", ""},
        {"blend", ""},
        {"setting", ""},
    };
    for (const auto& [verb, rest] : questions) {
        const std::string asked = now(verb, rest);
        EXPECT_EQ(asked, then(verb, rest)) << verb << ' ' << rest;
        EXPECT_EQ(asked, now(verb, rest)) << verb << ' ' << rest << ", asked again";
    }
    // The books of today say something else, or the test would see nothing.
    EXPECT_NE(good("fleet s --json").out, now("fleet", ""));
    EXPECT_NE(good("alerts s --json").out, now("alerts", ""));
    EXPECT_NE(good("setting s --json").out, now("setting", ""));
}

TEST_F(AsTheBooksStood, AuditorsRecordsAndPlansHaveTheAnswerOfThen) {
    write("jobs.csv", "technician,job,direction,system,mass\nMORGAN VALE,J-1,recover,HARBOR/DOCK-1,9 lb\n");
    std::vector<std::pair<std::string, std::string>> questions = {
        {"records", "--from 2026-09-01 --to 2026-09-30"},
        {"deposits", ""},
        {"attached", ""},
        {"identity", "A103 --measured '120 psig' --at '70 F'"},
        {"plan", "--system HARBOR/DOCK-1 --expected '9 lb'"},
        {"plan", "--jobs jobs.csv"},
        {"batch compose", "'Cape Reclaim'"},
        {"batch terms", "'Cape Reclaim'"},
        {"operator list", ""}};
    for (const auto& one : good("ask s --json").json()) {
        const std::string needs = one["needs"];
        const auto asks = [&needs](const char* what) { return needs.find(what) != std::string::npos; };
        questions.emplace_back("ask", one["name"].get<std::string>() +
                                          (asks("a cylinder")   ? " --cylinder A102"
                                           : asks("a system")   ? " --system ST-ALDER/RTU-3"
                                           : asks("a customer") ? " --customer 'St. Alder Schools'"
                                                                : ""));
    }
    EXPECT_GE(questions.size(), 9U + 28U);
    const auto answer = [this](const std::string& verb, const std::string& shop, const std::string& rest) {
        const Answer its = run(fmt::format("{} {} {} --json", verb, shop, rest));
        // A plan may be refused, with its reasons; whatever else is asked has an answer.
        EXPECT_LE(its.code, verb == "plan" ? 1 : 0) << verb << ' ' << rest << its.err;
        return its.out + its.err;
    };
    for (const auto& [verb, rest] : questions) {
        EXPECT_EQ(answer(verb, "s", fmt::format("{} --head {}", rest, m_head)),
                  answer(verb, "then", rest + " --now " + m_then))
            << verb << ' ' << rest;
    }
    // The books of today say something else, or the test would see nothing.
    EXPECT_NE(answer("ask", "s", "bought"), answer("ask", "then", "bought --now " + m_then));
    EXPECT_NE(answer("ask", "s", "held"), answer("ask", "then", "held --now " + m_then));
}

TEST_F(AsTheBooksStood, WhatWasIsOnlyAsked) {
    const std::string before = good("journal s").out;
    for (const std::string verb :
         {"person s 'Robin Ash'", "system s HARBOR/DOCK-9", "party s reclaimer 'Other Reclaim'",
          "machine s M-9", "batch terms s 'Cape Reclaim' --minimum '50 lb'",
          "batch terms s 'Cape Reclaim' --price clean=4.50/kg",
          "batch terms s 'Cape Reclaim' --exchange given",
          "blend s 'Shop blend 7' --parts R-290:60+R-600a:40", "setting s out_days 3"}) {
        const Answer refused = run(fmt::format("{} --head {}", verb, m_head));
        EXPECT_EQ(refused.code, 2) << verb;
        EXPECT_TRUE(holds(refused.err, "--head")) << refused.err;
    }
    EXPECT_EQ(good("journal s").out, before);
}

TEST_F(AsTheBooksStood, ADayStandsForItsLastEntry) {
    EXPECT_EQ(good("fleet s --as-of 2026-09-15 --json").out, now("fleet", ""));
    const Answer early = run("fleet s --as-of 2020-01-01");
    EXPECT_EQ(early.code, 1);
    EXPECT_TRUE(holds(early.err, "nothing was recorded by then")) << early.err;
    const Answer late = run("fleet s --head 99999");
    EXPECT_EQ(late.code, 1);
    EXPECT_TRUE(holds(late.err, "--head: there is no entry 99999")) << late.err;
}

TEST_F(AsTheBooksStood, LeavesNothingBehindAndChangesNothing) {
    const std::string before = good("journal s").out;
    std::filesystem::create_directories(m_folder / "tmp");
    m_before = "TMPDIR=" + file("tmp");
    EXPECT_FALSE(now("fleet", "").empty());
    EXPECT_TRUE(std::filesystem::is_empty(m_folder / "tmp"));
    EXPECT_EQ(good("journal s").out, before);
    m_before = "TMPDIR=" + file("missing");
    const Answer nowhere = run(fmt::format("fleet s --head {}", m_head));
    EXPECT_EQ(nowhere.code, 1);
    EXPECT_TRUE(holds(nowhere.err, "TMPDIR")) << nowhere.err;
}

TEST_F(AsTheBooksStood, TheChainUpToAHeadIsTheChainOfThen) {
    EXPECT_EQ(good(fmt::format("journal s --head {}", m_head)).out, good("journal then").out);
    EXPECT_TRUE(good("journal s").out.starts_with(good("journal then").out));
    EXPECT_NE(good("journal s").out, good("journal then").out);
    const auto newest = lastEntryOf("s")["seq"].get<int>();
    EXPECT_EQ(good(fmt::format("journal s --head {}", newest)).out, good("journal s").out);
    const Answer beyond = run(fmt::format("journal s --head {}", newest + 1));
    EXPECT_EQ(beyond.code, 1);
    EXPECT_TRUE(holds(beyond.err, fmt::format("1 to {}", newest))) << beyond.err;
    EXPECT_TRUE(beyond.out.empty());
    // At the end of the day on which it was recorded.
    const std::string ofDay = good("journal s --as-of " + m_then.substr(0, 10)).out;
    EXPECT_TRUE(good("journal s").out.starts_with(ofDay));
    EXPECT_TRUE(ofDay.starts_with(good("journal then").out));
    EXPECT_EQ(run("journal s --as-of 1999-01-01").code, 1);
}
