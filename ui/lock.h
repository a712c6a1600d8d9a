#pragma once

#include <QObject>

#include <map>

#include "core/shop/shop.h"

class QTimer;
class QWidget;

namespace tarebook {

/// Locks the program when it is left alone for as long as the shop has set, if somebody is signed in: all
/// its windows are covered, and a passphrase uncovers them with all that was typed. Waking after a sleep of
/// the machine counts by the clock.
class Lock : public QObject {
    Q_OBJECT
public:
    /// Shop and clock must outlive it.
    Lock(Shop& shop, const Clock& clock, QObject* parent = nullptr);
    ~Lock() override;
    /// Locks now; comes back when it is unlocked.
    void lock();
    [[nodiscard]] bool locked() const { return m_locked; }
    /// The setting, or who is signed in, may have changed.
    void follow();

signals:
    /// Somebody else than before has unlocked it: the window is theirs to begin anew.
    void operatorChanged();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    [[nodiscard]] std::int64_t secondsAllowed() const;
    void restart();
    void cover();
    void uncover();

    Shop& m_shop;
    const Clock& m_clock;
    QTimer* m_idle;
    Instant m_touched;
    std::int64_t m_allowed = 0; // seconds, as the timer runs; 0: it does not
    bool m_locked = false;
    std::map<QWidget*, QWidget*> m_covers; // by the window below
};

} // namespace tarebook
