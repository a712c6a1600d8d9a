// Of the program: who is signed in.
#include "core/shop/operators.h"
#include "ui/kit.h"
#include "ui/lock.h"
#include "ui/operators_dialog.h"
#include "ui/program.h"
#include "ui/sign_in_dialog.h"

namespace tarebook {

bool Program::letIn(Shop& shop, QWidget* asker) {
    if (!shop.store().needsSignIn()) {
        return true;
    }
    SignInDialog dialog(shop, m_clock, SignInDialog::Why::opening, asker);
    return dialog.exec() == QDialog::Accepted;
}

void Program::connectOperators() {
    MainWindow* window = m_window;
    // Queued: the lock waits in a loop of its own, and a new operator replaces the window.
    connect(
        window, &MainWindow::lockAsked, this, [this] { m_lock->lock(); }, Qt::QueuedConnection);
    connect(
        window, &MainWindow::signInNeeded, this,
        [this] {
            if (m_shop->store().needsSignIn()) { // still, by now
                m_lock->lock();
            }
        },
        Qt::QueuedConnection);
    connect(window, &MainWindow::operatorChangeAsked, this, &Program::changeOperator, Qt::QueuedConnection);
    connect(window, &MainWindow::passphraseAsked, window, [window] {
        if (const auto writer = window->desk().shop().store().signedIn()) {
            askNewPassphrase(window->desk(), window, qt(writer->name));
        }
    });
    connect(window, &MainWindow::operatorsAsked, window, [this, window] {
        OperatorsDialog dialog(window->desk(), m_clock, window);
        connect(&dialog, &OperatorsDialog::signedIn, window, [this, window] {
            window->followOperator();
            m_lock->follow();
        });
        dialog.exec();
    });
    connect(&window->desk(), &Desk::changed, m_lock.get(), &Lock::follow);
}

void Program::changeOperator() {
    bool changed = false;
    {
        // A child of the window that goes: it has to be gone by then.
        SignInDialog dialog(*m_shop, m_clock, SignInDialog::Why::changing, m_window);
        changed = dialog.exec() == QDialog::Accepted;
    }
    if (changed) {
        beginAnew();
    }
}

void Program::beginAnew() {
    const QRect place = m_window->geometry();
    adopt(std::move(m_shop));
    m_window->setGeometry(place);
}

} // namespace tarebook
