#include "tests/rules/limits_fixture.h"

using namespace tarebook;

// Sources: 49 CFR 173.301(a)(8) (5/4 of the marked service pressure at 55 degC), 173.304a(a)(2) (rows),
// 173.301a(b) (unmarked 3: 1800 psig); pressures of tests/standards/limits/pressure-rating-55C.csv.

// B1. 500.0 >= 484.2 psig: passes; 4BA350: 437.5 < 484.2: fails.
TEST(PressureClass, R410aNeedsTheFourHundredClass) {
    const PressureVerdict higher = classOf("DOT-4BA400", "R-410A");
    EXPECT_TRUE(higher.suits);
    EXPECT_FALSE(higher.thin);
    EXPECT_NEAR(higher.limit->psi(), 500, 1e-9);
    EXPECT_NEAR(higher.at55->psi(), 484.1, 484.1 * 0.015);
    const PressureVerdict lower = classOf("DOT-4BA350", "R-410A");
    EXPECT_FALSE(lower.suits);
    EXPECT_NEAR(lower.limit->psi(), 437.5, 1e-9);
    ASSERT_EQ(lower.findings("cylinder:A104").size(), 1U);
    EXPECT_EQ(lower.findings("cylinder:A104").front().severity, Severity::danger);
}

// B2. 500.0 against 495.8 psig: passes by 0.8 %, less than property sources differ by.
TEST(PressureClass, R32PassesByAThinMargin) {
    const PressureVerdict verdict = classOf("DOT-4BA400", "R-32");
    EXPECT_TRUE(verdict.suits);
    EXPECT_TRUE(verdict.thin);
    EXPECT_NEAR(verdict.at55->psi(), 495.8, 0.8);
    ASSERT_EQ(verdict.findings("").size(), 1U);
    EXPECT_EQ(verdict.findings("").front().rule, "pressure.thin");
}

// B4. Bubble, not dew: 345.2 psig; 4BW260 325.0 fails, 4BW300 375.0 passes.
TEST(PressureClass, R407cByItsBubblePressure) {
    EXPECT_FALSE(classOf("DOT-4BW260", "R-407C").suits);
    EXPECT_TRUE(classOf("DOT-4BW300", "R-407C").suits);
    EXPECT_NEAR(classOf("DOT-4BW300", "R-407C").at55->psi(), 345.2, 345.2 * 0.015);
}

// B5. 5/4 x 240 = 300.0 against computed 300.8 psig: the row allows 240 all the same, and does not allow 225.
TEST(PressureClass, TheNamedRowOfR22Wins) {
    const PressureVerdict verdict = classOf("DOT-4BA240", "R-22");
    EXPECT_TRUE(verdict.suits);
    EXPECT_TRUE(verdict.thin);
    EXPECT_EQ(verdict.rule, "pressure.named-row");
    EXPECT_EQ(verdict.citation, "49 CFR 173.304a(a)(2) Table 1");
    EXPECT_GT(*verdict.at55, *verdict.limit);
    EXPECT_FALSE(classOf("DOT-4BA225", "R-22").suits);
    EXPECT_FALSE(classOf("DOT-4BA480", "R-717").suits);
    EXPECT_TRUE(classOf("DOT-4AA480", "R-717").suits);
}

// R-152a and R-142b: 150 psig suffices a 4B, but 4BA and 4BW begin at 225.
TEST(PressureClass, TheFloorDiffersByLetter) {
    EXPECT_TRUE(classOf("DOT-4B150", "R-152a").suits);
    EXPECT_FALSE(classOf("DOT-4BA150", "R-152a").suits);
    EXPECT_TRUE(classOf("DOT-4BA225", "R-142b").suits);
}

// B6. 5/4 x 225 = 281.3 >= 201.6 psig, but the generic row of nonflammable refrigerants begins at 240 (a
// reading). R-1234yf burns (A2L) and has no such floor.
TEST(PressureClass, TheGenericRowHasAFloor) {
    const PressureVerdict verdict = classOf("DOT-4B225", "R-134a");
    EXPECT_FALSE(verdict.suits);
    EXPECT_EQ(verdict.rule, "pressure.generic-row");
    EXPECT_EQ(verdict.firmness, Firmness::reading);
    EXPECT_TRUE(classOf("DOT-4B240", "R-134a").suits);
    EXPECT_TRUE(classOf("DOT-4B225", "R-1234yf").suits);
    EXPECT_TRUE(classOf("DOT-4BA240", "R-290").suits);
}

// The generic row is for what is not of Division 2.1 (49 CFR 173.115(a), US-FL-27 of the reference):
// R-1234ze(E) is A2L by ASHRAE 34 and UN3163, 2.2, for carriage, so the 240 psig hold for it.
TEST(PressureClass, TheGenericRowGoesByTheDivisionForCarriage) {
    for (const char* mark : {"DOT-4B225", "DOT-4B240ET", "DOT-4AA480"}) {
        EXPECT_FALSE(classOf(mark, "R-1234ze(E)").suits) << mark;
        EXPECT_EQ(classOf(mark, "R-1234ze(E)").rule, "pressure.generic-row") << mark;
    }
    EXPECT_TRUE(classOf("DOT-4BA240", "R-1234ze(E)").suits);
    EXPECT_FALSE(classOf("DOT-4B225", "R-1234ze(E):0.99+R-134a:0.01").suits);
}

// Packagings of the rows for liquefied petroleum gas: 3, 3A, 3AA, 3B, 3E, 3AL, 4B, 4BA, 4B240ET, 4BW, 4E, 39
// (49 CFR 173.304a(d)(1), (d)(3)); no other, and no limit for one.
TEST(PressureClass, PetroleumGasOnlyInWhatItsRowsList) {
    for (const char* mark : {"DOT-4AA480", "DOT-4L500", "DOT-3AX1800", "DOT-4DA500"}) {
        for (const char* gas : {"R-290", "R-600a", "R-1270"}) {
            const PressureVerdict verdict = classOf(mark, gas);
            EXPECT_FALSE(verdict.suits) << mark << ' ' << gas;
            EXPECT_FALSE(limitOf(mark, "26.2 lb", gas)) << mark << ' ' << gas;
        }
        EXPECT_EQ(classOf(mark, "R-290").rule, "pressure.petroleum-row") << mark;
        EXPECT_EQ(classOf(mark, "R-290").citation, "49 CFR 173.304a(d)(1) and (d)(3)") << mark;
    }
    for (const char* mark : {"DOT-3A1800", "DOT-3AA1800", "DOT-3AL1800", "DOT-3B400", "DOT-4B240",
                             "DOT-4BA240", "DOT-4B240ET", "DOT-4BW240", "DOT-4E240"}) {
        EXPECT_TRUE(classOf(mark, "R-290").suits) << mark;
        EXPECT_TRUE(limitOf(mark, "26.2 lb", "R-290")) << mark;
    }
}

// 4E never for mixtures with material of Division 2.3 (49 CFR 173.304a(a)(1), US-FL-15); sulphur dioxide
// is 2.3.
TEST(PressureClass, NoToxicMixtureInAluminiumOf4E) {
    const PressureVerdict verdict = classOf("DOT-4E400", "R-22:0.9+R-764:0.1");
    EXPECT_FALSE(verdict.suits);
    EXPECT_EQ(verdict.rule, "pressure.toxic-mixture");
    EXPECT_FALSE(limitOf("DOT-4E400", "26.2 lb", "R-22:0.9+R-764:0.1"));
    EXPECT_NE(classOf("DOT-4BA400", "R-22:0.9+R-764:0.1").rule, "pressure.toxic-mixture");
    EXPECT_TRUE(classOf("DOT-4E400", "R-22").suits);
}

// What is refused is cited from the rulebook that refuses: the Canadian rows are from memory (table
// filling-density of ca), and whether a DOT mark holds in Australia is in doubt (AS 2030.1).
TEST(PressureClass, CitesItsOwnRulebook) {
    const PressureVerdict canada = classOf("TC-4BM10", "R-22", "ca");
    EXPECT_FALSE(canada.suits);
    EXPECT_EQ(canada.rule, "pressure.named-row");
    EXPECT_EQ(canada.firmness, Firmness::memory);
    const PressureVerdict australia = classOf("DOT-4BA400", "R-22", "au");
    EXPECT_FALSE(australia.suits);
    EXPECT_EQ(australia.citation, "AS 2030.1");
    EXPECT_EQ(australia.firmness, Firmness::doubt);
    EXPECT_EQ(classOf("DOT-4BA400", "R-22", "eu").citation, "ADR 1.1.4.7");
    EXPECT_EQ(classOf("EN 13322-1 PH 35", "R-410A", "eu").comparedAt, Temperature::fromCelsius(65));
}

// An unmarked 3 counts as 1800 psig; a 39 bears none in its specification and is not judged.
TEST(PressureClass, MarksWithoutAPressure) {
    EXPECT_NEAR(classOf("DOT-3", "R-717").limit->psi(), 2250, 1e-9);
    EXPECT_TRUE(classOf("DOT-3", "R-717").suits);
    EXPECT_EQ(classOf("DOT-39", "R-410A").rule, "pressure.unmarked");
    EXPECT_FALSE(classOf("DOT-39", "R-410A").limit);
}

// 17 bar is 246.6 psig and 5/4 of it 308.2; 28 bar is 406.1 psig (arithmetic). The table of 49 CFR
// 171.12(a)(4)(iii) sets TC-4AAM33 equal to DOT-4AA480 and TC-4BM17ET to DOT-4B240ET.
TEST(PressureClass, CanadianMarksInBar) {
    EXPECT_NEAR(classOf("TC-4BWM17", "R-22").limit->psi(), 308.2, 0.1);
    EXPECT_TRUE(classOf("TC-4BWM17", "R-22").suits);
    EXPECT_TRUE(classOf("TC-4AAM33", "R-717").suits);
    EXPECT_TRUE(classOf("TC-4BM17ET", "R-22").suits);
    EXPECT_FALSE(classOf("TC-4BAM24", "R-410A").suits);
    EXPECT_TRUE(classOf("TC-4BAM28", "R-410A").suits);
}

// Carbon dioxide is excepted from 5/4 (173.301a(d)(1)); its row decides. R-23 has no row and no liquid.
TEST(PressureClass, NoLiquidAtFiftyFive) {
    EXPECT_TRUE(classOf("DOT-3AA1800", "R-744").suits);
    EXPECT_FALSE(classOf("DOT-3AA1800", "R-744").at55);
    EXPECT_FALSE(classOf("DOT-4BA400", "R-744").suits);
    EXPECT_EQ(classOf("DOT-3AA2400", "R-23").rule, "pressure.no-liquid");
    EXPECT_FALSE(classOf("DOT-3AA2400", "R-23").suits);
}

// P200 (5)(c): R-410A needs 41.8 bar at 65 degC (equations of state), a PH 42 just passes; listed: R-134a 18
// bar, R-32 48 bar (from memory). DOT marks alone are not accepted in Europe (from memory).
TEST(PressureClass, TestPressureOfEuropeanMarks) {
    const PressureVerdict just = classOf("EN 13322-1 PH42", "R-410A", "eu");
    EXPECT_NEAR(just.compared->bar(), 41.8, 41.8 * 0.02);
    EXPECT_TRUE(just.thin);
    EXPECT_EQ(just.suits, *just.compared <= *just.limit);
    EXPECT_FALSE(classOf("EN 13322-1 PH35", "R-410A", "eu").suits);
    EXPECT_TRUE(classOf("EN 13322-1 PH48", "R-32", "eu").suits);
    EXPECT_FALSE(classOf("EN 13322-1 PH42", "R-32", "eu").suits);
    EXPECT_EQ(classOf("DOT-4BA400", "R-410A", "eu").rule, "pressure.mark-not-accepted");
}

// Columns ok_240 .. ok_400 of the reference, for the gases without a row of their own.
TEST(PressureClass, MeetsTheReferenceTable) {
    const Table table = limitsReference("pressure-rating-55C.csv");
    int compared = 0;
    for (const auto& row : table.rows) {
        const std::string psig = cellOf(table, row, "p_bubble_55C_psig");
        const auto contents = testCatalogue().contents(row[0]);
        if (psig.empty() || !contents ||
            namedRow(testRules("us"), must(Specification::parse("DOT-4BA400")), contents.value()).exists) {
            continue;
        }
        for (const char* marked : {"240", "260", "300", "350", "400"}) {
            const PressureVerdict verdict = classOf(std::string("DOT-4BA") + marked, row[0]);
            if (!verdict.at55) {
                continue; // too near the critical point of the mixture
            }
            const bool suits = cellOf(table, row, (std::string("ok_") + marked).c_str()) == "yes";
            EXPECT_TRUE(verdict.suits == suits || verdict.thin) << row[0] << " in 4BA" << marked;
            ++compared;
        }
    }
    EXPECT_GT(compared, 500);
}

// Property: a higher class never suits less; the margin grows with it.
TEST(PressureClass, AHigherClassSuitsAtLeastAsWell) {
    for (const char* gas :
         {"R-22", "R-410A", "R-134a", "R-32", "R-404A", "R-407C", "R-290", "R-22:0.8+R-410A:0.2"}) {
        bool suited = false;
        for (int marked = 150; marked <= 520; marked += 10) {
            const bool suits = classOf("DOT-4BA" + std::to_string(marked), gas).suits;
            EXPECT_TRUE(suits || !suited) << gas << marked;
            suited = suits;
        }
        EXPECT_TRUE(suited) << gas;
    }
}
