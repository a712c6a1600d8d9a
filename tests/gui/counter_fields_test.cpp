// What stands at the counter beside the scan field: deposits in one list, a burn-out said at the check-out,
// the plan of a day at hand, columns of a sheet of jobs put right.
#include "tests/gui/support/gui_shop.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDateEdit>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>

#include "core/shop/deposits.h"
#include "ui/day_dialog.h"
#include "ui/deposits_dialog.h"
#include "ui/desk.h"
#include "ui/kit.h"

using namespace tarebook;
using namespace tarebook::tests;

namespace {

class CounterFieldsTest : public GuiTest {
protected:
    std::string cell(const char* table, int row, int column) {
        const auto* item = the<QTableWidget>(table).item(row, column);
        return item == nullptr ? "none" : utf8(item->text());
    }
    void lend(const char* serial, const char* since, Hundredths rental, int freeDays) {
        CylinderLoan loan{serial, false, Date::parse(since).value()};
        loan.currency = "USD";
        loan.deposit = 15'000;
        loan.rental = rental;
        loan.freeDays = freeDays;
        window().desk().notifyRecorded(enterDeposit(shop(), "Cape Reclaim", loan));
    }
    void write(const char* name, const char* text) const {
        QFile sheet(qt(file(name)));
        ASSERT_TRUE(sheet.open(QIODevice::WriteOnly));
        sheet.write(text);
    }
};

} // namespace

TEST_F(CounterFieldsTest, AllDepositsStandInOneList) {
    // 2026-08-25 to 2026-09-14 are 20 days, of which 10 cost nothing: 10 x 0.50 = 5.00. The other costs
    // nothing until 2026-10-10.
    lend("A102", "2026-08-25", 50, 10);
    lend("A104", "2026-09-10", 50, 30);
    window().findChild<QAction*>(QStringLiteral("actionDeposits"))->trigger();
    QApplication::processEvents();
    auto& table = the<QTableWidget>("depositTable");
    ASSERT_EQ(table.rowCount(), 2);
    EXPECT_EQ(cell("depositTable", 0, 0), "A102");
    EXPECT_EQ(cell("depositTable", 0, 2), "theirs");
    EXPECT_NE(cell("depositTable", 0, 10).find("rental runs"), std::string::npos);
    EXPECT_EQ(cell("depositTable", 0, 4), "20");
    EXPECT_EQ(cell("depositTable", 0, 5), "10");
    EXPECT_EQ(cell("depositTable", 0, 6), "2026-09-04");
    EXPECT_EQ(cell("depositTable", 0, 9), "5.00 USD");
    EXPECT_EQ(cell("depositTable", 1, 10), "out");
    EXPECT_EQ(cell("depositTable", 1, 6), "2026-10-10");
    const std::string sums = utf8(the<QLabel>("depositSums").text());
    EXPECT_NE(sums.find("2 cylinders, deposits 300.00 USD, rental so far 5.00 USD"), std::string::npos)
        << sums;
    // It goes back: it leaves the list, and stands in it where that is asked for.
    window().desk().notifyRecorded(endDeposit(shop(), "A104", Date::parse("2026-09-14").value()));
    QApplication::processEvents();
    EXPECT_EQ(table.rowCount(), 1);
    click("depositAll");
    ASSERT_EQ(table.rowCount(), 2);
    EXPECT_NE(cell("depositTable", 1, 10).find("back 2026-09-14"), std::string::npos);
    the<QDateEdit>("depositDay").setDate(QDate(2026, 9, 11));
    EXPECT_EQ(cell("depositTable", 0, 4), "17");
    auto& dialog = the<DepositsDialog>("depositsDialog");
    ASSERT_TRUE(dialog.writeTable(qt(file("deposits.csv"))));
    QFile written(qt(file("deposits.csv")));
    ASSERT_TRUE(written.open(QIODevice::ReadOnly));
    EXPECT_TRUE(written.readAll().contains("\r\nA102,Cape Reclaim,theirs,2026-08-25,"));
    EXPECT_FALSE(dialog.writeTable(QStringLiteral("/nowhere/deposits.csv")));
    // Enter opens the card.
    table.setFocus();
    table.setCurrentCell(0, 0);
    QTest::keyClick(&table, Qt::Key_Return);
    QApplication::processEvents();
    EXPECT_NE(the<QLabel>("cardTitle").text().indexOf(QStringLiteral("A102")), -1);
    dialog.close();
}

TEST_F(CounterFieldsTest, ABurnOutIsSaidAtTheCheckOut) {
    window().openPlace(QStringLiteral("jobs"));
    choose("outSystem", "ST-ALDER/RTU-3");
    type("outExpected", "32 lb");
    ASSERT_EQ(cell("outProposal", 0, 0), "A102");
    the<QCheckBox>("outBurnOut").click();
    // No cylinder of this shop is kept for gas of burn-outs: what the command line says, too.
    JobPlan plan;
    plan.system = "ST-ALDER/RTU-3";
    plan.expected = lb("32");
    plan.burnOut = true;
    const auto said = propose(shop(), plan);
    ASSERT_TRUE(said);
    const std::string note = utf8(the<QLabel>("outProposalNote").text());
    if (said.value().chosen.empty()) {
        EXPECT_EQ(note, said.value().problem);
    } else {
        EXPECT_NE(note.find(said.value().chosen.front().serial), std::string::npos) << note;
    }
    choose("outPerson", "MORGAN VALE");
    scan("A102");
    const CheckOut what{.person = "MORGAN VALE",
                        .serials = {"A102"},
                        .purpose = Purpose::recover,
                        .system = "ST-ALDER/RTU-3",
                        .expected = lb("32"),
                        .burnOut = true};
    ASSERT_EQ(the<QPushButton>("outRecord").isEnabled(), !review(shop(), what).refused());
    if (the<QPushButton>("outRecord").isEnabled()) {
        click("outRecord");
        const auto entry = shop().store().entry(shop().store().headSeq());
        EXPECT_EQ(entry.value().body.value("burn_out", false), true);
        EXPECT_FALSE(the<QCheckBox>("outBurnOut").isChecked()) << "the next job is another";
    }
    the<QComboBox>("outPurpose").setCurrentIndex(1); // nothing burns out where gas is charged
    EXPECT_FALSE(the<QCheckBox>("outBurnOut").isEnabled());
}

TEST_F(CounterFieldsTest, ThePlanOfADayIsReachedFromTheCheckOut) {
    window().openPlace(QStringLiteral("jobs"));
    click("outDay");
    EXPECT_TRUE(the<DayDialog>("dayDialog").isVisible());
    the<DayDialog>("dayDialog").close();
    QTest::qWait(0);
}

TEST_F(CounterFieldsTest, WhereNobodySignsInNoMenuSpeaksOfIt) {
    EXPECT_FALSE(the<QMenu>("menuSignedIn").menuAction()->isVisible());
    EXPECT_TRUE(window().findChild<QAction*>(QStringLiteral("actionOperators"))->isVisible());
}

TEST_F(CounterFieldsTest, ColumnsOfAJobSheetArePutRight) {
    write("jobs.csv", "Who,Where to,how much?,kind of work\n"
                      "MORGAN VALE,ST-ALDER/RTU-3,32 lb,recover\n");
    DayDialog dialog(window().desk(), &window());
    dialog.show();
    EXPECT_FALSE(dialog.takeSheet(qt(file("jobs.csv"))));
    auto* tabs = dialog.findChild<QTabWidget*>(QStringLiteral("dayTabs"));
    EXPECT_EQ(tabs->currentWidget()->objectName(), QStringLiteral("dayColumns")) << "where it is put right";
    const auto assign = [&](const char* field, const char* header) {
        auto* box = dialog.findChild<QComboBox*>(QStringLiteral("dayColumn:") + QLatin1String(field));
        ASSERT_NE(box, nullptr) << field;
        box->setFocus();
        const int item = box->findText(QString::fromUtf8(header));
        ASSERT_GE(item, 0) << header;
        box->setCurrentIndex(item);
        emit box->activated(item);
        QTest::qWait(0);
    };
    assign("technician", "Who");
    assign("system", "Where to");
    assign("direction", "kind of work");
    EXPECT_EQ(dialog.findChild<QTableWidget*>(QStringLiteral("dayTable"))->rowCount(), 0);
    assign("mass", "how much?");
    auto* plan = dialog.findChild<QTableWidget*>(QStringLiteral("dayTable"));
    ASSERT_EQ(plan->rowCount(), 1) << utf8(dialog.findChild<QLabel*>(QStringLiteral("daySummary"))->text());
    EXPECT_EQ(plan->item(0, 4)->text(), QStringLiteral("A102"));
    // And wrong again: into none.
    assign("mass", "– none –");
    EXPECT_EQ(plan->rowCount(), 0);
}
