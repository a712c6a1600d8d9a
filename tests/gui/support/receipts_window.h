#pragma once

#include <fstream>

#include <QCheckBox>
#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QTimer>

#include "core/shop/receipts.h"
#include "core/shop/terms.h"
#include "tests/gui/support/gui_shop.h"
#include "ui/questions.h"
#include "ui/receipt_dialog.h"
#include "ui/theme.h"

namespace tarebook::tests {

/// A103 holds 12.0 lb and A107 4.0 lb of R-22 from HARBOR/DOCK-1.
class ReceiptsInTheWindow : public GuiTest {
protected:
    void SetUp() override {
        GuiTest::SetUp();
        ASSERT_TRUE(
            shop().record({draftOf(shop(), Party{"reclaimer", "Cape Reclaim", "Foundry Way 2", ""})}).ok());
        recover("A103", "17.0", "29.0");
        recover("A107", "16.8", "20.8");
        window().openPlace(QStringLiteral("returns"));
        choose("batchReclaimer", "Cape Reclaim");
    }
    void recover(const char* serial, const char* before, const char* after) {
        CheckIn facts;
        facts.serial = serial;
        facts.grossBefore = lb(before);
        facts.grossAfter = lb(after);
        facts.from = "system:HARBOR/DOCK-1";
        facts.job = "J-9";
        facts.person = "MORGAN VALE";
        ASSERT_TRUE(checkIn(shop(), facts).ok());
    }
    void enterTerms() {
        QTimer::singleShot(0, [this] {
            type("terms:currency", "USD");
            type("terms:fee", "20");
            type("terms:fee-each", "1.50");
            type("termsPrice:clean", "4.50/kg");
            the<QComboBox>("termsAccept:mixed").setCurrentIndex(2); // apart
            type("termsPrice:mixed", "-2.00/lb");
            click("termsEnter");
        });
        click("batchTerms");
    }
    void ship() {
        ASSERT_TRUE(prepareBatch(shop(), "B-1", "Cape Reclaim", {"A103", "A107"}).ok());
        ASSERT_TRUE(shipBatch(shop(), "B-1", "own van").ok());
        refresh();
    }
    void refresh() {
        window().openPlace(QStringLiteral("today"));
        window().openPlace(QStringLiteral("returns"));
    }
    [[nodiscard]] std::string text(const char* label) { return the<QLabel>(label).text().toStdString(); }
    [[nodiscard]] std::string cell(const char* table, int row, int column) {
        return the<QTableWidget>(table).item(row, column)->text().toStdString();
    }
    /// Customer and technician of the row with that job.
    [[nodiscard]] std::string rowWith(const char* table, int column, const char* job) {
        for (int row = 0; row < the<QTableWidget>(table).rowCount(); ++row) {
            if (cell(table, row, column) == job) {
                return cell(table, row, 3) + ", " + cell(table, row, 6);
            }
        }
        return "no such job";
    }
    static bool holds(const std::string& text, const std::string& part) {
        return text.find(part) != std::string::npos;
    }
};

} // namespace tarebook::tests
