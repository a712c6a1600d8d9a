// Terms of a reclaimer and the best batch by them, as a person types them. 12 lb at 4.50 a kilogram:
// 12 x 0.45359237 x 4.50 = 24.49.
#include "tests/app/week_ctl.h"

using namespace tarebook::tests;

namespace {

class ComposeAtTheCommandLine : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init s --name 'Larkspur Mechanical' --address 'Port Ansel' --zone America/Chicago");
        good("party s reclaimer 'Cape Reclaim' --number R-0417");
        good("system s HARBOR/DOCK-1 --customer 'Ansel Harbor' --refrigerant R-22 --charge '60 lb'");
        for (const char* serial : {"A1", "A2", "A3"}) {
            good(std::string("register s ") + serial +
                 " --specification DOT-4BA400 --water-capacity '26.2 lb' --tare '17.0 lb' --manufactured "
                 "2024-10 --evacuated");
        }
        good("checkin s A1 --gross-before '17 lb' --gross '29 lb' --from system:HARBOR/DOCK-1");
        good("checkin s A2 --gross-before '17 lb' --gross '21 lb' --from system:HARBOR/DOCK-1");
    }
};

} // namespace

TEST_F(ComposeAtTheCommandLine, TermsAreNotKnownUntilTheyAreEntered) {
    EXPECT_TRUE(good("batch terms s 'Cape Reclaim' --json").json()["terms"].empty());
    EXPECT_TRUE(holds(good("batch terms s 'Cape Reclaim'").out, "not known"));
    good("batch terms s 'Cape Reclaim' --minimum '10 lb' --mixed-from '2 %' --currency USD --fee 20 "
         "--fee-each 1.50 --accept mixed=apart --accept unknown=refused --price clean=4.50/kg --price "
         "mixed=-2/lb");
    const auto terms = good("batch terms s 'Cape Reclaim' --json").json()["terms"];
    EXPECT_EQ(terms["minimum_mg"], 4'535'924);
    EXPECT_EQ(terms["mixed_from_ppm"], 20'000);
    EXPECT_EQ(terms["kinds"]["mixed"]["price_hundredths"], -200);
    EXPECT_EQ(terms["kinds"]["mixed"]["per"], "lb");
    good("batch terms s 'Cape Reclaim' --minimum 'not known'");
    const auto less = good("batch terms s 'Cape Reclaim' --json").json()["terms"];
    EXPECT_FALSE(less.contains("minimum_mg"));
    EXPECT_EQ(less["fee_hundredths"], 2'000) << "the others stay";
    EXPECT_TRUE(holds(good("journal s").out, "minimum_mg"));
}

TEST_F(ComposeAtTheCommandLine, TheBestBatchWithItsDecantsAndWhatStays) {
    good("batch terms s 'Cape Reclaim' --currency USD --fee 20 --fee-each 1.50 --price clean=4.50/kg");
    const auto its = good("batch compose s 'Cape Reclaim' --json").json();
    EXPECT_EQ(its["as_they_stand"]["serials"], nlohmann::json({"A1", "A2"}));
    EXPECT_EQ(its["as_they_stand"]["packages"], 2);
    EXPECT_NEAR(pounds(its["as_they_stand"]["gross_kg"]), 50, 1e-5);
    EXPECT_EQ(its["lines"][0]["price"], "24.49");
    EXPECT_EQ(its["credit"], "9.65") << "24.49 + 8.16 - 20 - 2 x 1.50: 4 lb are 1.81436948 kg";
    EXPECT_EQ(its["consolidated"]["packages"], 1);
    EXPECT_EQ(its["consolidated"]["decants"][0]["from"], "A2");
    EXPECT_EQ(its["consolidated"]["decants"][0]["to"], "A1");
    const auto text = good("batch compose s 'Cape Reclaim' --on 2026-09-20").out;
    EXPECT_TRUE(holds(text, "For Cape Reclaim on 2026-09-20: 2 cylinders, 16.0 lb net, 50.0 lb gross"))
        << text;
    EXPECT_TRUE(holds(text, "4.0 lb from A2 into A1")) << text;
    EXPECT_TRUE(holds(good("batch compose s 'Cape Reclaim' --most 1").out, "A2 stays:"));
}

TEST_F(ComposeAtTheCommandLine, WhatIsWrongIsNamed) {
    struct Wrong {
        const char* arguments;
        const char* named;
        const char* right;
    };
    for (const Wrong& wrong :
         {Wrong{"batch terms s 'Cape Reclam'", "'Cape Reclam'", "did you mean Cape Reclaim"},
          Wrong{"batch terms s 'Cape Reclaim' --minimum heavy", "--minimum", "lb"},
          Wrong{"batch terms s 'Cape Reclaim' --mixed-from 200", "--mixed-from", "2 %"},
          Wrong{"batch terms s 'Cape Reclaim' --currency dollars", "--currency", "USD"},
          Wrong{"batch terms s 'Cape Reclaim' --fee 5", "currency", "USD"},
          Wrong{"batch terms s 'Cape Reclaim' --fee -5", "--fee", "25.00"},
          Wrong{"batch terms s 'Cape Reclaim' --accept sour=taken", "--accept", "burn-out"},
          Wrong{"batch terms s 'Cape Reclaim' --price clean=4.5", "--price", "4.50/kg"},
          Wrong{"batch compose s Nobody", "'Nobody'", "enter it first"},
          Wrong{"batch compose s 'Cape Reclaim' --kind sour", "--kind", "burn-out"},
          Wrong{"batch compose s 'Cape Reclaim' --on never", "--on", "2026"}}) {
        const Answer answer = run(wrong.arguments);
        EXPECT_EQ(answer.code, 1) << wrong.arguments;
        EXPECT_TRUE(holds(answer.err, wrong.named) && holds(answer.err, wrong.right)) << answer.err;
    }
    EXPECT_EQ(run("batch compose s 'Cape Reclaim' --most few").code, 2);
}
