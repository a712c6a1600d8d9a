#include "ui/photographer.h"

#include <QApplication>
#include <QDialog>
#include <QTimer>

namespace tarebook {
namespace {

constexpr int kRounds = 4;

} // namespace

void Photographer::settle() {
    for (int round = 0; round < kRounds; ++round) {
        QApplication::processEvents();
    }
}

void Photographer::take(QWidget& window, const QString& name) {
    settle();
    m_good = m_look(window, name) && m_good;
}

void Photographer::takeDialog(QDialog& dialog, const QString& name) {
    dialog.show();
    take(dialog, name);
    dialog.close();
}

void Photographer::takeAsked(const std::function<void()>& open, const QString& name) {
    bool seen = false;
    QTimer::singleShot(0, qApp, [&] {
        auto* asked = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        if (asked != nullptr) {
            seen = true;
            take(*asked, name);
            asked->reject();
        }
    });
    open();
    settle(); // where nothing was opened, the look is not left waiting for another one's dialog
    m_good = seen && m_good;
}

} // namespace tarebook
