#include "ui/program.h"

#include "core/exchange/sample_shop.h"
#include "core/store/kept_copies.h"
#include "ui/copies_dialog.h"
#include "ui/import_dialog.h"
#include "ui/kit.h"
#include "ui/lock.h"
#include "ui/main_window.h"
#include "ui/names_dialog.h"
#include "ui/questions.h"
#include "ui/register_dialog.h"
#include "ui/settings_dialog.h"

#include <algorithm>

#include <QApplication>
#include <QBoxLayout>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QProgressDialog>
#include <QPushButton>
#include <QStandardPaths>
#include <QTimeZone>

namespace tarebook {

Program::Program(QString resourceFolder, const Clock& clock, QString operatorName, QObject* parent)
    : QObject(parent), m_resources(std::move(resourceFolder)), m_clock(clock),
      m_operator(std::move(operatorName)) {}

Program::~Program() {
    delete m_keeper;
    delete m_window; // before the shop that it shows
    delete m_welcome;
}

QString Program::samplePath() {
    const QString folder =
        QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation) + QStringLiteral("/tarebook");
    QDir().mkpath(folder);
    return folder + QStringLiteral("/sample.tarebook");
}

Environment Program::environment() const {
    return {utf8(m_resources), &m_clock, systemIds(), utf8(m_operator)};
}

void Program::adopt(std::unique_ptr<Shop> shop) {
    delete m_keeper;
    delete m_window;
    m_lock.reset();
    m_shop = std::move(shop);
    m_earlier.reset();
    m_lock = std::make_unique<Lock>(*m_shop, m_clock, this);
    connect(m_lock.get(), &Lock::operatorChanged, this, &Program::beginAnew, Qt::QueuedConnection);
    m_window = new MainWindow(*m_shop);
    connectWindow();
    connectOperators();
    m_window->show();
    if (!m_shop->store().readOnly()) {
        m_keeper = new CopyKeeper(qt(m_shop->store().path()), m_clock, this);
        connect(m_keeper, &CopyKeeper::finished, m_window, [this](const QString&, const QString& problem) {
            if (!problem.isEmpty()) {
                m_window->desk().say(tr("No copy of the shop could be kept: %1").arg(problem));
            }
        });
    }
    if (m_welcome) {
        m_welcome->close();
        m_welcome->deleteLater();
    }
}

void Program::connectWindow() {
    MainWindow* window = m_window;
    Desk& desk = window->desk();
    // Queued: these replace the window, which must not happen while its own menu is still at work.
    connect(
        window, &MainWindow::newShopAsked, this, [this] { newShop(m_window); }, Qt::QueuedConnection);
    connect(
        window, &MainWindow::openShopAsked, this, [this] { askOpen(m_window); }, Qt::QueuedConnection);
    connect(
        window, &MainWindow::sampleAsked, this, [this] { (void)openSample(samplePath(), m_window); },
        Qt::QueuedConnection);
    connect(
        window, &MainWindow::copiesAsked, this, [this] { showCopies(qt(m_shop->store().path()), m_window); },
        Qt::QueuedConnection);
    connect(window, &MainWindow::earlierAsked, this, &Program::askEarlier, Qt::QueuedConnection);
    connect(
        &desk, &Desk::sampleAsked, this, [this] { (void)openSample(samplePath(), m_window); },
        Qt::QueuedConnection);
    connect(&desk, &Desk::importAsked, window, [window] {
        ImportDialog dialog(window->desk(), window);
        dialog.exec();
    });
    connect(&desk, &Desk::registerAsked, window, [window] {
        RegisterDialog dialog(window->desk(), window);
        dialog.exec();
    });
    connect(&desk, &Desk::namesAsked, window, [window] {
        NamesDialog dialog(window->desk(), window);
        dialog.exec();
    });
    connect(&desk, &Desk::settingsAsked, window, [window] {
        Shop& shop = window->desk().shop();
        SettingsDialog dialog(shop.settings(), tr("Settings"), tr("Keep"), window);
        if (dialog.exec() != QDialog::Accepted) {
            return;
        }
        const auto changed = dialog.settings();
        if (changed) {
            const Recorded recorded = shop.change(changed.value());
            window->desk().notifyRecorded(recorded);
            window->desk().say(recorded.ok() ? tr("Settings kept")
                                             : kit::told(recorded, tr("Settings not kept")));
        }
    });
}

namespace {

constexpr std::size_t kMostToldLost = 6; // places of the journal

/// `7032 of 7071 entries can be read, entries 1401 to 1439 cannot be read`.
QString legibleText(Store& store) {
    const auto read = store.eachLegibleEntry([](const Entry&) { return true; });
    if (!read) {
        return Program::tr("no entry can be read");
    }
    std::vector<std::string> sentences = read.value().sentences();
    std::rotate(sentences.begin(), std::prev(sentences.end()), sentences.end());
    QStringList told;
    for (std::size_t place = 0; place < std::min(sentences.size(), kMostToldLost); ++place) {
        told.append(qt(sentences[place]));
    }
    if (sentences.size() > kMostToldLost) {
        told.append(Program::tr("and more"));
    }
    return told.join(QStringLiteral(", "));
}

} // namespace

bool Program::tellDamage(const QString& path, Shop* shop, const Error& error, QWidget* asker) {
    QString text = tr("%1: %2").arg(path, qt(error.wrong));
    if (shop != nullptr) {
        text += tr("\n\nIt is opened for reading only: %1 and %2 cylinders.")
                    .arg(legibleText(shop->store()))
                    .arg(shop->store().fleetCount());
    }
    if (keptCopies(utf8(path)).empty()) {
        questions::tell(asker, tr("Damaged"), text + tr("\n\nRestore the newest good backup."));
        return false;
    }
    return questions::ask(asker, tr("Damaged"), text + tr("\n\nCopies of it were kept."),
                          tr("Choose a copy to go back to…"));
}

bool Program::openShop(const QString& path, QWidget* asker) {
    auto opened = Shop::open(utf8(path), environment());
    const Error error = opened.error;
    const bool damaged = opened.problem == OpenProblem::damaged;
    const bool unwritable = opened.problem == OpenProblem::unwritable;
    if (!opened.shop && (damaged || unwritable)) {
        // What can be read may still be looked at.
        opened = Shop::open(utf8(path), environment(), true);
    }
    const bool goBack = damaged && tellDamage(path, opened.shop.get(), error, asker);
    if (opened.shop) {
        if (!letIn(*opened.shop, asker)) {
            return false;
        }
        if (unwritable) {
            questions::tell(
                asker, tr("For reading only"),
                tr("%1 may not be written here: nothing can be entered until its permissions let you.")
                    .arg(path));
        }
        adopt(std::move(opened.shop));
        if (goBack) {
            showCopies(path, m_window);
        }
        return true;
    }
    if (goBack) {
        showCopies(path, asker);
        return m_shop && m_shop->store().path() == utf8(path);
    }
    if (!damaged) {
        questions::tell(asker, tr("Not opened"), tr("%1: %2").arg(path, qt(error.text())));
    }
    return false;
}

void Program::showCopies(const QString& path, QWidget* asker) {
    QString chosen;
    {
        Shop* shop = m_shop && m_shop->store().path() == utf8(path) ? m_shop.get() : nullptr;
        CopiesDialog dialog(path, shop, m_clock, asker);
        if (dialog.exec() == QDialog::Accepted) {
            chosen = dialog.chosen();
        }
    }
    if (!chosen.isEmpty()) {
        (void)restore(chosen, path);
    }
}

bool Program::restore(const QString& copy, const QString& path) {
    // The file must be nobody's while it changes.
    delete m_keeper;
    delete m_window;
    m_lock.reset();
    m_shop.reset();
    const auto restored = restoreBackup(utf8(copy), utf8(path), m_clock);
    if (!restored) {
        questions::tell(nullptr, tr("Not restored"), qt(restored.error().text()));
    }
    const bool opened = openShop(path, nullptr);
    if (restored && opened) {
        m_window->desk().say(tr("The shop is again as it was in %1").arg(QFileInfo(copy).fileName()));
    }
    if (!opened && !m_window) {
        showWelcome();
    }
    return restored && opened;
}

bool Program::openSample(const QString& path, QWidget* asker) {
    if (!QFileInfo::exists(path)) {
        QProgressDialog progress(tr("Inventing a shop…"), tr("Cancel"), 0, 0, asker);
        progress.setWindowModality(Qt::ApplicationModal);
        progress.setMinimumDuration(300);
        SampleOptions options;
        const Zone zone = Zone::utc();
        options.lastDay = zone.dateOf(m_clock.now()).plusDays(-1);
        const auto made = makeSampleShop(utf8(path), options, utf8(m_resources),
                                         [&](std::int64_t done, std::int64_t total) {
                                             progress.setMaximum(static_cast<int>(total));
                                             progress.setValue(static_cast<int>(done));
                                             return !progress.wasCanceled();
                                         });
        if (!made) {
            questions::tell(asker, tr("No sample shop"), qt(made.error().text()));
            return false;
        }
    }
    return openShop(path, asker);
}

void Program::askOpen(QWidget* asker) {
    const QString path =
        QFileDialog::getOpenFileName(asker, tr("Open a shop"), {}, tr("Shops (*.tarebook);;All files (*)"));
    if (!path.isEmpty()) {
        (void)openShop(path, asker);
    }
}

void Program::newShop(QWidget* asker) {
    Settings settings;
    settings.zone = QTimeZone::systemTimeZoneId().toStdString();
    if (!Zone::load(settings.zone)) {
        settings.zone = "UTC";
    }
    // The dialog is a child of the window that createShop() replaces: it has to be gone by then.
    auto asked =
        std::make_unique<SettingsDialog>(settings, tr("A new shop"), tr("Choose where to keep it…"), asker);
    if (asked->exec() != QDialog::Accepted) {
        return;
    }
    const auto chosen = asked->settings();
    asked.reset();
    const QString path = QFileDialog::getSaveFileName(
        asker, tr("Keep the new shop as"), QStringLiteral("shop.tarebook"), tr("Shops (*.tarebook)"));
    if (chosen && !path.isEmpty()) {
        (void)createShop(path, chosen.value(), asker);
    }
}

bool Program::createShop(const QString& path, const Settings& settings, QWidget* asker) {
    auto opened = Shop::create(utf8(path), settings, environment());
    if (!opened.shop) {
        questions::tell(asker, tr("Not made"), tr("%1: %2").arg(path, qt(opened.error.text())));
        return false;
    }
    adopt(std::move(opened.shop));
    return true;
}

void Program::showWelcome() {
    auto* welcome = new QWidget;
    welcome->setObjectName(QStringLiteral("welcome"));
    welcome->setWindowTitle(tr("Tarebook"));
    auto* column = new QVBoxLayout(welcome);
    const int line = welcome->fontMetrics().height();
    column->setContentsMargins(line * 3, line * 2, line * 3, line * 2);
    column->setSpacing(line);
    column->addWidget(kit::heading(tr("Every cylinder, every kilogram"), welcome));
    column->addWidget(kit::hint(
        tr("Open the books of your shop, begin new ones, or look around in an invented shop."), welcome));
    const auto add = [&](const QString& text, const char* name, auto work) {
        auto* button = new QPushButton(text, welcome);
        button->setObjectName(QLatin1String(name));
        button->setMinimumHeight(line * 2);
        connect(button, &QPushButton::clicked, this, work);
        column->addWidget(button);
    };
    add(tr("&Open a shop…"), "welcomeOpen", [this] { askOpen(m_welcome); });
    add(tr("&New shop…"), "welcomeNew", [this] { newShop(m_welcome); });
    add(tr("The in&vented sample shop"), "welcomeSample",
        [this] { (void)openSample(samplePath(), m_welcome); });
    column->addWidget(
        kit::hint(tr("Working with refrigerants can injure. Tarebook advises; local codes and licensed "
                     "practice decide."),
                  welcome));
    m_welcome = welcome;
    welcome->resize(line * 32, welcome->sizeHint().height());
    welcome->show();
}

} // namespace tarebook
