#include "ui/mass_edit.h"

#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/scale.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QShortcut>
#include <QToolButton>

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

void MassEdit::offerScale() {
    m_weigh = new QToolButton(this);
    m_weigh->setObjectName(m_line->objectName() + QStringLiteral("Weigh"));
    m_weigh->setText(tr("Scale"));
    m_weigh->setToolTip(tr("Read the scale once it is at rest (F8)"));
    m_weigh->setAccessibleName(tr("Read the scale into %1").arg(m_line->accessibleName()));
    auto* keys = new QShortcut(Qt::Key_F8, m_line, nullptr, nullptr, Qt::WidgetShortcut);
    m_weigh->setVisible(ScalePort::kept().isSet());
    qobject_cast<QHBoxLayout*>(layout())->insertWidget(1, m_weigh);
    connect(&m_desk, &Desk::scaleChanged, m_weigh,
            [this] { m_weigh->setVisible(ScalePort::kept().isSet()); });
    connect(m_weigh, &QToolButton::clicked, this, &MassEdit::weigh);
    connect(keys, &QShortcut::activated, this, &MassEdit::weigh);
}

void MassEdit::weigh() {
    const ScalePort port = ScalePort::kept();
    if (!port.isSet()) {
        m_understood->setText(tr("No scale is set up: Shop, Scale."));
        return;
    }
    auto* scale = new Scale(this);
    m_weigh->setEnabled(false);
    m_line->clear();
    m_line->setFocus();
    m_understood->setText(tr("waiting for the scale …"));
    const auto ended = [this, scale] {
        m_weigh->setEnabled(true);
        scale->disconnect(this);
        scale->stop();
        scale->deleteLater();
    };
    connect(scale, &Scale::heard, this,
            [this](const QString&, const QString& understood) { m_understood->setText(understood); });
    connect(scale, &Scale::weighed, this, [this, ended](const QString& text) {
        ended();
        setText(text);
        m_line->selectAll();
    });
    connect(scale, &Scale::failed, this, [this, ended](const QString& why) {
        ended();
        m_understood->setText(why);
    });
    // Who types does not wait for the scale.
    connect(m_line, &QLineEdit::textEdited, scale, ended);
    scale->weigh(port);
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
