#include "ui/main_window.h"

#include "core/store/store.h"
#include "ui/day_dialog.h"
#include "ui/deposits_dialog.h"
#include "ui/kit.h"
#include "ui/memory.h"
#include "ui/questions.h"
#include "ui/quick_figures.h"
#include "ui/refrigerant_window.h"
#include "ui/rulebook_window.h"
#include "ui/scale_dialog.h"
#include "ui/stocktake_dialog.h"

#include <QAction>
#include <QApplication>
#include <QFileDialog>
#include <QLabel>
#include <QMenu>
#include <QMenuBar>

namespace tarebook {
namespace {

QAction* add(QMenu* menu, const char* name, const QString& text, const QKeySequence& keys = {}) {
    auto* action = menu->addAction(text);
    action->setObjectName(QLatin1String(name));
    action->setShortcut(keys);
    return action;
}

/// Beside the work, not in its way: it may stay open while one checks in.
void showBeside(QDialog* window) {
    window->setAttribute(Qt::WA_DeleteOnClose);
    window->show();
}

} // namespace

void MainWindow::buildMenus() {
    QMenu* shop = menuBar()->addMenu(tr("&Shop"));
    connect(add(shop, "actionNewShop", tr("&New shop…"), QKeySequence::New), &QAction::triggered, this,
            &MainWindow::newShopAsked);
    connect(add(shop, "actionOpenShop", tr("&Open…"), QKeySequence::Open), &QAction::triggered, this,
            &MainWindow::openShopAsked);
    connect(add(shop, "actionSample", tr("Open the sa&mple shop")), &QAction::triggered, this,
            &MainWindow::sampleAsked);
    shop->addSeparator();
    connect(add(shop, "actionImport", tr("&Import a spreadsheet…"), QKeySequence(tr("Ctrl+I"))),
            &QAction::triggered, &m_desk, &Desk::importAsked);
    connect(add(shop, "actionBackup", tr("&Back up to…")), &QAction::triggered, this, &MainWindow::backUp);
    connect(add(shop, "actionCopies", tr("&Copies and going back…")), &QAction::triggered, this,
            &MainWindow::copiesAsked);
    connect(add(shop, "actionEarlier", tr("&As the books stood…")), &QAction::triggered, this,
            &MainWindow::earlierAsked);
    connect(add(shop, "actionSettings", tr("S&ettings…"), QKeySequence(tr("Ctrl+,"))), &QAction::triggered,
            &m_desk, &Desk::settingsAsked);
    connect(add(shop, "actionOperators", tr("Ope&rators…")), &QAction::triggered, this,
            &MainWindow::operatorsAsked);
    connect(add(shop, "actionScale", tr("Sca&le…")), &QAction::triggered, this, &MainWindow::setUpScale);
    QAction* sound = add(shop, "actionSound", tr("So&und on a wrong scan"));
    sound->setCheckable(true);
    sound->setChecked(programMemory().value(kSoundOnWrongScan, false).toBool());
    connect(sound, &QAction::toggled, this, [](bool on) { programMemory().setValue(kSoundOnWrongScan, on); });
    shop->addSeparator();
    connect(add(shop, "actionQuit", tr("&Quit"), QKeySequence::Quit), &QAction::triggered, this,
            &QWidget::close);

    QMenu* cylinder = menuBar()->addMenu(tr("&Cylinder"));
    connect(add(cylinder, "actionRegister", tr("&Register a cylinder…"), QKeySequence(tr("Ctrl+R"))),
            &QAction::triggered, &m_desk, &Desk::registerAsked);
    connect(add(cylinder, "actionStocktake", tr("&Stocktake…"), QKeySequence(tr("Ctrl+K"))),
            &QAction::triggered, this, &MainWindow::showStocktake);
    connect(add(cylinder, "actionDay", tr("Plan a &day…"), QKeySequence(tr("Ctrl+D"))), &QAction::triggered,
            this, [this] { showBeside(new DayDialog(m_desk, this)); });
    connect(add(cylinder, "actionDeposits", tr("D&eposits and rental…")), &QAction::triggered, this,
            [this] { showBeside(new DepositsDialog(m_desk, this)); });
    connect(
        add(cylinder, "actionNames", tr("&People, systems, machines, parties…"), QKeySequence(tr("Ctrl+P"))),
        &QAction::triggered, &m_desk, &Desk::namesAsked);
    connect(
        add(cylinder, "actionRefrigerants", tr("Re&frigerants and mixtures…"), QKeySequence(tr("Ctrl+T"))),
        &QAction::triggered, this, &MainWindow::showRefrigerants);
    connect(add(cylinder, "actionQuickFigures", tr("&Quick figures…"), QKeySequence(tr("Ctrl+G"))),
            &QAction::triggered, this, &MainWindow::showQuickFigures);
    connect(add(cylinder, "actionRulebooks", tr("Rule&books…"), QKeySequence(tr("Ctrl+B"))),
            &QAction::triggered, this, &MainWindow::showRulebooks);
    m_undo = add(cylinder, "actionUndo", tr("&Undo the last entry (writes a reversing entry)"),
                 QKeySequence(Qt::CTRL | Qt::Key_Z));
    connect(m_undo, &QAction::triggered, this, &MainWindow::undo);
    buildOperatorMenu();
}

void MainWindow::showRefrigerants() {
    showBeside(new RefrigerantWindow(m_desk, this));
}

void MainWindow::showStocktake() {
    showBeside(new StocktakeDialog(m_desk, this));
}

void MainWindow::setUpScale() {
    ScaleDialog dialog(this);
    if (dialog.exec() == QDialog::Accepted) {
        const ScalePort port = dialog.port();
        port.keep();
        m_said->setText(
            port.isSet()
                ? tr("The scale on %1 is read by F8 in a weight, or by the button beside it.").arg(port.port)
                : tr("No scale: weights are typed."));
        emit m_desk.scaleChanged();
    }
}

void MainWindow::showQuickFigures() {
    showBeside(new QuickFiguresWindow(m_desk, this));
}

void MainWindow::showRulebooks() {
    showBeside(new RulebookWindow(m_desk, this));
}

void MainWindow::backUp() {
    const QString suggested = qt(m_desk.shop().store().path()) + QStringLiteral(".backup");
    const QString path = QFileDialog::getSaveFileName(this, tr("Back up the shop"), suggested);
    if (path.isEmpty()) {
        return;
    }
    QApplication::setOverrideCursor(Qt::WaitCursor);
    const auto made = m_desk.shop().store().backup(utf8(path));
    QApplication::restoreOverrideCursor();
    m_said->setText(made ? tr("Copied and verified: %1").arg(path)
                         : tr("No backup was made: %1").arg(qt(made.error().text())));
}

} // namespace tarebook
