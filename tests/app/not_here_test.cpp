// What the command line says of cylinders that are not in the shop by the books, and of days that cannot be.
#include "tests/app/week_ctl.h"

using namespace tarebook::tests;

namespace {

class NotHereAtTheCommandLine : public AWeekAtTheCommandLine {
protected:
    void SetUp() override {
        AWeekAtTheCommandLine::SetUp();
        begin();
    }
    /// Sums of the fleet and of the balance, as they are printed.
    std::pair<double, double> sums() {
        double listed = 0;
        for (const auto& row : good("fleet s --json").json()) {
            listed += row["net_kg"].get<double>();
        }
        double closing = 0;
        for (const auto& row : good("balance s --from 2026-09-01 --to 2026-09-30 --json").json()) {
            closing += row["closing"].get<double>();
        }
        return {listed, closing};
    }
};

} // namespace

TEST_F(NotHereAtTheCommandLine, ASoldCylinderIsAskedAboutAndStaysInSight) {
    good("retire s A102 sold");
    EXPECT_FALSE(holds(good("fleet s").out, "A102"));
    const char* recovery = "checkin s A102 --mass '3 lb' --from system:ST-ALDER/RTU-3";
    EXPECT_TRUE(holds(good(std::string(recovery) + " --dry-run").out, "[custody.left-fleet]"));
    const std::string told = good(recovery).out;
    EXPECT_TRUE(holds(told, "It left the fleet on 2026-09-14: sold.")) << told;
    EXPECT_TRUE(holds(good("alerts s").out, "It left the fleet on 2026-09-14: sold. By the books 3.0 lb"));
    EXPECT_TRUE(holds(good("fleet s").out, "A102"));
    EXPECT_TRUE(holds(good("weigh s A102 '31.1 lb'").out, "[custody.left-fleet]"));
    EXPECT_NEAR(sums().first, sums().second, 1e-5);
}

TEST_F(NotHereAtTheCommandLine, NothingHappensBeforeItWasMade) {
    const Answer refused =
        run("checkin s A103 --mass '1 lb' --from system:HARBOR/DOCK-1 --occurred '1999-05-01 10:00'");
    EXPECT_EQ(refused.code, 1);
    EXPECT_TRUE(holds(refused.err, "A103 was made in 2024-10: nothing can have happened to it on 1999-05-01"))
        << refused.err;
    EXPECT_EQ(run("decant s A103 A107 '1 lb' --occurred '2025-01-31 10:00'").code, 1); // A107: 2025-02
}
