// Terms, a receipt and what it says, as a person works them in the window. A pound is 0.45359237 kg exactly
// (NIST Handbook 44, Appendix C); the terms are invented, the sums in the comments are by hand.
#include "tests/gui/support/receipts_window.h"

using namespace tarebook;
using namespace tarebook::tests;

TEST_F(ReceiptsInTheWindow, TermsAreEnteredAndTakenBack) {
    enterTerms();
    const AcceptanceTerms terms = termsOf(shop(), "Cape Reclaim").value();
    EXPECT_EQ(terms.fee, 2'000);
    EXPECT_EQ(terms.feeEach, 150);
    EXPECT_EQ(terms.prices.at(GasKind::clean), (Price{450, false}));
    EXPECT_EQ(terms.prices.at(GasKind::mixed), (Price{-200, true}));
    EXPECT_EQ(terms.accepts.at(GasKind::mixed), Acceptance::apart);
    EXPECT_FALSE(terms.minimum);
    QTimer::singleShot(0, [this] {
        EXPECT_EQ(the<QLineEdit>("terms:fee").text(), QStringLiteral("20.00"));
        type("terms:fee", "");
        type("terms:minimum", "a lot");
        EXPECT_TRUE(holds(text("termsProblem"), "minimum")) << text("termsProblem");
        type("terms:minimum", "100 lb");
        EXPECT_TRUE(text("termsProblem").empty()) << text("termsProblem");
        click("termsEnter");
    });
    click("batchTerms");
    const AcceptanceTerms later = termsOf(shop(), "Cape Reclaim").value();
    EXPECT_FALSE(later.fee);
    EXPECT_EQ(later.minimum, lb("100"));
    EXPECT_EQ(later.feeEach, 150) << "the others stay";
}

// 12.0 lb are 5.443108 kg, x 4.50 = 24.494: 24.49; 20.0 lb of A105 9.071847 kg: 40.82; 4.0 lb 1.814369
// kg: 8.16. 73.47 - 20.00 - 3 x 1.50 = 48.97.
TEST_F(ReceiptsInTheWindow, TheProposalShowsHowItsCreditComesAbout) {
    EXPECT_FALSE(the<QPushButton>("batchWorking").isEnabled()) << "nothing is proposed yet";
    enterTerms();
    click("batchPropose");
    EXPECT_TRUE(holds(text("batchProposal"), "Credit after fees 48.97 USD")) << text("batchProposal");
    QTimer::singleShot(0, [this] {
        auto& steps = the<QTableWidget>("workingSteps");
        QStringList told;
        for (int row = 0; row < steps.rowCount(); ++row) {
            told << steps.item(row, 0)->text();
        }
        EXPECT_EQ(told.join(QLatin1Char('\n')).toStdString(),
                  "A103: 12.0 lb clean at 4.50/kg = 24.49 USD\nA105: 20.0 lb clean at 4.50/kg = 40.82 USD\n"
                  "A107: 4.0 lb clean at 4.50/kg = 8.16 USD\nfee of the batch -20.00 USD\n"
                  "fee of 3 cylinders at 1.50 = -4.50 USD\nCredit after fees 48.97 USD");
        EXPECT_EQ(cell("workingTable", 0, 6), "24.49 USD");
        qobject_cast<QDialog*>(steps.window())->reject();
    });
    click("batchWorking");
}

// A103 came back exchanged with A107 on their sheet; both corrected; 11.5 lb of 12.0 are paid for.
TEST_F(ReceiptsInTheWindow, ASheetIsComparedCorrectedAndSettled) {
    enterTerms();
    ship();
    const std::string sheet = file("receipt.csv");
    std::ofstream(sheet) << "Cylinder No,Gross wt (lb),Tare wt (lb),Oil (lb),Result\n"
                            "A103,20.8,16.8,0.5,pass\nA107,29.0,17.0,,mixed\n";
    QTimer::singleShot(0, [&] {
        auto& dialog = the<ReceiptDialog>("receiptDialog");
        EXPECT_TRUE(dialog.takeSheet(QString::fromStdString(sheet)));
        EXPECT_TRUE(holds(text("receiptCauses"), "exchanged")) << text("receiptCauses");
        type("receiptReference", "CR-1");
        click("receiptEnter");
    });
    click("batchReceive");
    EXPECT_EQ(batch(shop(), "B-1").value().status, "received");
    QTimer::singleShot(0, [this] {
        EXPECT_EQ(the<QTableWidget>("differences").rowCount(), 2);
        EXPECT_EQ(cell("differences", 0, 6), "swapped");
        questions::queueAnswer(QStringLiteral("which is which?"));
        click("differencesDispute");
        EXPECT_EQ(cell("differences", 0, 7), "disputed");
        EXPECT_TRUE(holds(text("differencesCauses"), "which is which?"));
        questions::queueAnswer(QStringLiteral("gross=29.0 lb\ntare=17.0 lb"));
        click("differencesCorrect");
        EXPECT_EQ(cell("differences", 0, 7), "corrected");
        EXPECT_EQ(cell("differences", 0, 3), "0.0 lb");
        EXPECT_EQ(cell("differences", 0, 5), "11.5 lb") << "12.0 less 0.5 of oil";
        the<QTableWidget>("differences").selectRow(1);
        questions::queueAnswer(QStringLiteral("gross=20.8 lb\ntare=16.8 lb"));
        click("differencesCorrect");
        // 11.5 lb = 5.216312 kg x 4.50 = 23.47; 4.0 lb mixed x -2.00 = -8.00; -20 - 3.
        EXPECT_TRUE(holds(text("differencesWorking"), "credit after fees -7.53 USD"))
            << text("differencesWorking");
        the<QDialog>("differencesDialog").reject();
    });
    click("batchDifferences");
    QTimer::singleShot(0, [this] {
        EXPECT_TRUE(holds(text("settleCredit"), "credit after fees -7.53 USD")) << text("settleCredit");
        click("settleEnter");
    });
    click("batchSettle");
    EXPECT_EQ(batch(shop(), "B-1").value().credit["credit_hundredths"], -753);
}

TEST_F(ReceiptsInTheWindow, ASheetThatIsWrongIsRefusedAsAWhole) {
    ship();
    const std::string sheet = file("receipt.csv");
    std::ofstream(sheet) << "serial,gross,tare\nA103,29.0 lb,17.0 lb\nA999,20 lb,17 lb\n";
    QTimer::singleShot(0, [&] {
        auto& dialog = the<ReceiptDialog>("receiptDialog");
        questions::queueAnswer(std::nullopt);
        EXPECT_FALSE(dialog.takeSheet(QString::fromStdString(sheet)));
        EXPECT_TRUE(the<QLineEdit>("receiptGross:A103").text().isEmpty());
        dialog.reject();
    });
    click("batchReceive");
    EXPECT_EQ(batch(shop(), "B-1").value().status, "shipped");
}

// Their sheet has the tare that is stamped in 'Tare' and the one that they used in 'Empty wt'. Put right
// beside the lines: the rows are filled again, and what the other columns had filled is gone.
TEST_F(ReceiptsInTheWindow, TheColumnsOfASheetArePutRight) {
    ship();
    const std::string sheet = file("receipt.csv");
    std::ofstream(sheet) << "Cylinder No,Gross wt (lb),Tare,Used (lb),Came\n"
                            "A103,29.0,12.0 lb,17.0,Z1\nA107,20.8,9.0 lb,16.8,\n";
    QTimer::singleShot(0, [&] {
        auto& dialog = the<ReceiptDialog>("receiptDialog");
        EXPECT_TRUE(dialog.takeSheet(QString::fromStdString(sheet)));
        EXPECT_FALSE(holds(cell("receiptTable", 0, 5), "0.0 lb")) << "12.0 is not what it weighs empty";
        const auto assign = [&](const char* field, const char* header) {
            auto& box = the<QComboBox>(field);
            box.setCurrentIndex(box.findText(QLatin1String(header)));
            emit box.activated(box.currentIndex());
            QTest::qWait(0);
        };
        assign("receiptColumn:tare", "Used (lb)");
        assign("receiptColumn:exchange", "Came");
        EXPECT_TRUE(holds(cell("receiptTable", 0, 5), "0.0 lb")) << cell("receiptTable", 0, 5);
        EXPECT_EQ(the<QLineEdit>("receiptGiven:A103").text(), QStringLiteral("Z1"));
        // Another column for the serials: nothing is left of what was filled.
        questions::queueAnswer(std::nullopt);
        assign("receiptColumn:serial", "Tare");
        EXPECT_TRUE(the<QLineEdit>("receiptGross:A103").text().isEmpty());
        EXPECT_TRUE(the<QLineEdit>("receiptGiven:A103").text().isEmpty());
        assign("receiptColumn:serial", "Cylinder No");
        click("receiptEnter");
    });
    click("batchReceive");
    const Batch its = batch(shop(), "B-1").value();
    EXPECT_EQ(its.status, "received");
    EXPECT_EQ(its.lines.front().receipt->exchange, "Z1");
}

// 24.49 + 8.16 - 20 - 3 - 12 = -2.35.
TEST_F(ReceiptsInTheWindow, AnExchangeIsAgreedNamedAndSettled) {
    enterTerms();
    QTimer::singleShot(0, [this] {
        EXPECT_FALSE(the<QLineEdit>("terms:exchange-fee").isEnabled());
        the<QComboBox>("termsExchange").setCurrentIndex(1);
        EXPECT_TRUE(the<QLineEdit>("terms:exchange-fee").isEnabled());
        type("terms:exchange-fee", "12");
        type("terms:exchange-sizes", "small");
        EXPECT_TRUE(holds(text("termsProblem"), "exchange-sizes"));
        type("terms:exchange-sizes", "up to 26.2 lb");
        the<QCheckBox>("termsInDate").setChecked(true);
        click("termsEnter");
    });
    click("batchTerms");
    const AcceptanceTerms terms = termsOf(shop(), "Cape Reclaim").value();
    EXPECT_EQ(terms.exchange.fee, std::optional<std::int64_t>(1'200));
    EXPECT_TRUE(terms.exchange.inDate);
    EXPECT_TRUE(terms.exchange.owners.empty());
    ship();
    QTimer::singleShot(0, [this] {
        type("receiptGross:A103", "29.0 lb");
        type("receiptGross:A107", "20.8 lb");
        type("receiptGiven:A103", "Z1");
        click("receiptEnter");
    });
    click("batchReceive");
    EXPECT_EQ(batch(shop(), "B-1").value().lines.front().receipt->exchange, "Z1");
    QTimer::singleShot(0, [this] {
        EXPECT_TRUE(holds(text("settleCredit"), "1 empty in exchange at 12.00 = -12.00 USD"));
        EXPECT_TRUE(holds(text("settleCredit"), "credit after fees -2.35 USD")) << text("settleCredit");
        EXPECT_TRUE(holds(text("settleExchange"), "gives an empty in exchange for A103, A107"));
        EXPECT_EQ(the<QComboBox>("settleFate:A103").currentIndex(), 1);
        EXPECT_EQ(the<QLineEdit>("settleSerial:A103").text(), QStringLiteral("Z1"));
        type("settleSpec:A103", "DOT-4BA400");
        type("settleCapacity:A103", "26.2 lb");
        type("settleTare:A103", "16.9 lb");
        type("settleMade:A103", "2026-05");
        click("settleEnter");
    });
    click("batchSettle");
    EXPECT_EQ(batch(shop(), "B-1").value().credit["credit_hundredths"], -235);
    EXPECT_EQ(card(shop(), "Z1").value().state.condition, Condition::serviceable);
    EXPECT_EQ(card(shop(), "A103").value().state.condition, Condition::retired);
    // Taken back: the fee and the limits go with it.
    QTimer::singleShot(0, [this] {
        the<QComboBox>("termsExchange").setCurrentIndex(2);
        click("termsEnter");
    });
    click("batchTerms");
    EXPECT_EQ(termsOf(shop(), "Cape Reclaim").value().exchange.body().dump(), R"({"given":false})");
}
