#include "ui/fleet_page.h"

#include "ui/card_panel.h"
#include "ui/desk.h"
#include "ui/fleet_model.h"
#include "ui/kit.h"
#include "ui/level_delegate.h"
#include "ui/pages.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QShortcut>
#include <QSplitter>
#include <QTableView>

namespace tarebook {

FleetPage::FleetPage(Desk& desk, QWidget* parent)
    : Page(parent), m_desk(desk), m_model(new FleetModel(this)), m_table(new QTableView(this)),
      m_filter(new QLineEdit(this)), m_show(new QComboBox(this)), m_count(kit::hint({}, this)),
      m_card(new CardPanel(desk, this)) {
    setObjectName(QStringLiteral("fleetPage"));
    const int line = fontMetrics().height();
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(line, line / 2, line, line / 2);
    auto* top = new QHBoxLayout;
    auto* label = new QLabel(tr("&Find"), this);
    label->setBuddy(m_filter);
    m_filter->setObjectName(QStringLiteral("fleetFilter"));
    m_filter->setPlaceholderText(tr("serial, refrigerant, technician, job, place, finding, due:2026-11 …"));
    m_filter->setClearButtonEnabled(true);
    m_show->setObjectName(QStringLiteral("fleetShow"));
    m_show->setAccessibleName(tr("Which cylinders"));
    m_show->addItems({tr("all"), tr("in the shop"), tr("out"), tr("with a finding"), tr("held, away, lost"),
                      tr("retest passed"), tr("retest due soon")});
    m_count->setObjectName(QStringLiteral("fleetCount"));
    m_count->setWordWrap(false);
    top->addWidget(label);
    top->addWidget(m_filter, 1);
    top->addWidget(m_show);
    top->addWidget(m_count);
    column->addLayout(top);

    m_table->setObjectName(QStringLiteral("fleetTable"));
    m_table->setAccessibleName(tr("Cylinders"));
    m_table->setModel(m_model);
    m_table->setItemDelegateForColumn(static_cast<int>(FleetModel::Column::level),
                                      new LevelDelegate(m_table));
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->setShowGrid(false);
    m_table->setAlternatingRowColors(true);
    m_table->setWordWrap(false);
    m_table->setTabKeyNavigation(false);
    m_table->setSortingEnabled(true);
    m_table->verticalHeader()->hide();
    m_table->verticalHeader()->setDefaultSectionSize(line * 2);
    m_table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_table->horizontalHeader()->setHighlightSections(false);
    m_table->horizontalHeader()->setStretchLastSection(true);
    m_table->horizontalHeader()->setSortIndicator(0, Qt::AscendingOrder);
    const std::vector<double> widths = {7, 5.8, 4, 4.4, 4.4, 5.2, 5.2, 4};
    for (std::size_t place = 0; place < widths.size(); ++place) {
        m_table->setColumnWidth(static_cast<int>(place), static_cast<int>(widths[place] * line));
    }
    auto* splitter = new QSplitter(Qt::Horizontal, this);
    splitter->addWidget(m_table);
    splitter->addWidget(m_card);
    splitter->setChildrenCollapsible(false);
    splitter->setStretchFactor(0, 1);
    splitter->setStretchFactor(1, 1);
    constexpr int kList = 100; // shares of whatever there is: both are read side by side
    constexpr int kCard = 115;
    splitter->setSizes({kList, kCard});
    column->addWidget(splitter, 1);

    kit::roomyLabels(this);
    connect(m_filter, &QLineEdit::textChanged, this, &FleetPage::filter);
    connect(m_show, &QComboBox::currentIndexChanged, this, [this](int chosen) {
        m_model->setShow(static_cast<FleetModel::Show>(chosen));
        filter();
    });
    connect(&m_desk, &Desk::cylindersChanged, this, [this](const QStringList& serials) {
        m_all = m_all || serials.isEmpty();
        m_changed += serials;
    });
    connect(m_filter, &QLineEdit::returnPressed, this, [this] {
        if (m_model->rowCount() > 0) {
            m_table->selectRow(0);
            m_table->setFocus();
        }
    });
    auto* clear = new QShortcut(Qt::Key_Escape, m_filter, nullptr, nullptr, Qt::WidgetShortcut);
    connect(clear, &QShortcut::activated, m_filter, &QLineEdit::clear);
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &FleetPage::showChosen);
}

void FleetPage::refresh() {
    const QString chosen = m_card->serial();
    readRows();
    filter();
    if (!chosen.isEmpty()) {
        const int row = m_model->rowOf(chosen);
        if (row >= 0) {
            m_table->selectRow(row);
        }
        m_card->setSerial(chosen);
    }
}

void FleetPage::readRows() {
    Shop& shop = m_desk.shop();
    Store& store = shop.store();
    const Date today = shop.today();
    if (m_all || m_model->day() != today) {
        auto rows = store.fleet({});
        m_model->setRows(rows ? std::move(rows).value() : std::vector<FleetRow>(), shop.settings(),
                         FleetDay(shop, today));
    } else {
        m_changed.removeDuplicates();
        for (const QString& serial : std::as_const(m_changed)) {
            FleetQuery query;
            query.serial = utf8(serial);
            auto rows = store.fleet(query);
            if (rows) {
                m_model->replaceRow(query.serial, rows.value().empty() ? std::optional<FleetRow>()
                                                                       : std::move(rows.value().front()));
            }
        }
    }
    m_all = false;
    m_changed.clear();
}

void FleetPage::filter() {
    m_model->setFilter(m_filter->text().trimmed());
    m_count->setText(m_model->rowCount() == m_model->total()
                         ? tr("%1 cylinders").arg(m_model->total())
                         : tr("%1 of %2").arg(m_model->rowCount()).arg(m_model->total()));
}

void FleetPage::showChosen() {
    const QString serial = m_model->serialAt(m_table->currentIndex().row());
    if (!serial.isEmpty() && serial != m_card->serial()) {
        m_card->setSerial(serial);
    }
}

bool FleetPage::choose(const QString& serial) {
    const auto known = m_desk.shop().store().cylinder(utf8(serial));
    if (!known || !known.value()) {
        return false;
    }
    if (m_model->rowOf(serial) < 0) {
        m_filter->clear();
        m_show->setCurrentIndex(0);
    }
    const int row = m_model->rowOf(serial);
    if (row >= 0) {
        m_table->selectRow(row);
        m_table->scrollTo(m_model->index(row, 0));
    }
    m_card->setSerial(serial);
    return true;
}

bool FleetPage::scan(const QString& text) {
    return choose(text.trimmed()) || choose(text.trimmed().toUpper());
}

bool FleetPage::begin(Errand errand, const QString& subject) {
    if (errand == Errand::card) {
        return choose(subject);
    }
    if (errand == Errand::findInFleet) {
        m_show->setCurrentIndex(0);
        m_filter->setText(subject);
        return true;
    }
    return false;
}

Page* makeFleetPage(Desk& desk) {
    return new FleetPage(desk);
}

} // namespace tarebook
