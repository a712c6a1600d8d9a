// What a person does with a window that the tests of one panel need not: boxes by keys, dialogs that open
// inside dialogs, a file chosen by its name.
#pragma once

#include <QApplication>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QLineEdit>
#include <QTest>
#include <QTimer>

#include <functional>

#include "tests/gui/support/week_window.h"

namespace tarebook::tests {

inline constexpr int kLookMs = 20;

/// Waits for a dialog of that name to open, then does this in it, once. `done` says that it happened: whoever
/// expects it looks at it afterwards.
inline void whenOpen(QObject& owner, const char* dialog, bool& done, const std::function<void()>& act) {
    done = false;
    auto* timer = new QTimer(&owner);
    timer->callOnTimeout(&owner, [timer, dialog, &done, act] {
        const QWidget* open = QApplication::activeModalWidget();
        if (open != nullptr && open->objectName() == QLatin1String(dialog)) {
            timer->stop();
            timer->deleteLater();
            done = true;
            act();
        }
    });
    timer->start(kLookMs);
}

/// Waits for a file to be asked for, puts its name in and agrees. It is not typed letter by letter: a list of
/// what is meant would open below it and take the click that agrees.
inline void whenAFileIsAsked(QObject& owner, const std::string& path, bool& done) {
    done = false;
    auto* timer = new QTimer(&owner);
    timer->callOnTimeout(&owner, [timer, path, &done] {
        auto* files = qobject_cast<QFileDialog*>(QApplication::activeModalWidget());
        if (files == nullptr) {
            return;
        }
        timer->stop();
        timer->deleteLater();
        done = true;
        auto* name = files->findChild<QLineEdit*>(QStringLiteral("fileNameEdit"));
        name->setFocus();
        name->setText(QString::fromStdString(path));
        files->findChild<QDialogButtonBox*>()->buttons().front()->click();
    });
    timer->start(kLookMs);
}

/// Goes to an item of a box by the keys, from its first one down.
inline void pick(QComboBox& box, int item) {
    box.setFocus();
    QTest::keyClick(&box, Qt::Key_Home);
    for (int step = 0; step < item && box.currentIndex() < item; ++step) {
        QTest::keyClick(&box, Qt::Key_Down);
    }
    QApplication::processEvents();
}

} // namespace tarebook::tests
