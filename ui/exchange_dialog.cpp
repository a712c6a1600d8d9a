#include "ui/exchange_dialog.h"

#include "core/shop/card.h"
#include "core/shop/moments.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/pickers.h"
#include "ui/questions.h"
#include "ui/scroll_side.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace tarebook {

void enterExchange(Desk& desk, QWidget* parent, const QString& serial) {
    ExchangeDialog(desk, serial, parent).exec();
}

ExchangeDialog::ExchangeDialog(Desk& desk, const QString& serial, QWidget* parent)
    : RegisterDialog(desk, parent), m_desk(desk), m_serial(serial), m_party(new QComboBox(this)),
      m_review(new QLabel(this)) {
    setObjectName(QStringLiteral("exchangeDialog"));
    addPage(exchangePage(), tr("E&xchange"));
    const auto old = desk.shop().store().cylinder(utf8(serial));
    become({tr("%1 for another number").arg(serial), tr("Enter the exchange"),
            tr("The marks of the cylinder that came, as they are stamped on its collar."),
            old && old.value() ? old.value()->plate.owner : Owner(),
            [this](const NewCylinder& came) { return judge(came); },
            [this](const NewCylinder& came) { return enter(came); },
            [this] {
                m_review->setText(tr("The marks, or what is inside, are not right yet: see their pages."));
            }});
}

QWidget* ExchangeDialog::exchangePage() {
    auto* page = new ScrollSide(this);
    QVBoxLayout& column = page->column();
    const int margin = fontMetrics().height() / 3;
    column.setContentsMargins(margin, margin, margin, 0);
    column.addWidget(kit::hint(tr("At whose counter %1 was given. What it holds by the books goes to a "
                                  "reclaimer as a batch of this one cylinder; used gas goes to nobody else.")
                                   .arg(m_serial),
                               page->inside()));
    auto* form = new QFormLayout;
    m_party->setObjectName(QStringLiteral("exchangeParty"));
    m_party->setAccessibleName(tr("At the counter of"));
    m_party->addItem(QString(), QString());
    for (const auto& [kind, caption] :
         {std::pair{"reclaimer", tr("%1, reclaimer")}, std::pair{"supplier", tr("%1, supplier")}}) {
        for (const Party& party : parties(m_desk.shop(), kind)) {
            m_party->addItem(caption.arg(qt(party.name)), qt(std::string(kind) + ":" + party.name));
        }
    }
    form->addRow(tr("At the &counter of"), m_party);
    m_when = ReadField::in(*form, page->inside(), QStringLiteral("exchange"), "when", tr("&When"),
                           tr("now when blank; 2026-09-14 15:30"));
    m_why = ReadField::in(*form, page->inside(), QStringLiteral("exchange"), "why", tr("Wh&y"),
                          tr("blank, or what is to be kept with it"));
    column.addLayout(form);
    m_review->setObjectName(QStringLiteral("exchangeReview"));
    m_review->setAccessibleName(tr("What will be written"));
    m_review->setTextFormat(Qt::PlainText);
    m_review->setWordWrap(true);
    m_review->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    column.addWidget(m_review);
    column.addStretch(1);
    connect(m_party, &QComboBox::currentIndexChanged, this, &ExchangeDialog::follow);
    for (const ReadField* field : {&m_when, &m_why}) {
        connect(field->line, &QLineEdit::textChanged, this, &ExchangeDialog::follow);
    }
    kit::roomyLabels(page);
    return page;
}

std::optional<CounterExchange> ExchangeDialog::read(const NewCylinder& came) {
    CounterExchange exchange;
    exchange.out = utf8(m_serial);
    exchange.party = utf8(m_party->currentData().toString());
    exchange.came = came;
    exchange.ownerSaid = true;
    exchange.reason = m_why.text();
    const auto when = readMoment(m_desk.shop(), m_when.text());
    m_when.tell(when && when.value() ? m_desk.shop().zone().localText(*when.value()) : std::string(),
                when ? nullptr : &when.error());
    if (!when || exchange.party.empty()) {
        return std::nullopt;
    }
    exchange.occurred = when.value();
    return exchange;
}

RegisterDialog::Judged ExchangeDialog::judge(const NewCylinder& came) {
    const auto exchange = read(came);
    if (!exchange) {
        m_review->setText(m_party->currentIndex() <= 0 ? tr("Say at whose counter it was exchanged.")
                                                       : QString());
        return {};
    }
    ExchangeReview reviewed = review(m_desk.shop(), *exchange);
    if (reviewed.impossible) {
        m_review->setText(qt(reviewed.impossible->text()));
        return {};
    }
    QStringList lines = {tr("Will be written, in one step:")};
    for (const std::string& entry : reviewed.entries) {
        lines << QStringLiteral("• ") + qt(entry);
    }
    m_review->setText(lines.join(QLatin1Char('\n')));
    return {std::move(reviewed.findings), true}; // it happened: what the law says of it stands beside it
}

bool ExchangeDialog::enter(const NewCylinder& came) {
    const auto exchange = read(came);
    if (!exchange) {
        return false;
    }
    const ExchangedAtCounter done = exchangeAtCounter(m_desk.shop(), *exchange);
    m_desk.notifyRecorded(done.recorded);
    if (!done.recorded.ok()) {
        questions::tell(this, tr("Not entered"), kit::told(done.recorded, tr("Not entered")));
        return false;
    }
    const QString serial = qt(came.plate.serial);
    m_desk.say(done.batch.empty()
                   ? tr("%1 came for %2").arg(serial, m_serial)
                   : tr("%1 came for %2; what it held is batch %3").arg(serial, m_serial, qt(done.batch)));
    emit m_desk.showCylinder(serial);
    return true;
}

} // namespace tarebook
