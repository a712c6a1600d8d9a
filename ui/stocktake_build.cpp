#include "ui/stocktake_dialog.h"

#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/mass_edit.h"
#include "ui/sheet_tabs.h"

#include <QBoxLayout>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QGridLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>

namespace tarebook {

StocktakeDialog::StocktakeDialog(Desk& desk, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_serial(new QLineEdit(this)),
      m_gross(new MassEdit(desk, QStringLiteral("stockGross"), tr("Gross weight"), this)),
      m_remark(new QLineEdit(this)),
      m_scaleError(new MassEdit(desk, QStringLiteral("stockScaleError"), tr("Error of the scale"), this)),
      m_place(new QLineEdit(this)), m_said(new QLabel(this)), m_counts(kit::heading({}, this)),
      m_tabs(new QTabWidget(this)),
      m_table(kit::table(QStringLiteral("stockTable"),
                         {tr("Cylinder"), tr("Contents"), tr("Gross"), tr("Books"), tr("Difference"),
                          tr("Within"), tr("Verdict")},
                         this)),
      m_sheet(new SheetTabs(desk, SheetKind::stocktake, QStringLiteral("stock"), m_tabs)),
      m_missing(kit::heading({}, this)), m_notSeen(new QListWidget(this)),
      m_causes(kit::table(QStringLiteral("stockCauses"),
                          {tr("May be"), tr("Because"), tr("What would mend it")}, this)),
      m_advice(new QLabel(this)), m_mend(new QPushButton(tr("&Mend it so…"), this)) {
    setObjectName(QStringLiteral("stocktakeDialog"));
    setWindowTitle(tr("Stocktake"));
    build();
    connect(&m_desk, &Desk::changed, this, &StocktakeDialog::compare);
    compare();
    m_serial->setFocus();
}

void StocktakeDialog::build() {
    m_counts->setObjectName(QStringLiteral("stockCounts"));
    m_said->setObjectName(QStringLiteral("stockSaid"));
    m_said->setWordWrap(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    for (const auto& [button, name, words] :
         {std::tuple{&m_record, "stockRecord", tr("&Record the weighings…")},
          std::tuple{&m_print, "stockPrint", tr("&Print…")}, std::tuple{&m_pdf, "stockPdf", tr("P&DF…")}}) {
        *button = buttons->addButton(words, QDialogButtonBox::ActionRole);
        (*button)->setObjectName(QLatin1String(name));
        (*button)->setAutoDefault(false);
    }
    auto* sheet = buttons->addButton(tr("&From a sheet…"), QDialogButtonBox::ActionRole);
    sheet->setObjectName(QStringLiteral("stockSheet"));
    sheet->setAutoDefault(false);
    connect(sheet, &QPushButton::clicked, this, &StocktakeDialog::chooseSheet);
    auto* close = buttons->button(QDialogButtonBox::Close);
    close->setAutoDefault(false);
    connect(m_record, &QPushButton::clicked, this, &StocktakeDialog::enter);
    connect(m_print, &QPushButton::clicked, this, &StocktakeDialog::print);
    connect(m_pdf, &QPushButton::clicked, this, &StocktakeDialog::askPdf);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->addWidget(kit::hint(
        tr("Scan a cylinder, type what the scale says, Enter, and the next. Nothing is written before you "
           "record it."),
        this));
    column->addWidget(buildFields());
    column->addWidget(m_said);
    column->addWidget(m_counts);
    column->addWidget(buildLists(), 3);
    column->addWidget(buildCauses(), 2);
    column->addWidget(buttons);
    kit::roomyLabels(this);
    const int line = fontMetrics().height();
    resize(line * 62, line * 44);
}

QWidget* StocktakeDialog::buildFields() {
    auto* fields = new QWidget(this);
    auto* grid = new QGridLayout(fields);
    grid->setContentsMargins(0, 0, 0, 0);
    m_serial->setObjectName(QStringLiteral("stockSerial"));
    m_remark->setObjectName(QStringLiteral("stockRemark"));
    m_remark->setPlaceholderText(tr("cap missing …"));
    m_place->setObjectName(QStringLiteral("stockPlace"));
    m_place->setPlaceholderText(tr("the whole shop"));
    m_scaleError->setToolTip(
        tr("Half of its width, as 0.2 lb; 0.1 lb of the stamped tare is added by the root of the squares. "
           "Blank: the shop's weighing tolerance."));
    m_gross->offerScale();
    const auto put = [&](int row, int column, const QString& words, QWidget* field) {
        auto* label = new QLabel(words, fields);
        label->setBuddy(field);
        grid->addWidget(label, row, column);
        grid->addWidget(field, row, column + 1);
    };
    put(0, 0, tr("&Cylinder"), m_serial);
    put(0, 2, tr("&Gross"), m_gross);
    put(0, 4, tr("Remar&k"), m_remark);
    put(1, 0, tr("R&ack or place"), m_place);
    put(1, 2, tr("&Scale's error"), m_scaleError);
    auto* take = new QPushButton(tr("&Take it"), fields);
    take->setObjectName(QStringLiteral("stockTake"));
    kit::makePrimary(take);
    grid->addWidget(take, 1, 5);
    for (const int column : {1, 3, 5}) {
        grid->setColumnStretch(column, column == 3 ? 3 : 2);
    }
    connect(take, &QPushButton::clicked, this, &StocktakeDialog::add);
    connect(m_scaleError, &MassEdit::edited, this, &StocktakeDialog::compare);
    connect(m_place, &QLineEdit::textChanged, this, &StocktakeDialog::compare);
    return fields;
}

QWidget* StocktakeDialog::buildLists() {
    auto* lists = new QWidget(this);
    auto* row = new QHBoxLayout(lists);
    row->setContentsMargins(0, 0, 0, 0);
    m_table->setAccessibleName(tr("Weighed"));
    connect(m_table, &QTableWidget::itemSelectionChanged, this, &StocktakeDialog::showCauses);
    m_notSeen->setObjectName(QStringLiteral("stockNotSeen"));
    m_notSeen->setAccessibleName(tr("Not seen yet"));
    m_notSeen->setFrameShape(QFrame::NoFrame);
    m_missing->setObjectName(QStringLiteral("stockMissing"));
    auto* side = new QVBoxLayout;
    side->addWidget(m_missing);
    side->addWidget(m_notSeen, 1);
    m_tabs->addTab(m_table, tr("&Weighed"));
    connect(m_sheet, &SheetTabs::assigned, this, [this] { (void)takeRows(); });
    row->addWidget(m_tabs, 4);
    row->addLayout(side, 1);
    return lists;
}

QWidget* StocktakeDialog::buildCauses() {
    auto* causes = new QWidget(this);
    auto* column = new QVBoxLayout(causes);
    column->setContentsMargins(0, 0, 0, 0);
    m_causes->setAccessibleName(tr("What may have made the difference, the likeliest first"));
    m_causes->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    kit::fitColumns(m_causes, 1);
    m_causes->horizontalHeader()->setSectionResizeMode(2, QHeaderView::Stretch);
    m_advice->setObjectName(QStringLiteral("stockAdvice"));
    m_advice->setWordWrap(true);
    m_mend->setObjectName(QStringLiteral("stockMend"));
    m_mend->setAutoDefault(false);
    connect(m_causes, &QTableWidget::itemSelectionChanged, this, [this] {
        const StockCause* cause = chosenCause();
        m_mend->setEnabled(cause != nullptr && !cause->mend.empty());
        m_advice->setText(cause == nullptr ? QString() : qt(cause->advice));
    });
    connect(m_mend, &QPushButton::clicked, this, &StocktakeDialog::mend);
    auto* row = new QHBoxLayout;
    row->addWidget(m_advice, 1);
    row->addWidget(m_mend);
    column->addWidget(m_causes, 1);
    column->addLayout(row);
    return causes;
}

} // namespace tarebook
