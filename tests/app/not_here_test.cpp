// What the command line says of cylinders that are not in the shop by the books.
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
