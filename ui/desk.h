#pragma once

#include <QObject>
#include <QString>

#include <vector>

#include "core/shop/shop.h"
#include "ui/page.h"

class QTimer;

namespace tarebook {

/// The counter of one window: the open shop, what changed in it, and what a place asks of another. Looks
/// every two seconds whether another program has written to the file.
class Desk : public QObject {
    Q_OBJECT
public:
    explicit Desk(Shop& shop, QObject* parent = nullptr);

    [[nodiscard]] Shop& shop() { return m_shop; }
    /// Every part that records something says so here, whatever came of it: the places follow, and the last
    /// thing recorded in this window can be undone.
    void notifyRecorded(const Recorded& recorded);
    /// The same for what cannot be undone, as who may sign in.
    void notifyLasting(const Recorded& recorded);
    [[nodiscard]] bool canUndo() const { return !m_done.empty(); }
    /// What undo would reverse, in a sentence of the trade; empty when there is nothing.
    [[nodiscard]] QString undoSentence() const;
    /// Reverses what was recorded last in this window, by new entries that name the old ones.
    Recorded undo();
    void say(const QString& text) { emit said(text); }

signals:
    /// The books have changed.
    void changed();
    /// Cylinders that a recorded entry was about, before changed(); empty when another program wrote.
    void cylindersChanged(const QStringList& serials);
    void showCylinder(const QString& serial);
    void errand(tarebook::Errand errand, const QString& subject);
    void importAsked();
    void registerAsked();
    void settingsAsked();
    void namesAsked();
    void sampleAsked();
    /// The person goes on by scanning.
    void scanAsked();
    /// Another scale, or none, is set up at this machine.
    void scaleChanged();
    /// A sentence for the status line.
    void said(const QString& text);

private:
    [[nodiscard]] QStringList serialsOf(const std::vector<Sequence>& entries);

    Shop& m_shop;
    QTimer* m_timer;
    std::vector<std::vector<Sequence>> m_done; // newest last
};

} // namespace tarebook
