#include "ui/scan_field.h"

#include <QKeyEvent>
#include <QShortcut>

namespace tarebook {

ScanField::ScanField(QWidget* parent) : QLineEdit(parent) {
    setObjectName(QStringLiteral("scanField"));
    setAccessibleName(tr("Scan or type a cylinder, a person, a job or a weight"));
    setPlaceholderText(tr("Scan or type: a cylinder, a person, a job, or a weight with its unit  (Ctrl+L)"));
    setToolTip(tr("Ctrl+L or F2 brings you here from everywhere"));
    setClearButtonEnabled(true);
    constexpr int kLongest = 200; // a scanner that runs wild must not fill the window
    setMaxLength(kLongest);
    QFont larger = font();
    larger.setPointSizeF(larger.pointSizeF() * 1.15);
    setFont(larger);
    connect(this, &QLineEdit::returnPressed, this, [this] {
        const QString read = text().trimmed();
        clear();
        if (read.isEmpty()) {
            emit entered();
        } else {
            emit scanned(read);
        }
    });
    if (parent != nullptr) {
        for (const auto& keys : {QKeySequence(Qt::CTRL | Qt::Key_L), QKeySequence(Qt::Key_F2)}) {
            connect(new QShortcut(keys, parent), &QShortcut::activated, this, &ScanField::seize);
        }
    }
}

void ScanField::begin(const QString& typed) {
    setFocus(Qt::OtherFocusReason);
    setText(typed);
}

void ScanField::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        clear();
        return;
    }
    QLineEdit::keyPressEvent(event);
}

void ScanField::seize() {
    setFocus(Qt::ShortcutFocusReason);
    selectAll();
}

} // namespace tarebook
