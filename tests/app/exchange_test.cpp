// The verb that enters an exchange at a counter: one step, tried out first, entered later, and what it
// refuses. A pound is 0.45359237 kg exactly (NIST Handbook 44, Appendix C).
#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

class ExchangeVerbTest : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init s --zone America/Chicago");
        good("party s reclaimer 'Cape Reclaim'");
        good("party s supplier 'Estuary Supply'");
        good("system s HARBOR/DOCK-1 --customer 'Ansel Harbor' --refrigerant R-22");
        for (const char* serial : {"A1", "A2"}) {
            good(std::string("register s ") + serial +
                 " --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' "
                 "--manufactured 2024-01 --evacuated");
        }
        good("checkin s A1 --gross '37 lb' --from system:HARBOR/DOCK-1");
    }
    static std::string exchange(const std::string& out, const std::string& in, const std::string& more) {
        return "exchange s " + out + " " + in +
               " --specification DOT-4BA400 --water-capacity '26.2 lb' --tare '17 lb' "
               "--manufactured 2025-06 " +
               more;
    }
    [[nodiscard]] std::string head() { return good("verify s --json").json()["head"]; }
};

constexpr const char* kReclaimer = "--with 'reclaimer:Cape Reclaim' ";
constexpr const char* kSupplier = "--with 'supplier:Estuary Supply' ";

} // namespace

TEST_F(ExchangeVerbTest, IsTriedOutThenWrittenAndBothCardsSayIt) {
    const std::string before = head();
    const auto tried =
        good(exchange("A1", "B1",
                      std::string(kReclaimer) + "--gross '27 lb' --refrigerant r454b --dry-run --json"))
            .json();
    EXPECT_TRUE(tried["possible"].get<bool>());
    EXPECT_EQ(tried["entries"].size(), 5U);
    EXPECT_EQ(head(), before) << "nothing was written";
    const auto done =
        good(exchange("A1", "B1",
                      std::string(kReclaimer) + "--gross '27 lb' --refrigerant r454b --reclaimed --json"))
            .json();
    EXPECT_EQ(done["out"], "A1");
    EXPECT_EQ(done["in"], "B1");
    EXPECT_EQ(done["entries"].size(), 5U);
    const std::string batch = done["batch"];
    EXPECT_EQ(batch, tried["batch"]);
    const auto sent = good("batch show s " + batch + " --json").json();
    EXPECT_EQ(sent["status"], "shipped");
    const auto card = good("card s B1 --json").json();
    EXPECT_NEAR(card["net_kg"].get<double>(), 10 * 0.45359237, 1e-6); // 27 less 17
    EXPECT_NE(card["exchange"].dump().find("It came for A1 on"), std::string::npos)
        << card["exchange"].dump();
    EXPECT_NE(good("card s A1").out.find("B1 came for it on"), std::string::npos);
    EXPECT_NE(good("trace s --cylinder B1").out.find("It came for A1"), std::string::npos);
    good("verify s");
    // Taken back, the newest first.
    const auto entries = done["entries"];
    EXPECT_EQ(run(fmt::format("reverse s {} wrong", entries[1].get<int>())).code, 1);
    for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry) {
        good(fmt::format("reverse s {} wrong", entry->get<int>()));
    }
    EXPECT_EQ(run("card s B1").code, 1);
    good("verify s");
}

TEST_F(ExchangeVerbTest, RefusesWithTheOptionOrTheReason) {
    const std::string before = head();
    for (const auto& [call, says] :
         {std::pair{exchange("A1", "B1", kSupplier), "Estuary Supply is no reclaimer"},
          {exchange("A2", "B1", "--with 'customer:Ansel Harbor'"), "no counter"},
          {exchange("A9", "B1", kReclaimer), "A9"},
          {exchange("A2", "A1", kSupplier), "registered already"},
          {exchange("A2", "B1", std::string(kSupplier) + "--holds '5 lb'"), "--refrigerant"},
          {exchange("A2", "B1", std::string(kSupplier) + "--holds '5 lb' --gross '22 lb' --refrigerant R-22"),
           "--holds and --gross"},
          {exchange("A2", "B1", std::string(kSupplier) + "--gross '16 lb' --refrigerant R-22"),
           "--gross: it is not above the tare"},
          {exchange("A2", "B1", std::string(kSupplier) + "--owner nobody"), "--owner"},
          {exchange("A2", "B1", std::string(kSupplier) + "--occurred 'some day'"), "--occurred"}}) {
        for (const char* how : {"", " --dry-run"}) {
            const Answer refused = run(call + how);
            EXPECT_EQ(refused.code, 1) << call << how;
            EXPECT_NE(refused.err.find(says), std::string::npos) << refused.err;
        }
    }
    EXPECT_EQ(head(), before);
    EXPECT_EQ(run("exchange s A2 B1").code, 2);
}

TEST_F(ExchangeVerbTest, IsEnteredLaterUnlessTheOldOneWasStillHere) {
    good(exchange("A2", "B2", std::string(kSupplier) + "--place 'van 3' --owner 'rented: Estuary Supply'"));
    const auto card = good("card s B2 --json").json();
    EXPECT_EQ(card["owner"], "rented: Estuary Supply");
    m_now = "2030-01-05T12:00:00-06:00";
    good("weigh s A1 '37 lb'");
    const Answer early = run(exchange("A1", "B1", std::string(kReclaimer) + "--occurred '2030-01-04 09:00'"));
    EXPECT_EQ(early.code, 1);
    EXPECT_NE(early.err.find("A1 was still here on 2030-01-05"), std::string::npos) << early.err;
    m_now = "2030-01-06T12:00:00-06:00";
    good(exchange("A1", "B1", std::string(kReclaimer) + "--occurred '2030-01-05 17:00'"));
}
