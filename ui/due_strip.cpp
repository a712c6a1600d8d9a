#include "ui/due_strip.h"

#include "ui/kit.h"
#include "ui/theme.h"

#include <QKeyEvent>
#include <QLocale>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

namespace tarebook {

DueStrip::DueStrip(QWidget* parent) : QWidget(parent) {
    setObjectName(QStringLiteral("dueStrip"));
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Retests due in the coming months"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void DueStrip::setMonths(const std::vector<DueMonth>& months) {
    m_months = months;
    m_chosen = std::clamp(m_chosen, 0, std::max(0, static_cast<int>(months.size()) - 1));
    QStringList told;
    for (const DueMonth& month : months) {
        told.append(tr("%1: %2").arg(qt(month.month.text())).arg(month.count));
    }
    setAccessibleDescription(told.join(QStringLiteral(", ")));
    update();
}

QSize DueStrip::sizeHint() const {
    const int line = fontMetrics().height();
    return {line * 30, line * 6};
}

QSize DueStrip::minimumSizeHint() const {
    constexpr int kMonths = 12;
    return {fontMetrics().averageCharWidth() * 2 * kMonths, sizeHint().height()};
}

int DueStrip::columnAt(int x) const {
    if (m_months.empty() || width() == 0) {
        return -1;
    }
    return std::clamp(x * static_cast<int>(m_months.size()) / width(), 0,
                      static_cast<int>(m_months.size()) - 1);
}

void DueStrip::paintEvent(QPaintEvent*) {
    if (m_months.empty()) {
        return;
    }
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const int line = fontMetrics().height();
    const auto count = static_cast<int>(m_months.size());
    std::int64_t most = 1;
    for (const DueMonth& month : m_months) {
        most = std::max(most, month.count);
    }
    const int base = height() - line * 2 - 4;
    const int room = base - line - 2;
    for (int place = 0; place < count; ++place) {
        const DueMonth& month = m_months[static_cast<std::size_t>(place)];
        const QRect box(width() * place / count, 0, width() / count, height());
        const auto tall = static_cast<int>(static_cast<double>(room) * static_cast<double>(month.count) /
                                           static_cast<double>(most));
        const QRect bar(box.left() + box.width() / 5, base - tall, box.width() * 3 / 5, tall);
        painter.fillRect(bar, theme::ink(place == 0 ? Severity::caution : Severity::note, palette()));
        painter.setPen(palette().color(QPalette::WindowText));
        if (month.count > 0) {
            painter.drawText(QRect(box.left(), bar.top() - line, box.width(), line), Qt::AlignCenter,
                             QString::number(month.count));
        }
        painter.setPen(theme::quiet(palette()));
        const QString whole = QLocale::c().monthName(month.month.month(), QLocale::ShortFormat);
        // One beside the other, or by their letters where they would run together.
        const QString name = fontMetrics().horizontalAdvance(whole) < box.width() ? whole : whole.left(1);
        const QRect below(box.left(), base + 4, box.width(), line);
        painter.drawText(below, Qt::AlignCenter, name);
        if (place == 0 || month.month.month() == 1) {
            const QString year = QString::number(month.month.year());
            const bool fits = fontMetrics().horizontalAdvance(year) < box.width();
            const QRect under = below.translated(0, line);
            // A year runs on below the months that follow, whose place is empty.
            painter.drawText(fits ? under : under.adjusted(0, 0, line * 3, 0),
                             fits ? static_cast<int>(Qt::AlignCenter)
                                  : static_cast<int>(Qt::AlignLeft | Qt::AlignVCenter),
                             year);
        }
        if (hasFocus() && place == m_chosen) {
            painter.setPen(QPen(palette().color(QPalette::Highlight), 2));
            painter.drawRoundedRect(box.adjusted(1, 1, -1, -1), 4, 4);
        }
    }
    painter.setPen(theme::line(palette()));
    painter.drawLine(0, base, width(), base);
}

void DueStrip::tellChosen() {
    if (m_chosen >= 0 && m_chosen < static_cast<int>(m_months.size())) {
        emit monthOpened(qt(m_months[static_cast<std::size_t>(m_chosen)].month.text()));
    }
}

void DueStrip::mousePressEvent(QMouseEvent* event) {
    m_chosen = columnAt(static_cast<int>(event->position().x()));
    update();
    tellChosen();
}

void DueStrip::keyPressEvent(QKeyEvent* event) {
    const int last = static_cast<int>(m_months.size()) - 1;
    switch (event->key()) {
    case Qt::Key_Left:
        m_chosen = std::max(0, m_chosen - 1);
        break;
    case Qt::Key_Right:
        m_chosen = std::min(last, m_chosen + 1);
        break;
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_Space:
        tellChosen();
        break;
    default:
        QWidget::keyPressEvent(event);
        return;
    }
    update();
}

} // namespace tarebook
