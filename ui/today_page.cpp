#include "ui/today_page.h"

#include "core/shop/operators.h"
#include "ui/cylinder_acts.h"
#include "ui/desk.h"
#include "ui/due_strip.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/pages.h"
#include "ui/remedies.h"
#include "ui/scroll_side.h"
#include "ui/wrapping_row.h"

#include <QBoxLayout>
#include <QLabel>
#include <QPushButton>

namespace tarebook {
namespace {

constexpr int kFirstShown = 30;

} // namespace

TodayPage::TodayPage(Desk& desk, QWidget* parent) : Page(parent), m_desk(desk), m_shown(kFirstShown) {
    setObjectName(QStringLiteral("todayPage"));
    auto* column = new QVBoxLayout(this);
    const int gap = fontMetrics().height() / 2;
    column->setContentsMargins(gap * 2, gap, gap * 2, gap);
    column->setSpacing(gap);
    buildHead(*column);
    buildEmpty(*column);
    auto* area = new ScrollSide(this);
    m_list = area->inside();
    QVBoxLayout& inside = area->column();
    m_view = new FindingView(m_desk, m_list);
    m_view->setObjectName(QStringLiteral("alerts"));
    m_view->setEmptyText(tr("Nothing needs doing today."));
    m_more = new QPushButton(tr("Show more"), m_list);
    m_more->setObjectName(QStringLiteral("showMore"));
    connect(m_more, &QPushButton::clicked, this, [this] {
        m_shown *= 4;
        refresh();
    });
    inside.addWidget(m_view);
    inside.addWidget(m_more, 0, Qt::AlignLeft);
    inside.addStretch(1);
    column->addWidget(area, 1);
}

void TodayPage::buildHead(QVBoxLayout& column) {
    m_head = new QWidget(this);
    auto* row = new QHBoxLayout(m_head);
    row->setContentsMargins(0, 0, 0, 0);
    auto* counts = new WrappingRow;
    counts->addWidget(kit::figure(QStringLiteral("dangerCount"), tr("dangers"), &m_dangers, m_head));
    counts->addWidget(
        kit::figure(QStringLiteral("refusalCount"), tr("not lawful as they are"), &m_refusals, m_head));
    counts->addWidget(kit::figure(QStringLiteral("cautionCount"), tr("to see to"), &m_cautions, m_head));
    row->addLayout(counts);
    auto* side = new QVBoxLayout;
    side->addWidget(kit::hint(tr("Retests falling due"), m_head));
    m_strip = new DueStrip(m_head);
    side->addWidget(m_strip);
    row->addLayout(side, 1);
    connect(m_strip, &DueStrip::monthOpened, this, [this](const QString& month) {
        emit m_desk.errand(Errand::findInFleet, QStringLiteral("due:") + month);
    });
    column.addWidget(m_head);
}

void TodayPage::buildEmpty(QVBoxLayout& column) {
    m_emptyShop = new QWidget(this);
    auto* inside = new QVBoxLayout(m_emptyShop);
    inside->addWidget(kit::heading(tr("This shop has no cylinder yet"), m_emptyShop));
    inside->addWidget(
        kit::hint(tr("Bring the spreadsheet you have: Tarebook shows every row before anything is "
                     "written. Or register the first cylinder by its stamped marks."),
                  m_emptyShop));
    auto* import = new QPushButton(tr("Import a spreadsheet…"), m_emptyShop);
    import->setObjectName(QStringLiteral("emptyImport"));
    auto* first = new QPushButton(tr("Register a cylinder…"), m_emptyShop);
    first->setObjectName(QStringLiteral("emptyRegister"));
    connect(import, &QPushButton::clicked, &m_desk, &Desk::importAsked);
    connect(first, &QPushButton::clicked, &m_desk, &Desk::registerAsked);
    auto* sample = new QPushButton(tr("Look at the invented sample shop"), m_emptyShop);
    sample->setObjectName(QStringLiteral("emptySample"));
    connect(sample, &QPushButton::clicked, &m_desk, &Desk::sampleAsked);
    auto* row = new QHBoxLayout;
    row->addWidget(import);
    row->addWidget(first);
    row->addWidget(sample);
    row->addStretch(1);
    inside->addLayout(row);
    column.addWidget(m_emptyShop);
}

void TodayPage::refresh() {
    Shop& shop = m_desk.shop();
    const auto list = today(shop, shop.today(), m_shown);
    const auto first = shop.store().fleet({{}, {}, 0, 1});
    const bool empty = first && first.value().empty();
    m_emptyShop->setVisible(empty);
    m_head->setVisible(!empty);
    m_list->setVisible(!empty);
    m_waiting.reset();
    if (!list) {
        m_view->setFindings({});
        m_view->setEmptyText(qt(list.error().text()));
        return;
    }
    m_dangers->setText(QString::number(list.value().dangers));
    m_refusals->setText(QString::number(list.value().refusals));
    m_cautions->setText(QString::number(list.value().cautions));
    const auto months = dueStrip(shop, shop.today());
    m_strip->setMonths(months ? months.value() : std::vector<DueMonth>());
    std::vector<Finding> findings;
    for (const Alert& alert : list.value().alerts) {
        findings.push_back(alert.finding);
        findings.back().headline = alert.title + ": " + alert.finding.headline;
    }
    m_view->setFindings(findings);
    int place = 0;
    for (const Alert& alert : list.value().alerts) {
        addAction(alert, place++);
    }
    const std::int64_t all = list.value().dangers + list.value().refusals + list.value().cautions;
    m_waiting = all;
    m_more->setVisible(all > static_cast<std::int64_t>(list.value().alerts.size()));
    m_more->setText(tr("Show more (%1 in all)").arg(all));
}

void TodayPage::addAction(const Alert& alert, int place) {
    FindingCard* card = m_view->cards()[static_cast<std::size_t>(place)];
    card->addAction(remedyButton(m_desk, card, alert.finding, alert.remedy, qt(alert.title)));
    if (alert.finding.overrulable && may(m_desk.shop(), EntryKind::findingOverruled)) {
        auto* settle = new QPushButton(tr("Settle…"), card);
        settle->setObjectName(QStringLiteral("overrule:") + qt(alert.subject));
        settle->setToolTip(tr("Go on in spite of it, for a reason that stays in the books"));
        card->addAction(settle);
        connect(settle, &QPushButton::clicked, this,
                [this, alert] { settleFinding(m_desk, this, qt(alert.subject), qt(alert.finding.rule)); });
    }
}

Page* makeTodayPage(Desk& desk) {
    return new TodayPage(desk);
}

} // namespace tarebook
