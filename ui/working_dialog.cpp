#include "ui/working_dialog.h"

#include "core/shop/settlement.h"
#include "ui/kit.h"

#include <QBoxLayout>
#include <QDialogButtonBox>
#include <QLabel>
#include <QScreen>
#include <QTableWidget>

namespace tarebook {

WorkingDialog::WorkingDialog(const BatchProposal& proposal, const Display& display, QWidget* parent)
    : QDialog(parent) {
    setObjectName(QStringLiteral("workingDialog"));
    setWindowTitle(tr("What %1 would pay").arg(qt(proposal.reclaimer)));
    auto* table = kit::table(
        QStringLiteral("workingTable"),
        {tr("Cylinder"), tr("Contents"), tr("Kind"), tr("Gas of"), tr("Net"), tr("Gross"), tr("Price")},
        this);
    const QString none = tr("not known");
    for (const ComposedLine& line : proposal.lines) {
        const int row = table->rowCount();
        table->insertRow(row);
        const QString price =
            line.price ? tr("%1 %2").arg(qt(moneyText(*line.price)), qt(proposal.terms.currency)) : none;
        int column = 0;
        for (const QString& text :
             {qt(line.serial), qt(line.content), qt(kindsText(line.kinds)), qt(line.owner)}) {
            kit::cell(table, row, column++, text);
        }
        kit::cell(table, row, column++, qt(display.mass(line.net)), true);
        kit::cell(table, row, column++, qt(display.mass(line.gross)), true);
        auto* cell = kit::cell(table, row, column, price, true);
        cell->setToolTip(qt(priceWorking(display, line.serial, line.net, line.kinds, proposal.terms)));
    }
    kit::fitColumns(table, 3);
    QStringList steps;
    for (const ComposedLine& line : proposal.lines) {
        steps << qt(priceWorking(display, line.serial, line.net, line.kinds, proposal.terms));
    }
    for (const std::string& step : feeWorking(proposal.terms, proposal.lines.size(), proposal.exchanged)) {
        steps << qt(step);
    }
    steps << (proposal.credit ? tr("Credit after fees %1 %2")
                                    .arg(qt(moneyText(*proposal.credit)), qt(proposal.terms.currency))
                              : tr("Credit after fees: not known. The terms lack a price or a fee."));
    auto* list = kit::table(QStringLiteral("workingSteps"), {tr("How it comes about")}, this);
    for (const QString& step : steps) {
        const int row = list->rowCount();
        list->insertRow(row);
        kit::cell(list, row, 0, step);
    }
    kit::fitColumns(list, 0);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->addWidget(table, 1);
    column->addWidget(list, 1);
    column->addWidget(buttons);
    const int line = fontMetrics().height();
    resize(QSize(line * 50, line * 30).boundedTo(screen()->availableSize()));
}

} // namespace tarebook
