#pragma once

#include <QString>
#include <QWidget>

#include <optional>

namespace tarebook {

/// What one place asks another to begin, with its subject: a serial, a batch, an entry's number.
enum class Errand {
    card,          // serial
    checkOut,      // serial
    recover,       // SITE/TAG of the system
    checkIn,       // serial
    decant,        // serial
    batch,         // name of the batch
    traceContents, // serial
    traceCharge,   // number of the entry
    findInFleet,   // words for the filter, or `due:2026-11`
    additions,     // SITE/TAG of the system that they were put into
};

/// A place of the window.
class Page : public QWidget {
    Q_OBJECT
public:
    using QWidget::QWidget;
    /// Reads the shop again. Called when the books have changed and whenever the place is shown.
    virtual void refresh() = 0;
    /// How much waits to be done, as counted when it was last read; nothing where the place counts nothing.
    [[nodiscard]] virtual std::optional<qint64> waiting() const { return std::nullopt; }
    /// Takes what was scanned or typed in the scan field; false when it says nothing to this place.
    virtual bool scan(const QString& text) {
        Q_UNUSED(text)
        return false;
    }
    /// Enter in the empty scan field: records what was scanned together; false when nothing waits for it.
    virtual bool enter() { return false; }
    /// Begins an errand; false when it is not one of this place.
    virtual bool begin(Errand errand, const QString& subject) {
        Q_UNUSED(errand)
        Q_UNUSED(subject)
        return false;
    }
};

} // namespace tarebook
