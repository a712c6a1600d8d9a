#include "ui/books_of.h"

#include "core/shop/books.h"
#include "core/shop/card.h"
#include "ui/kit.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QDateEdit>
#include <QLabel>
#include <QSpinBox>

#include <algorithm>
#include <limits>

namespace tarebook {
namespace {

QDate qtDate(Date day) {
    return QDate(1970, 1, 1).addDays(day.dayNumber());
}

} // namespace

BooksOf::BooksOf(Shop& shop, QWidget* parent)
    : QWidget(parent), m_shop(shop), m_choice(new QComboBox(this)), m_day(new QDateEdit(this)),
      m_entry(new QSpinBox(this)), m_words(kit::hint({}, this)) {
    m_choice->setObjectName(QStringLiteral("booksOf"));
    m_choice->setAccessibleName(tr("Books of"));
    m_choice->addItems({tr("now"), tr("the end of the day"), tr("when this was the newest entry")});
    m_day->setObjectName(QStringLiteral("booksOfDay"));
    m_day->setAccessibleName(tr("Books of the end of the day"));
    m_day->setDisplayFormat(QStringLiteral("yyyy-MM-dd"));
    m_day->setCalendarPopup(true);
    m_day->setMaximumDate(qtDate(m_shop.today()));
    m_day->setDate(qtDate(m_shop.today()));
    m_entry->setObjectName(QStringLiteral("booksOfEntry"));
    m_entry->setAccessibleName(tr("Books of when this was the newest entry"));
    const auto newest = std::min<Sequence>(m_shop.store().headSeq(), std::numeric_limits<int>::max());
    m_entry->setRange(std::min(1, static_cast<int>(newest)), static_cast<int>(newest));
    m_entry->setValue(m_entry->maximum());
    m_words->setObjectName(QStringLiteral("booksOfWords"));

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    auto* row = new QHBoxLayout;
    row->addWidget(m_choice);
    row->addWidget(m_day);
    row->addWidget(m_entry);
    row->addStretch(1);
    column->addLayout(row);
    column->addWidget(m_words);
    setFocusProxy(m_choice);
    connect(m_choice, &QComboBox::currentIndexChanged, this, &BooksOf::follow);
    connect(m_day, &QDateEdit::dateChanged, this, &BooksOf::follow);
    connect(m_entry, &QSpinBox::valueChanged, this, &BooksOf::follow);
    follow();
}

Sequence BooksOf::head() const {
    switch (m_choice->currentIndex()) {
    case endOfDay: {
        const auto days = static_cast<int>(QDate(1970, 1, 1).daysTo(m_day->date()));
        return headOn(m_shop, Date::fromDayNumber(days));
    }
    case atEntry:
        return m_entry->value();
    default:
        return m_shop.store().headSeq();
    }
}

QDate BooksOf::day() const {
    if (m_choice->currentIndex() == asTheyStand) {
        return qtDate(m_shop.today());
    }
    const Sequence newest = head();
    const auto entry = newest > 0 ? m_shop.store().entry(newest) : Result<Entry>(Error{});
    return entry ? qtDate(m_shop.zone().dateOf(entry.value().recorded)) : qtDate(m_shop.today());
}

void BooksOf::follow() {
    m_day->setVisible(m_choice->currentIndex() == endOfDay);
    m_entry->setVisible(m_choice->currentIndex() == atEntry);
    const Sequence newest = head();
    const auto entry = newest > 0 ? m_shop.store().entry(newest) : Result<Entry>(Error{});
    m_words->setText(entry ? tr("Newest entry: %1, recorded %2")
                                 .arg(newest)
                                 .arg(qt(m_shop.zone().localText(entry.value().recorded)))
                           : tr("Nothing was recorded by then: choose a later day."));
    emit changed();
}

} // namespace tarebook
