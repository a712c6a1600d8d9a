// Of the window: the menu of who is signed in, and what their role leaves of the other menus.
#include "ui/main_window.h"

#include "core/shop/operators.h"
#include "ui/kit.h"

#include <QAction>
#include <QMenu>
#include <QMenuBar>
#include <QPushButton>

namespace tarebook {

void MainWindow::buildOperatorMenu() {
    // Shown only where somebody signs in; who may is set up in the menu of the shop.
    QMenu* menu = menuBar()->addMenu(tr("Si&gned in"));
    menu->setObjectName(QStringLiteral("menuSignedIn"));
    const auto add = [&](const char* name, const QString& text, const QKeySequence& keys, auto signal) {
        auto* action = menu->addAction(text);
        action->setObjectName(QLatin1String(name));
        action->setShortcut(keys);
        connect(action, &QAction::triggered, this, signal);
        return action;
    };
    m_signedInOnly = {
        menu->menuAction(),
        add("actionLock", tr("&Lock"), QKeySequence(tr("Ctrl+Shift+L")), &MainWindow::lockAsked),
        add("actionOperatorChange", tr("&Change operator…"), {}, &MainWindow::operatorChangeAsked),
        add("actionPassphrase", tr("My &passphrase…"), {}, &MainWindow::passphraseAsked)};
    m_operator->setObjectName(QStringLiteral("operatorButton"));
    m_operator->setFlat(true);
    m_operator->setToolTip(tr("Who is signed in: every entry carries the name. Press to change operator."));
    connect(m_operator, &QPushButton::clicked, this, &MainWindow::operatorChangeAsked);
}

void MainWindow::followOperator() {
    Shop& shop = m_desk.shop();
    const auto writer = shop.store().signedIn();
    m_operator->setVisible(writer.has_value());
    if (writer) {
        m_operator->setText(tr("%1, %2").arg(qt(writer->name), qt(std::string(roleWord(writer->role)))));
    }
    for (QAction* action : m_signedInOnly) {
        action->setVisible(writer.has_value());
    }
    for (const auto& [name, kind] : {std::pair{"actionSettings", EntryKind::settingSet},
                                     {"actionImport", EntryKind::cylinderRegistered},
                                     {"actionRegister", EntryKind::cylinderRegistered},
                                     {"actionNames", EntryKind::personSet},
                                     {"actionUndo", EntryKind::entryReversed}}) {
        findChild<QAction*>(QLatin1String(name))->setVisible(may(shop, kind));
    }
    const bool manages = !writer || writer->role == Role::manager;
    for (const char* name : {"actionOperators", "actionCopies"}) { // going back drops entries
        findChild<QAction*>(QLatin1String(name))->setVisible(manages);
    }
    findChild<QAction*>(QStringLiteral("actionPassphrase"))
        ->setVisible(writer && may(shop, EntryKind::operatorSet));
    if (shop.store().needsSignIn()) {
        emit signInNeeded();
    }
}

} // namespace tarebook
