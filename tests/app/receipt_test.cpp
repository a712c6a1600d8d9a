// A reclaimer's receipt as a person types it or gets it as a sheet. 12 lb left in A1 and 4 lb in A2; a pound
// is 0.45359237 kg exactly (NIST Handbook 44, Appendix C).
#include "tests/app/week_ctl.h"

using namespace tarebook::tests;

namespace {

class ReceiptAtTheCommandLine : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init s --name 'Larkspur Mechanical' --address 'Port Ansel' --zone America/Chicago");
        good("party s reclaimer 'Cape Reclaim' --number R-0417");
        good("system s HARBOR/DOCK-1 --customer 'Ansel Harbor' --refrigerant R-22 --charge '60 lb'");
        for (const char* serial : {"A1", "A2"}) {
            good(std::string("register s ") + serial +
                 " --specification DOT-4BA400 --water-capacity '26.2 lb' --tare '17.0 lb' --manufactured "
                 "2024-10 --evacuated");
        }
        good("checkin s A1 --gross-before '17 lb' --gross '29 lb' --from system:HARBOR/DOCK-1");
        good("checkin s A2 --gross-before '17 lb' --gross '21 lb' --from system:HARBOR/DOCK-1");
        good("batch terms s 'Cape Reclaim' --currency USD --fee 20 --fee-each 1.50 --price clean=4.50/kg");
        good("batch prepare s 'Cape Reclaim' A1 A2 --name B-1");
        good("batch ship s B-1 --carrier 'own van'");
    }
};

} // namespace

// A1: 28.9 lb gross there, oil 0.4 lb off: 11.9 received, 11.5 lb = 5.216312 kg paid: x 4.50 = 23.47.
// A2: 21.0 - 17.0 = 4.0 lb = 1.814369 kg x 4.50 = 8.16. 23.47 + 8.16 - 20 - 3 = 8.63.
TEST_F(ReceiptAtTheCommandLine, ASheetIsReadComparedAndSettled) {
    write("r.csv", "Cylinder No,Gross wt (lb),Tare wt (lb),Oil (lb),Result\nA1,28.9,17.0,0.4,pass\n"
                   "A2,21.0,17.0,,pass\n");
    good("batch receive s B-1 --reference CR-1 --csv r.csv");
    const auto its = good("batch receipt s B-1 --json").json();
    EXPECT_NEAR(pounds(its["shipped_kg"]), 16.0, 1e-5);
    EXPECT_NEAR(pounds(its["received_kg"]), 15.9, 1e-5);
    EXPECT_NEAR(pounds(its["payable_kg"]), 15.5, 1e-5);
    EXPECT_EQ(its["credit"], "8.63");
    EXPECT_EQ(its["certificate"], "awaited");
    EXPECT_EQ(its["lines"][0]["deductions"][0]["what"], "oil");
    EXPECT_FALSE(its["lines"][0]["beyond"].get<bool>());
    const auto text = good("batch receipt s B-1").out;
    EXPECT_TRUE(holds(text, "A1: 11.5 lb clean at 4.50/kg = 23.47 USD")) << text;
    // An empty came for A1, at 3.00: 5.63.
    good("batch terms s 'Cape Reclaim' --exchange given --exchange-fee 3 --exchange-sizes 'up to 26.2 lb'");
    good("batch settle s B-1 --gone A1 --came 'A1,A9,DOT-4BA400,26.2 lb,16.9 lb,2026-05'");
    EXPECT_EQ(good("batch receipt s B-1 --json").json()["settled"]["credit_hundredths"], 563);
    good("batch certificate s B-1 C-7");
    EXPECT_EQ(good("batch receipt s B-1 --json").json()["certificate"], "C-7");
    EXPECT_EQ(good("card s A9 --json").json()["serial"], "A9");
}

// Their sheet calls the gross 'Scale' and has the tare that they stamped in 'Tare'; the one they used is
// 'Empty'.
TEST_F(ReceiptAtTheCommandLine, TheColumnsOfASheetArePutRight) {
    write("r.csv", "Cyl,Scale,Tare,Empty,New one\nA1,29.0,12.0,17.0,A9\nA2,21.0,12.0,17.0,\n");
    const Answer guessed = run("batch receive s B-1 --csv r.csv");
    EXPECT_EQ(guessed.code, 1);
    EXPECT_TRUE(holds(guessed.err, "gross")) << guessed.err;
    const Answer wrong = run("batch receive s B-1 --csv r.csv --column gross=Weight");
    EXPECT_EQ(wrong.code, 1);
    EXPECT_TRUE(holds(wrong.err, "--column: the sheet has no column 'Weight'")) << wrong.err;
    EXPECT_EQ(run("batch receive s B-1 --line 'A1,29 lb,17 lb' --column gross=Scale").code, 2);
    const Answer received = good("batch receive s B-1 --csv r.csv --column gross=scale --column tare=Empty "
                                 "--column 'exchange=New one'");
    EXPECT_TRUE(holds(received.out, "[batch.exchange-unforeseen]")) << received.out;
    const auto its = good("batch receipt s B-1 --json").json();
    EXPECT_NEAR(pounds(its["received_kg"]), 16.0, 1e-5);
    EXPECT_EQ(its["lines"][0]["exchange"], "A9");
    EXPECT_TRUE(its["credit"].is_null());
    EXPECT_TRUE(holds(good("batch receipt s B-1").out, "A9 was given for A1"));
    EXPECT_TRUE(holds(good("alerts s").out, "A9 came in exchange for A1"));
    good("batch decide s B-1 --accept A1");
    EXPECT_FALSE(holds(good("alerts s").out, "A9 came in exchange for A1"));
}

TEST_F(ReceiptAtTheCommandLine, AnEmptyThatIsDueIsAskedForUntilItIsNamed) {
    good("batch terms s 'Cape Reclaim' --exchange given --exchange-fee 12");
    EXPECT_TRUE(holds(good("manifest s B-1").out,
                      "Cape Reclaim gives an empty in exchange for A1, A2, at 12.00 USD each."));
    good("batch receive s B-1 --line 'A1,29 lb,17 lb' --line 'A2,21 lb,17 lb' --exchange A1=A9");
    const auto alerts = good("alerts s").out;
    EXPECT_TRUE(holds(alerts, "No empty is named for A2")) << alerts;
    EXPECT_FALSE(holds(alerts, "No empty is named for A1")) << alerts;
    EXPECT_EQ(run("batch receive s B-1 --line 'A1,29 lb,17 lb' --exchange A1").code, 1);
    EXPECT_TRUE(holds(good("card s A2").out, "an empty is due in exchange, at 12.00 USD"));
}

// 29.0 lb are 13.154 kg and 17.0 lb 7.711 kg: written as pounds, 5.443 lb against 12 lb.
TEST_F(ReceiptAtTheCommandLine, ASlipIsNamedDisputedAndCorrected) {
    good("batch receive s B-1 --line 'A1,13.154 lb,7.711 lb,99.8 %, dry' --line 'A2,21 lb,17 lb' "
         "--certificate C-1");
    const auto its = good("batch receipt s B-1 --json").json();
    EXPECT_EQ(its["lines"][0]["causes"][0]["cause"], "unit slip");
    EXPECT_EQ(its["lines"][0]["analysis"], "99.8 %, dry");
    EXPECT_EQ(run("batch decide s B-1 --dispute A1").code, 1);
    good("batch decide s B-1 --dispute 'A1,which unit, please' --accept A2");
    EXPECT_EQ(run("batch settle s B-1").code, 1);
    EXPECT_TRUE(holds(good("batch receipt s B-1").out, "disputed: which unit, please"));
    EXPECT_EQ(run("batch decide s B-1 --accept A1 --dispute 'A1,no'").code, 1);
    EXPECT_EQ(run("batch decide s B-1 --correct 'A1,999999 lb,17 lb'").code, 1);
    good("batch decide s B-1 --correct A1");
    EXPECT_NEAR(pounds(good("batch receipt s B-1 --json").json()["lines"][0]["received_kg"]), 12.0, 1e-3);
    good("batch settle s B-1");
}

// 28.0 - 17.0 = 11.0 lb against 12.0: beyond the shop's 0.3 lb. A2 is still to come.
TEST_F(ReceiptAtTheCommandLine, APartIsCalledAPartAndItsDifferenceIsSaidAndStaysInTheAlerts) {
    EXPECT_TRUE(holds(good("batch list s").out, "shipped"));
    const auto said = good("batch receive s B-1 --line 'A1,28 lb,17 lb' --certificate C-1").out;
    EXPECT_TRUE(holds(said, "Undecided: A1: 1.0 lb less than shipped. [batch.difference]")) << said;
    EXPECT_TRUE(holds(good("batch list s").out, "received in part"));
    EXPECT_TRUE(holds(good("batch show s B-1").out, "received in part"));
    EXPECT_TRUE(holds(good("batch receipt s B-1").out, "received in part"));
    EXPECT_EQ(good("batch show s B-1 --json").json()["status"], "received in part");
    EXPECT_TRUE(holds(good("alerts s").out, "Undecided: A1: 1.0 lb less than shipped."));
    good("batch decide s B-1 --accept A1");
    EXPECT_FALSE(holds(good("alerts s").out, "Undecided"));
    good("batch receive s B-1 --line 'A2,21 lb,17 lb'");
    EXPECT_EQ(good("batch show s B-1 --json").json()["status"], "received");
}

TEST_F(ReceiptAtTheCommandLine, WhatCannotBeReadIsNamedAndNothingIsEntered) {
    write("r.csv", "serial,gross,tare\nA1,heavy,17 lb\nA2,21 lb,17 lb\n");
    const Answer refused = run("batch receive s B-1 --csv r.csv");
    EXPECT_EQ(refused.code, 1);
    EXPECT_TRUE(holds(refused.err, "r.csv:2: gross:")) << refused.err;
    EXPECT_EQ(run("batch receipt s B-1").code, 1) << "no receipt yet";
    EXPECT_EQ(run("batch receive s B-1").code, 1);
    EXPECT_EQ(run("batch receive s B-1 --line A1,29").code, 1);
    EXPECT_EQ(run("batch receive s B-1 --line 'A1,29 lb,17 lb' --take-off 'A2,oil,1 lb'").code, 1);
    EXPECT_EQ(run("batch receive s B-1 --line 'A1,29 lb,17 lb' --take-off 'A1,oil,13 lb'").code, 1);
    EXPECT_EQ(run("batch receive s B-1 --line 'A1,29 lb,17 lb' --result A1=fine").code, 1);
    EXPECT_EQ(good("batch show s B-1 --json").json()["status"], "shipped");
}
