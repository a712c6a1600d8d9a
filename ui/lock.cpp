#include "ui/lock.h"

#include "ui/sign_in_dialog.h"

#include <QApplication>
#include <QEvent>
#include <QTimer>
#include <QWidget>

namespace tarebook {
namespace {

constexpr std::int64_t kMinute = 60;   // seconds
constexpr std::int64_t kSecond = 1000; // milliseconds

bool isTouch(QEvent::Type type) {
    return type == QEvent::KeyPress || type == QEvent::MouseButtonPress || type == QEvent::MouseMove ||
           type == QEvent::Wheel || type == QEvent::TouchBegin;
}

} // namespace

Lock::Lock(Shop& shop, const Clock& clock, QObject* parent)
    : QObject(parent), m_shop(shop), m_clock(clock), m_idle(new QTimer(this)) {
    m_idle->setObjectName(QStringLiteral("idleTimer"));
    m_idle->setSingleShot(true);
    connect(m_idle, &QTimer::timeout, this, &Lock::lock);
    qApp->installEventFilter(this);
    restart();
}

Lock::~Lock() {
    uncover();
}

std::int64_t Lock::secondsAllowed() const {
    return m_shop.store().signedIn() ? m_shop.settings().lockMinutes * kMinute : 0;
}

void Lock::follow() {
    if (!m_locked && secondsAllowed() != m_allowed) {
        restart();
    }
}

void Lock::restart() {
    m_touched = m_clock.now();
    m_allowed = secondsAllowed();
    if (m_allowed == 0) {
        m_idle->stop();
    } else {
        m_idle->start(static_cast<int>(m_allowed * kSecond));
    }
}

bool Lock::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::Resize) {
        const auto its = m_covers.find(qobject_cast<QWidget*>(watched));
        if (its != m_covers.end()) {
            its->second->setGeometry(its->first->rect());
        }
        return false;
    }
    if (m_locked || !m_idle->isActive() || !isTouch(event->type())) {
        return false;
    }
    const Instant now = m_clock.now();
    if (now.seconds() - m_touched.seconds() >= m_allowed) {
        m_idle->start(0); // the machine has slept: what wakes it does nothing else
        return true;
    }
    m_touched = now;
    m_idle->start();
    return false;
}

void Lock::cover() {
    while (QWidget* menu = QApplication::activePopupWidget()) {
        menu->close();
    }
    for (QWidget* window : QApplication::topLevelWidgets()) {
        if (!window->isVisible()) {
            continue;
        }
        auto* cover = new QWidget(window);
        cover->setObjectName(QStringLiteral("lockCover"));
        cover->setAutoFillBackground(true);
        cover->setGeometry(window->rect());
        cover->show();
        cover->raise();
        m_covers[window] = cover;
        connect(window, &QObject::destroyed, this, [this, window] { m_covers.erase(window); });
    }
}

void Lock::uncover() {
    for (const auto& [window, cover] : m_covers) {
        disconnect(window, &QObject::destroyed, this, nullptr);
        delete cover;
    }
    m_covers.clear();
}

void Lock::lock() {
    const auto before = m_shop.store().signedIn();
    if (m_locked || (!before && !m_shop.store().needsSignIn())) {
        return;
    }
    m_locked = true;
    m_idle->stop();
    // A dialog that is open belongs to the one who opened it.
    QWidget* above = QApplication::activeModalWidget();
    cover();
    {
        SignInDialog dialog(m_shop, m_clock,
                            above == nullptr ? SignInDialog::Why::locked : SignInDialog::Why::onlyThem,
                            above == nullptr ? QApplication::activeWindow() : above);
        dialog.exec();
    }
    uncover();
    m_locked = false;
    restart();
    const auto after = m_shop.store().signedIn();
    const bool another = !before || (after && after->name != before->name);
    if (another && above == nullptr) {
        emit operatorChanged();
    }
}

} // namespace tarebook
