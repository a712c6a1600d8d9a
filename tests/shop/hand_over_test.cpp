// Cylinders that go from technician to technician without coming back to the shop.
#include "core/shop/hand_over.h"

#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"
#include "tests/support/week_cylinders.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class HandOverTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerPeople(*m_shop));
        ASSERT_TRUE(registerCylinders(*m_shop, weekCylinders()).ok());
        CheckOut out;
        out.person = "MORGAN VALE";
        out.job = "J-1";
        out.serials = {"A102", "A104"};
        out.purpose = Purpose::carry;
        ASSERT_TRUE(checkOut(*m_shop, out).ok());
    }
    [[nodiscard]] std::string holder(const std::string& serial) {
        return card(*m_shop, serial).value().state.holder;
    }
    /// Why it is refused; empty when it is not, and then nothing may be recorded by asking.
    [[nodiscard]] std::string refusal(const HandOver& plan) {
        const Sequence before = m_shop->store().headSeq();
        const Recorded recorded = handOver(*m_shop, plan);
        EXPECT_EQ(m_shop->store().headSeq(), before);
        return recorded.error.wrong;
    }
};

} // namespace

TEST_F(HandOverTest, AllOrNone) {
    EXPECT_NE(refusal({{"A102", "A107"}, "JULES ARBOR", ""}).find("in the shop"), std::string::npos);
    EXPECT_EQ(holder("A102"), "MORGAN VALE");
    const Sequence before = m_shop->store().headSeq();
    ASSERT_TRUE(handOver(*m_shop, {{"A102", "A104", "A102"}, "JULES ARBOR", "J-2"}).ok());
    EXPECT_EQ(m_shop->store().headSeq(), before + 2) << "a cylinder that is scanned twice goes once";
    for (const char* serial : {"A102", "A104"}) {
        EXPECT_EQ(holder(serial), "JULES ARBOR");
        EXPECT_EQ(card(*m_shop, serial).value().state.job, "J-2");
    }
}

TEST_F(HandOverTest, RefusesWhatCannotBe) {
    EXPECT_NE(refusal({{"A102"}, "", ""}).find("echnician"), std::string::npos);
    EXPECT_NE(refusal({{"A102"}, "NOBODY", ""}).find("not in the register"), std::string::npos);
    EXPECT_NE(refusal({{}, "JULES ARBOR", ""}).find("ylinder"), std::string::npos);
    EXPECT_NE(refusal({{"A999"}, "JULES ARBOR", ""}), "");
    EXPECT_NE(refusal({{"A102"}, "MORGAN VALE", ""}).find("has it already"), std::string::npos);
}
