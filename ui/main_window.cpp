#include "ui/main_window.h"

#include "core/shop/today.h"
#include "ui/kit.h"
#include "ui/memory.h"
#include "ui/page.h"
#include "ui/questions.h"
#include "ui/rail.h"
#include "ui/scan_field.h"
#include "ui/theme.h"

#include <QAbstractSpinBox>
#include <QAction>
#include <QApplication>
#include <QBoxLayout>
#include <QCheckBox>
#include <QComboBox>
#include <QKeyEvent>
#include <QLabel>
#include <QMenuBar>
#include <QPushButton>
#include <QShortcut>
#include <QStackedWidget>
#include <QStatusBar>

#include <algorithm>

namespace tarebook {
namespace {

constexpr int kDigestShown = 16; // as on papers: so many `verify --head` wants

/// Whether a letter means something to it: fields, boxes that are searched by letters, the menu bar.
bool takesText(const QWidget* widget) {
    return qobject_cast<const QLineEdit*>(widget) != nullptr ||
           qobject_cast<const QAbstractSpinBox*>(widget) != nullptr ||
           qobject_cast<const QComboBox*>(widget) != nullptr ||
           qobject_cast<const QMenuBar*>(widget) != nullptr;
}

} // namespace

MainWindow::MainWindow(Shop& shop, QWidget* parent)
    : QMainWindow(parent), m_desk(shop), m_places(places()), m_stack(new QStackedWidget(this)),
      m_scan(new ScanField(this)), m_earlier(new QFrame(this)), m_shopName(new QLabel(this)),
      m_head(new QLabel(this)), m_said(new QLabel(this)), m_undoButton(new QPushButton(this)),
      m_operator(new QPushButton(this)) {
    setObjectName(QStringLiteral("mainWindow"));
    build();
    buildMenus();
    buildStatusLine();
    connectDesk();
    const int line = fontMetrics().height();
    resize(line * 88, line * 50);
    openPlace(m_places.front().name);
    showWaiting();
    showStatus();
    followOperator();
    m_scan->setFocus();
    qApp->installEventFilter(this);
}

bool MainWindow::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::KeyPress || QApplication::activePopupWidget() != nullptr) {
        return false;
    }
    const QWidget* focused = QApplication::focusWidget();
    const bool first =
        watched == (focused == nullptr ? this : focused); // not the parents, when it is ignored
    return first && static_cast<QWidget*>(watched)->window() == this &&
           takeKey(*static_cast<QKeyEvent*>(event));
}

bool MainWindow::takeKey(const QKeyEvent& key) {
    QWidget* focused = QApplication::focusWidget();
    if ((key.modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier)) != 0) {
        return false;
    }
    if (key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter) {
        auto* button = qobject_cast<QAbstractButton*>(focused);
        const bool pressed = button != nullptr && qobject_cast<QCheckBox*>(button) == nullptr;
        if (pressed) {
            button->click();
        }
        return pressed;
    }
    const QString typed = key.text();
    if (takesText(focused) || typed.isEmpty() || !typed.at(0).isPrint() || typed.at(0).isSpace()) {
        return false;
    }
    m_scan->begin(typed);
    return true;
}

void MainWindow::build() {
    auto* middle = new QWidget(this);
    auto* row = new QHBoxLayout(middle);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(buildRail());
    auto* side = new QVBoxLayout;
    side->setContentsMargins(0, 0, 0, 0);
    side->setSpacing(0);
    side->addWidget(buildEarlier());
    side->addWidget(buildTop());
    side->addWidget(m_stack, 1);
    row->addLayout(side, 1);
    setCentralWidget(middle);
}

QWidget* MainWindow::buildRail() {
    auto* rail = new QWidget(this);
    rail->setObjectName(QStringLiteral("rail"));
    auto* column = new QVBoxLayout(rail);
    const int gap = fontMetrics().height() / 2;
    column->setContentsMargins(0, gap, 0, gap);
    column->setSpacing(2);
    int number = 0;
    for (const Place& place : m_places) {
        ++number;
        auto* button = new RailButton(place.glyph, place.title, rail);
        button->setObjectName(QStringLiteral("place:") + place.name);
        button->setToolTip(tr("%1 (Ctrl+%2)").arg(place.title).arg(number));
        connect(button, &QAbstractButton::clicked, this, [this, name = place.name] { openPlace(name); });
        const auto keys = QKeySequence(QStringLiteral("Ctrl+%1").arg(number));
        connect(new QShortcut(keys, this), &QShortcut::activated, this,
                [this, name = place.name] { openPlace(name); });
        column->addWidget(button);
        m_buttons[place.name] = button;
        Page* page = place.make(m_desk);
        m_pages[place.name] = page;
        m_stack->addWidget(page);
    }
    column->addStretch(1);
    return rail;
}

QWidget* MainWindow::buildTop() {
    auto* top = new QWidget(this);
    auto* row = new QHBoxLayout(top);
    const int gap = fontMetrics().height() / 2;
    row->setContentsMargins(gap, gap, gap * 2, gap);
    row->addWidget(m_scan, 1);
    connect(m_scan, &ScanField::scanned, this, &MainWindow::scan);
    connect(m_scan, &ScanField::entered, this, [this] {
        if (Page* open = page(m_current)) {
            (void)open->enter();
        }
    });
    return top;
}

void MainWindow::buildStatusLine() {
    m_shopName->setObjectName(QStringLiteral("shopName"));
    m_head->setObjectName(QStringLiteral("headDigest"));
    m_head->setToolTip(
        tr("Number and digest of the newest entry: whoever notes both can later prove that nothing "
           "before it was changed"));
    m_said->setObjectName(QStringLiteral("said"));
    m_undoButton->setObjectName(QStringLiteral("undoButton"));
    m_undoButton->setFlat(true);
    connect(m_undoButton, &QPushButton::clicked, this, &MainWindow::undo);
    const int gap = fontMetrics().height() / 2;
    for (QLabel* label : {m_shopName, m_head, m_said}) {
        label->setContentsMargins(gap, 0, gap, 0);
        label->setTextFormat(Qt::PlainText);
    }
    statusBar()->setSizeGripEnabled(false);
    statusBar()->addWidget(m_shopName);
    statusBar()->addWidget(m_head);
    statusBar()->addWidget(m_said, 1);
    statusBar()->addPermanentWidget(m_undoButton);
    statusBar()->addPermanentWidget(m_operator);
}

void MainWindow::connectDesk() {
    connect(&m_desk, &Desk::changed, this, &MainWindow::follow);
    connect(&m_desk, &Desk::said, this, [this](const QString& text) { m_said->setText(text); });
    connect(&m_desk, &Desk::showCylinder, this,
            [this](const QString& serial) { begin(Errand::card, serial); });
    connect(&m_desk, &Desk::errand, this, &MainWindow::begin);
    connect(&m_desk, &Desk::scanAsked, m_scan, &ScanField::seize);
}

void MainWindow::openPlace(const QString& name) {
    const auto found = m_pages.find(name);
    if (found == m_pages.end()) {
        return;
    }
    m_current = name;
    found->second->refresh();
    const QWidget* focused = focusWidget();
    const bool leaves =
        focused != nullptr && m_stack->isAncestorOf(focused) && !found->second->isAncestorOf(focused);
    m_stack->setCurrentWidget(found->second);
    if (leaves) {
        m_scan->setFocus();
    }
    m_buttons[name]->setChecked(true);
    setWindowTitle(tr("%1 – %2 – Tarebook").arg(m_buttons[name]->text(), qt(m_desk.shop().settings().name)));
}

QStringList MainWindow::placeNames() const {
    QStringList names;
    for (const Place& place : m_places) {
        names.append(place.name);
    }
    return names;
}

Page* MainWindow::page(const QString& name) const {
    const auto found = m_pages.find(name);
    return found == m_pages.end() ? nullptr : found->second;
}

void MainWindow::follow() {
    if (Page* open = page(m_current)) {
        open->refresh();
    }
    showWaiting();
    showStatus();
    followOperator();
}

void MainWindow::showWaiting() {
    // The place that lists it has counted it already.
    const Page* open = page(m_current);
    std::optional<qint64> count = open == nullptr ? std::nullopt : open->waiting();
    if (!count) {
        const auto list = today(m_desk.shop(), m_desk.shop().today(), 1);
        count =
            list ? std::optional<qint64>(list.value().dangers + list.value().refusals + list.value().cautions)
                 : std::nullopt;
    }
    if (count) {
        m_buttons[QStringLiteral("today")]->setWaiting(*count);
    }
}

void MainWindow::showStatus() {
    Store& store = m_desk.shop().store();
    const QString name = qt(m_desk.shop().settings().name);
    m_shopName->setText(name.isEmpty() ? tr("Shop without a name") : name);
    m_head->setText(tr("entry %1 · %2…").arg(store.headSeq()).arg(qt(store.headDigest()).left(kDigestShown)));
    const QString sentence = m_desk.undoSentence();
    const bool can = m_desk.canUndo();
    m_undo->setEnabled(can);
    m_undoButton->setVisible(can);
    const int room = std::min(fontMetrics().averageCharWidth() * 60, width() / 3);
    m_undoButton->setText(
        tr("Undo: %1  (Ctrl+Z)").arg(fontMetrics().elidedText(sentence, Qt::ElideRight, room)));
    m_undoButton->setToolTip(
        tr("Writes a new entry that reverses this one; both stay in the books.\n%1").arg(sentence));
}

void MainWindow::undo() {
    const QString sentence = m_desk.undoSentence();
    const Recorded recorded = m_desk.undo();
    if (!recorded.ok()) {
        m_said->setText(kit::told(recorded, tr("Not undone")));
        return;
    }
    m_said->setText(tr("Reversed by entry %1: %2").arg(recorded.entries.front()).arg(sentence));
}

void MainWindow::begin(Errand errand, const QString& subject) {
    for (const Place& place : m_places) {
        Page* page = m_pages[place.name];
        if (page->begin(errand, subject)) {
            QWidget* wanted = page->focusWidget();
            openPlace(place.name);
            (wanted == nullptr ? m_scan : wanted)->setFocus();
            return;
        }
    }
    m_said->setText(tr("Nothing here can do that for %1 yet").arg(subject));
}

void MainWindow::scan(const QString& text) {
    Page* open = page(m_current);
    if (open != nullptr && open->scan(text)) {
        return;
    }
    for (const auto* name : {"fleet", "jobs"}) {
        const QString place = QLatin1String(name);
        Page* other = page(place);
        if (other != nullptr && other != open && other->scan(text)) {
            openPlace(place);
            return;
        }
    }
    m_said->setText(tr("Nothing is known of “%1”: scan a serial, a person, a job, or a weight with its unit")
                        .arg(text.left(40)));
    const bool heard = programMemory().value(kSoundOnWrongScan, false).toBool();
    if (heard) {
        QApplication::beep();
    }
    emit scanRefused(text, heard);
}

} // namespace tarebook
