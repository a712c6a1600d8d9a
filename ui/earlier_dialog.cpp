#include "ui/earlier_dialog.h"

#include "core/shop/books.h"
#include "core/shop/card.h"
#include "ui/kit.h"

#include <QBoxLayout>
#include <QDateEdit>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QRadioButton>
#include <QSpinBox>

#include <limits>

namespace tarebook {
namespace {

QDate dateOf(Date day) {
    return QDate(1970, 1, 1).addDays(day.dayNumber());
}

} // namespace

EarlierDialog::EarlierDialog(Shop& shop, QWidget* parent)
    : QDialog(parent), m_shop(shop), m_byDay(new QRadioButton(tr("At the end of the &day"), this)),
      m_byEntry(new QRadioButton(tr("When this was the newest &entry"), this)), m_day(new QDateEdit(this)),
      m_entry(new QSpinBox(this)), m_words(kit::hint({}, this)) {
    setObjectName(QStringLiteral("earlierDialog"));
    setWindowTitle(tr("As the books stood"));
    m_byDay->setObjectName(QStringLiteral("earlierByDay"));
    m_byEntry->setObjectName(QStringLiteral("earlierByEntry"));
    m_day->setObjectName(QStringLiteral("earlierDay"));
    m_entry->setObjectName(QStringLiteral("earlierEntry"));
    m_words->setObjectName(QStringLiteral("earlierWords"));

    m_day->setDisplayFormat(QStringLiteral("yyyy-MM-dd"));
    m_day->setCalendarPopup(true);
    m_day->setMaximumDate(dateOf(m_shop.today()));
    m_day->setDate(dateOf(m_shop.today().plusDays(-1)));
    const Sequence newest = m_shop.store().headSeq();
    m_entry->setRange(1, static_cast<int>(std::min<Sequence>(newest, std::numeric_limits<int>::max())));
    m_entry->setValue(m_entry->maximum());
    m_byDay->setChecked(true);

    auto* column = new QVBoxLayout(this);
    column->setSpacing(fontMetrics().height() / 2);
    column->addWidget(
        kit::hint(tr("Shows every place as it was then, whatever was entered since, for reading only. The "
                     "books of today are not touched."),
                  this));
    auto* grid = new QGridLayout;
    grid->addWidget(m_byDay, 0, 0);
    grid->addWidget(m_day, 0, 1);
    grid->addWidget(m_byEntry, 1, 0);
    grid->addWidget(m_entry, 1, 1);
    grid->setColumnStretch(2, 1);
    column->addLayout(grid);
    column->addWidget(m_words);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    m_show = buttons->addButton(tr("&Show them"), QDialogButtonBox::AcceptRole);
    m_show->setObjectName(QStringLiteral("earlierShow"));
    kit::makePrimary(m_show);
    column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_byDay, &QRadioButton::toggled, this, &EarlierDialog::follow);
    connect(m_day, &QDateEdit::dateChanged, this, &EarlierDialog::follow);
    connect(m_entry, &QSpinBox::valueChanged, this, &EarlierDialog::follow);
    follow();
    setMinimumWidth(fontMetrics().averageCharWidth() * 70);
}

Sequence EarlierDialog::head() const {
    if (m_byEntry->isChecked()) {
        return m_entry->value();
    }
    const auto days = static_cast<int>(QDate(1970, 1, 1).daysTo(m_day->date()));
    return headOn(m_shop, Date::fromDayNumber(days));
}

void EarlierDialog::follow() {
    m_day->setEnabled(m_byDay->isChecked());
    m_entry->setEnabled(m_byEntry->isChecked());
    const Sequence newest = head();
    m_show->setEnabled(newest > 0);
    const auto entry = newest > 0 ? m_shop.store().entry(newest) : Result<Entry>(Error{});
    m_words->setText(entry ? tr("Newest then: entry %1, recorded %2: %3")
                                 .arg(newest)
                                 .arg(qt(m_shop.zone().localText(entry.value().recorded)),
                                      qt(sentenceOf(m_shop, entry.value())))
                           : tr("Nothing was recorded by then: choose a later day."));
}

} // namespace tarebook
