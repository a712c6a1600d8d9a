#pragma once

#include <QObject>
#include <QString>

#include <atomic>
#include <optional>
#include <thread>

#include "core/base/instant.h"

class QTimer;

namespace tarebook {

/// Keeps copies of a shop file while it is open: soon after opening, and from then on once a day, wherever
/// the books have changed since the last one. Works in a thread of its own; nothing waits for it but the end
/// of the program, which lets a copy that was begun come to its end.
class CopyKeeper : public QObject {
    Q_OBJECT
public:
    /// `clock` must outlive it.
    CopyKeeper(QString shopPath, const Clock& clock, QObject* parent);
    ~CopyKeeper() override;

    /// Looks whether a copy is due, and makes it; told by finished() in any case.
    void look();

signals:
    /// Of a copy: where it lies. Of none: blank. `problem`: why there is none where one was due.
    void finished(const QString& path, const QString& problem);

private:
    QString m_path;
    const Clock& m_clock;
    QTimer* m_timer;
    std::optional<Instant> m_looked; // for the last time
    std::atomic<bool> m_working = false;
    std::thread m_thread;
};

} // namespace tarebook
