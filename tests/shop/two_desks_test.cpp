// Two programs on one file: both look at the same cylinder before either of them hands it out. Exactly one
// does; the other is told who has it.
#include <sys/wait.h>
#include <unistd.h>

#include "core/shop/hand_out.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class TwoDesksTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
    }
    [[nodiscard]] std::string path() const { return (m_folder / "shop.tarebook").string(); }
    [[nodiscard]] std::unique_ptr<Shop> another(const std::string& name) {
        Environment other = environment();
        other.operatorName = name;
        other.freshId = [this, name] { return fmt::format("{}-{}", name, ++m_ids); };
        auto opened = Shop::open(path(), other);
        EXPECT_TRUE(opened.shop) << opened.error.text();
        return std::move(opened.shop);
    }
    static CheckOut of(const char* person) {
        CheckOut plan;
        plan.person = person;
        plan.serials = {"A102"};
        plan.purpose = Purpose::carry;
        return plan;
    }
};

constexpr int kRounds = 10;

} // namespace

TEST_F(TwoDesksTest, WhoLooksFirstAndWritesLastIsToldWhoHasIt) {
    const auto second = another("BACK DOOR");
    const auto mine = handOutDrafts(*m_shop, of("MORGAN VALE")); // looked at, not written yet
    const auto theirs = handOutDrafts(*second, of("JULES ARBOR"));
    EXPECT_EQ(second->record(theirs).outcome, Outcome::recorded);
    EXPECT_EQ(m_shop->record(mine).outcome, Outcome::notRecorded);
    const Recorded late = checkOut(*m_shop, of("MORGAN VALE"));
    EXPECT_EQ(late.outcome, Outcome::notRecorded);
    EXPECT_NE(late.error.text().find("JULES ARBOR"), std::string::npos) << late.error.text();
    // Taken back, it can go out again, to the same technician too.
    expectRecorded(m_shop->reverse(m_shop->store().headSeq(), "handed to nobody"));
    expectRecorded(checkOut(*m_shop, of("JULES ARBOR")));
    CheckIn back;
    back.serial = "A102";
    expectRecorded(checkIn(*m_shop, back));
    expectRecorded(checkOut(*m_shop, of("JULES ARBOR")));
    EXPECT_EQ(card(*second, "A102").value().state.holder, "JULES ARBOR");
}

TEST_F(TwoDesksTest, OfTwoProcessesExactlyOneHandsItOut) {
    for (int round = 0; round < kRounds; ++round) {
        int ready[2];
        ASSERT_EQ(pipe(ready), 0);
        const pid_t child = fork();
        const bool isChild = child == 0;
        bool done = false;
        {
            const auto desk = another(isChild ? "BACK DOOR" : "FRONT DOOR");
            char go = 0; // both have the shop open before either of them begins
            if (isChild) {
                (void)!write(ready[1], &go, 1);
            } else {
                (void)!read(ready[0], &go, 1);
            }
            done = desk && checkOut(*desk, of(isChild ? "MORGAN VALE" : "JULES ARBOR")).ok();
        }
        if (isChild) {
            _exit(done ? 1 : 0);
        }
        int status = 0;
        waitpid(child, &status, 0);
        close(ready[0]);
        close(ready[1]);
        ASSERT_TRUE(WIFEXITED(status));
        EXPECT_EQ((done ? 1 : 0) + WEXITSTATUS(status), 1) << "round " << round;
        const std::string holder = card(*m_shop, "A102").value().state.holder;
        EXPECT_EQ(holder, done ? "JULES ARBOR" : "MORGAN VALE");
        CheckIn back;
        back.serial = "A102";
        expectRecorded(checkIn(*m_shop, back));
    }
}
