#include "ui/mass_edit.h"

#include "ui/desk.h"
#include "ui/kit.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>

namespace tarebook {

MassEdit::MassEdit(Desk& desk, const QString& name, const QString& caption, QWidget* parent)
    : QWidget(parent), m_desk(desk), m_line(new QLineEdit(this)), m_understood(kit::hint({}, this)) {
    m_line->setObjectName(name);
    m_line->setAccessibleName(caption);
    m_line->setPlaceholderText(qt(desk.shop().display().massUnit()));
    m_line->setMinimumWidth(fontMetrics().horizontalAdvance(QStringLiteral("000 lb 00 oz ")));
    m_understood->setObjectName(name + QStringLiteral("Understood"));
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_line, 1);
    layout->addWidget(m_understood, 2);
    setFocusProxy(m_line);
    setFocusPolicy(m_line->focusPolicy()); // so that the letter of its label leads here
    connect(m_line, &QLineEdit::textChanged, this, [this] {
        read();
        emit edited();
    });
}

bool MassEdit::blank() const {
    return m_line->text().trimmed().isEmpty();
}

bool MassEdit::wrong() const {
    return !blank() && !m_mass;
}

void MassEdit::setText(const QString& text) {
    m_line->setText(text);
}

void MassEdit::read() {
    m_mass.reset();
    if (blank()) {
        m_understood->clear();
        return;
    }
    const Display display = m_desk.shop().display();
    const auto read = display.readMass(utf8(m_line->text()));
    if (read) {
        m_mass = read.value();
        m_understood->setText(tr("taken as %1").arg(qt(display.mass(read.value()))));
    } else {
        m_understood->setText(qt(read.error().text()));
    }
}

} // namespace tarebook
