#include "ui/parents_dialog.h"

#include "core/shop/books.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/page.h"

#include <QBoxLayout>
#include <QDialogButtonBox>
#include <QLabel>
#include <QPushButton>
#include <QScreen>
#include <QTableWidget>

namespace tarebook {

ParentsDialog::ParentsDialog(Desk& desk, const Batch& batch, const QString& serial, QWidget* parent)
    : QDialog(parent), m_desk(desk),
      m_charges(kit::table(QStringLiteral("parentsCharges"),
                           {tr("Mass"), tr("Of"), tr("From"), tr("Customer"), tr("Gas of"), tr("Job"),
                            tr("By"), tr("Machine"), tr("Entry")},
                           this)),
      m_kin(kit::table(QStringLiteral("parentsKin"), {tr("Mass"), tr("Is in"), tr("Where")}, this)) {
    setObjectName(QStringLiteral("parentsDialog"));
    setWindowTitle(tr("Behind %1 of batch %2").arg(serial, qt(batch.name)));
    auto* told = new QLabel(this);
    told->setObjectName(QStringLiteral("parentsTold"));
    told->setWordWrap(true);
    told->setTextFormat(Qt::PlainText);
    const auto all = parentsOf(desk.shop(), batch, utf8(serial));
    if (all && !all.value().empty()) {
        m_its = all.value().front();
        const QString result = qt(std::string(analysisResultWord(m_its.result)));
        told->setText(tr("%1, %2 shipped. Analysis: %3")
                          .arg(serial, qt(desk.shop().display().mass(m_its.shipped)),
                               m_its.analysis.empty() && result.isEmpty()
                                   ? tr("not stated")
                                   : QStringLiteral("%1 %2").arg(result, qt(m_its.analysis)).trimmed()));
        fill(m_its);
    } else {
        told->setText(all ? tr("Nothing is known of it.") : qt(all.error().text()));
    }
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    auto* open = buttons->addButton(tr("&Open the charge"), QDialogButtonBox::ActionRole);
    open->setObjectName(QStringLiteral("parentsOpen"));
    connect(open, &QPushButton::clicked, this, [this] { openCharge(m_charges->currentRow()); });
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_charges, &QTableWidget::cellActivated, this, &ParentsDialog::openCharge);
    connect(m_kin, &QTableWidget::cellActivated, this, &ParentsDialog::openKin);
    auto* column = new QVBoxLayout(this);
    column->addWidget(told);
    column->addWidget(m_charges, 2);
    // Only what is here can be kept apart: an empty table under the advice would look like one not filled.
    const bool here = m_kin->rowCount() > 0;
    column->addWidget(
        kit::hint(here ? tr("Gas of the same charges is here now. Keep these cylinders apart until "
                            "they are analysed, and have a look at the equipment.")
                       : tr("No other gas of these charges is here now. Have a look at the equipment "
                            "that it came from."),
                  this));
    column->addWidget(m_kin, 1);
    m_kin->setVisible(here);
    column->addWidget(buttons);
    const int line = fontMetrics().height();
    resize(QSize(line * 62, line * 26).boundedTo(screen()->availableSize()));
}

void ParentsDialog::fill(const BatchParents& its) {
    const Display display = m_desk.shop().display();
    for (const ParentCharge& one : its.charges) {
        const int row = m_charges->rowCount();
        m_charges->insertRow(row);
        const QString gas = qt(one.gas.refrigerant);
        int column = 0;
        kit::cell(m_charges, row, column++, qt(display.mass(one.mass)), true);
        for (const QString& text :
             {one.foreign ? tr("%1, another gas").arg(gas) : gas, qt(accountWords(one.source)),
              qt(one.customer), one.gas.owner.empty() ? tr("the shop") : qt(one.gas.owner), qt(one.job),
              qt(one.person), qt(one.machine)}) {
            kit::cell(m_charges, row, column++, text);
        }
        kit::cell(m_charges, row, column, QString::number(one.entry), true);
    }
    for (const ParentKin& one : its.kin) {
        const int row = m_kin->rowCount();
        m_kin->insertRow(row);
        kit::cell(m_kin, row, 0, qt(display.mass(one.mass)), true);
        kit::cell(m_kin, row, 1, qt(accountWords(one.account)));
        kit::cell(m_kin, row, 2, qt(one.where));
    }
    kit::fitColumns(m_charges, -1);
    kit::fitColumns(m_kin, 2);
    if (m_charges->rowCount() > 0) {
        m_charges->selectRow(0);
    }
}

void ParentsDialog::openCharge(int row) {
    if (row < 0 || row >= static_cast<int>(m_its.charges.size())) {
        return;
    }
    emit m_desk.errand(Errand::traceCharge,
                       QString::number(m_its.charges[static_cast<std::size_t>(row)].entry));
    accept();
}

void ParentsDialog::openKin(int row) {
    if (row < 0 || row >= static_cast<int>(m_its.kin.size())) {
        return;
    }
    const Account& account = m_its.kin[static_cast<std::size_t>(row)].account;
    if (account.kind == AccountKind::cylinder) {
        emit m_desk.showCylinder(qt(account.name));
        accept();
    }
}

} // namespace tarebook
