#pragma once

#include <QObject>
#include <QPointer>
#include <QString>

#include <memory>

#include "core/base/instant.h"
#include "core/shop/earlier.h"
#include "core/shop/shop.h"
#include "ui/copy_keeper.h"
#include "ui/main_window.h"

namespace tarebook {

class Lock;

/// The running program: the open shop and its window, and the way from one shop to another.
class Program : public QObject {
    Q_OBJECT
public:
    /// `clock` must outlive it.
    Program(QString resourceFolder, const Clock& clock, QString operatorName, QObject* parent = nullptr);
    ~Program() override;

    /// Opens a shop file and shows its window; says why not and returns false otherwise.
    bool openShop(const QString& path, QWidget* asker = nullptr);
    /// Makes the invented shop where it is not yet, and opens it.
    bool openSample(const QString& path, QWidget* asker = nullptr);
    /// Asks for file and settings.
    void newShop(QWidget* asker);
    /// Puts a copy in the place of the open shop file, or of `path`, and opens it; says what came of it.
    bool restore(const QString& copy, const QString& path);
    /// Shows the books as they stood when `head` was the newest entry, for reading only, in the place of
    /// today's; says why not and returns false otherwise.
    bool openEarlier(Sequence head);
    bool createShop(const QString& path, const Settings& settings, QWidget* asker);
    void showWelcome();
    [[nodiscard]] MainWindow* window() const { return m_window; }
    [[nodiscard]] Shop* shop() const { return m_shop.get(); }
    /// Keeps copies of the open shop file; null while it is only read.
    [[nodiscard]] CopyKeeper* copyKeeper() const { return m_keeper; }
    /// Where the sample shop of this user lies.
    [[nodiscard]] static QString samplePath();

private:
    void adopt(std::unique_ptr<Shop> shop);
    void askOpen(QWidget* asker);
    /// The copies of a shop file; restores the one that is chosen.
    void showCopies(const QString& path, QWidget* asker);
    /// Says that a file is damaged and what can still be read; true where the person would rather go back to
    /// a copy.
    [[nodiscard]] bool tellDamage(const QString& path, Shop* shop, const Error& error, QWidget* asker);
    /// Asks as of when.
    void askEarlier();
    [[nodiscard]] Environment environment() const;
    void connectWindow();
    /// Somebody signs in where the shop wants it; false when they thought better of it.
    [[nodiscard]] bool letIn(Shop& shop, QWidget* asker);
    void connectOperators();
    void changeOperator();
    /// The window anew, for another operator.
    void beginAnew();

    QString m_resources;
    const Clock& m_clock;
    QString m_operator;
    std::unique_ptr<EarlierBooks> m_earlier; // what m_shop lies in, where it is not the shop itself
    std::unique_ptr<Shop> m_shop;
    std::unique_ptr<Lock> m_lock;
    QPointer<MainWindow> m_window;
    QPointer<QWidget> m_welcome;
    QPointer<CopyKeeper> m_keeper;
};

} // namespace tarebook
