#include "ui/copy_keeper.h"

#include "core/store/kept_copies.h"
#include "ui/kit.h"

#include <QTimer>

namespace tarebook {
namespace {

constexpr int kFirstLookMs = 3'000; // the window comes first
constexpr int kTimerMs = 60'000;
constexpr std::int64_t kDaySeconds = 24 * 3'600;

} // namespace

CopyKeeper::CopyKeeper(QString shopPath, const Clock& clock, QObject* parent)
    : QObject(parent), m_path(std::move(shopPath)), m_clock(clock), m_timer(new QTimer(this)) {
    m_timer->setInterval(kTimerMs);
    connect(m_timer, &QTimer::timeout, this, [this] {
        if (m_looked && m_clock.now().seconds() - m_looked->seconds() >= kDaySeconds) {
            look();
        }
    });
    m_timer->start();
    QTimer::singleShot(kFirstLookMs, this, &CopyKeeper::look);
}

CopyKeeper::~CopyKeeper() {
    if (m_thread.joinable()) {
        m_thread.join();
    }
}

void CopyKeeper::look() {
    if (m_working.exchange(true)) {
        return;
    }
    if (m_thread.joinable()) {
        m_thread.join(); // has come to its end
    }
    m_looked = m_clock.now();
    m_thread = std::thread([this, now = *m_looked, path = utf8(m_path)] {
        const SetClock clock(now);
        Result<std::string> kept = std::string();
        if (copyIsDue(path, clock)) {
            kept = keepCopy(path, clock);
        }
        const QString where = kept ? qt(kept.value()) : QString();
        const QString problem = kept ? QString() : qt(kept.error().text());
        m_working = false;
        QMetaObject::invokeMethod(
            this, [this, where, problem] { emit finished(where, problem); }, Qt::QueuedConnection);
    });
}

} // namespace tarebook
