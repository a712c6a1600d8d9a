#include "ui/today_page.h"

#include "core/shop/register.h"
#include "ui/desk.h"
#include "ui/due_strip.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/pages.h"
#include "ui/questions.h"

#include <QBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>

namespace tarebook {
namespace {

constexpr int kFirstShown = 30;

QString buttonWord(Remedy remedy) {
    switch (remedy) {
    case Remedy::decant:
        return QObject::tr("Decant…");
    case Remedy::test:
        return QObject::tr("Enter a test…");
    case Remedy::callBack:
        return QObject::tr("Check in…");
    case Remedy::weigh:
        return QObject::tr("Weigh again…");
    case Remedy::renewCertificate:
        return QObject::tr("New date…");
    case Remedy::enterReceipt:
        return QObject::tr("Enter receipt…");
    default:
        return QObject::tr("Open card");
    }
}

} // namespace

TodayPage::TodayPage(Desk& desk, QWidget* parent) : Page(parent), m_desk(desk), m_shown(kFirstShown) {
    setObjectName(QStringLiteral("todayPage"));
    auto* column = new QVBoxLayout(this);
    const int gap = fontMetrics().height() / 2;
    column->setContentsMargins(gap * 2, gap, gap * 2, gap);
    column->setSpacing(gap);
    buildHead(*column);
    buildEmpty(*column);
    auto* area = new QScrollArea(this);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    m_list = new QWidget(area);
    auto* inside = new QVBoxLayout(m_list);
    inside->setContentsMargins(0, 0, gap, 0);
    m_view = new FindingView(m_list);
    m_view->setObjectName(QStringLiteral("alerts"));
    m_view->setEmptyText(tr("Nothing needs doing today."));
    m_more = new QPushButton(tr("Show more"), m_list);
    m_more->setObjectName(QStringLiteral("showMore"));
    connect(m_more, &QPushButton::clicked, this, [this] {
        m_shown *= 4;
        refresh();
    });
    inside->addWidget(m_view);
    inside->addWidget(m_more, 0, Qt::AlignLeft);
    inside->addStretch(1);
    area->setWidget(m_list);
    column->addWidget(area, 1);
}

void TodayPage::buildHead(QVBoxLayout& column) {
    m_head = new QWidget(this);
    auto* row = new QHBoxLayout(m_head);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(kit::figure(QStringLiteral("dangerCount"), tr("dangers"), &m_dangers, m_head));
    row->addWidget(
        kit::figure(QStringLiteral("refusalCount"), tr("not lawful as they are"), &m_refusals, m_head));
    row->addWidget(kit::figure(QStringLiteral("cautionCount"), tr("to see to"), &m_cautions, m_head));
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
    auto* row = new QHBoxLayout;
    row->addWidget(import);
    row->addWidget(first);
    row->addStretch(1);
    inside->addLayout(row);
    column.addWidget(m_emptyShop);
}

void TodayPage::refresh() {
    Shop& shop = m_desk.shop();
    const auto list = today(shop, shop.today(), m_shown);
    const bool empty = shop.store().fleetCount() == 0;
    m_emptyShop->setVisible(empty);
    m_head->setVisible(!empty);
    m_list->setVisible(!empty);
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
    m_more->setVisible(all > static_cast<std::int64_t>(list.value().alerts.size()));
    m_more->setText(tr("Show more (%1 in all)").arg(all));
}

void TodayPage::addAction(const Alert& alert, int place) {
    FindingCard* card = m_view->cards()[static_cast<std::size_t>(place)];
    auto* button = new QPushButton(buttonWord(alert.remedy), card);
    button->setObjectName(QStringLiteral("act:") + qt(alert.subject));
    button->setAccessibleName(tr("%1 for %2").arg(button->text(), qt(alert.title)));
    card->addAction(button);
    connect(button, &QPushButton::clicked, this, [this, alert] { act(alert); });
}

void TodayPage::act(const Alert& alert) {
    const QString title = qt(alert.title);
    switch (alert.remedy) {
    case Remedy::decant:
        emit m_desk.errand(Errand::decant, title);
        break;
    case Remedy::test:
        recordTest(title);
        break;
    case Remedy::callBack:
    case Remedy::weigh:
        emit m_desk.errand(Errand::checkIn, title);
        break;
    case Remedy::renewCertificate:
        renewCertificate(title);
        break;
    case Remedy::enterReceipt:
        emit m_desk.errand(Errand::batch, title);
        break;
    default:
        emit m_desk.showCylinder(title);
        break;
    }
}

void TodayPage::recordTest(const QString& serial) {
    const auto text =
        questions::askText(this, tr("Test of %1").arg(serial),
                           tr("Month and year of the new mark, as 2026-11"), tr("Enter the test"));
    if (!text) {
        return;
    }
    const auto month = MonthYear::parse(utf8(*text));
    if (!month) {
        questions::tell(this, tr("Not entered"), qt(month.error().text()));
        return;
    }
    TestResult result{utf8(serial), month.value(), {}, {}, {}, {}, true, {}};
    const Recorded recorded = tarebook::recordTest(m_desk.shop(), result);
    m_desk.notifyRecorded(recorded);
    m_desk.say(recorded.ok() ? tr("%1 passed its test of %2").arg(serial, qt(month.value().text()))
                             : kit::told(recorded, tr("Not entered")));
}

void TodayPage::renewCertificate(const QString& name) {
    const auto text =
        questions::askText(this, tr("Certificate of %1").arg(name),
                           tr("Last day of the new certificate, as 2029-03-31"), tr("Enter the day"));
    if (!text) {
        return;
    }
    const auto day = Date::parse(utf8(*text));
    if (!day) {
        questions::tell(this, tr("Not entered"), qt(day.error().text()));
        return;
    }
    for (Person person : people(m_desk.shop())) {
        if (person.name == utf8(name)) {
            person.certificateExpires = day.value();
            const Recorded recorded = m_desk.shop().record({draftOf(m_desk.shop(), person)});
            m_desk.notifyRecorded(recorded);
            m_desk.say(recorded.ok() ? tr("Certificate of %1 runs until %2").arg(name, qt(day.value().text()))
                                     : kit::told(recorded, tr("Not entered")));
        }
    }
}

Page* makeTodayPage(Desk& desk) {
    return new TodayPage(desk);
}

} // namespace tarebook
