#include "ui/desk.h"

#include "core/shop/card.h"
#include "ui/kit.h"

#include <QStringList>
#include <QTimer>

namespace tarebook {
namespace {

constexpr int kPollMs = 2'000;
constexpr std::size_t kMostEntriesToTell = 50; // an import makes the places read everything
constexpr std::size_t kMostToUndo = 50;        // an import is not undone by one key
const std::string kCylinderPrefix = "cylinder:";

} // namespace

Desk::Desk(Shop& shop, QObject* parent) : QObject(parent), m_shop(shop), m_timer(new QTimer(this)) {
    m_timer->setInterval(kPollMs);
    connect(m_timer, &QTimer::timeout, this, [this] {
        if (m_shop.refresh()) {
            emit cylindersChanged({});
            emit changed();
        }
    });
    m_timer->start();
}

QStringList Desk::serialsOf(const std::vector<Sequence>& entries) {
    QStringList serials;
    if (entries.size() > kMostEntriesToTell) {
        return serials;
    }
    for (const Sequence seq : entries) {
        auto entry = m_shop.store().entry(seq);
        if (entry && entry.value().kind == EntryKind::entryReversed) {
            entry = m_shop.store().entry(entry.value().body.value("entry", Sequence{0}));
        }
        if (!entry) {
            continue;
        }
        for (const std::string& subject : subjectsOf(entry.value())) {
            if (subject.starts_with(kCylinderPrefix)) {
                serials.append(qt(subject.substr(kCylinderPrefix.size())));
            }
        }
    }
    serials.removeDuplicates();
    return serials;
}

void Desk::notifyRecorded(const Recorded& recorded) {
    if (recorded.outcome == Outcome::notRecorded) {
        return;
    }
    if (!recorded.entries.empty() && recorded.entries.size() <= kMostToUndo) {
        m_done.push_back(recorded.entries);
    }
    notifyLasting(recorded);
}

void Desk::notifyLasting(const Recorded& recorded) {
    if (recorded.outcome == Outcome::notRecorded) {
        return;
    }
    // The own writes count as seen; otherwise the timer would read everything a second time.
    (void)m_shop.refresh();
    emit cylindersChanged(serialsOf(recorded.entries));
    emit changed();
}

QString Desk::undoSentence() const {
    if (m_done.empty() || m_done.back().empty()) {
        return {};
    }
    const auto entry = m_shop.store().entry(m_done.back().back());
    return entry ? qt(sentenceOf(m_shop, entry.value())) : QString();
}

Recorded Desk::undo() {
    Recorded recorded;
    if (m_done.empty()) {
        recorded.error = Error{"nothing was recorded in this window", "reverse an entry on the card instead"};
        return recorded;
    }
    std::vector<Draft> drafts;
    const std::vector<Sequence>& last = m_done.back();
    for (auto seq = last.rbegin(); seq != last.rend(); ++seq) {
        drafts.push_back(
            m_shop.draft(EntryKind::entryReversed, {{"entry", *seq}, {"reason", "undone at the counter"}}));
    }
    recorded = m_shop.record(drafts);
    if (!recorded.ok()) {
        return recorded;
    }
    m_done.pop_back();
    const QStringList serials = serialsOf(recorded.entries);
    (void)m_shop.refresh();
    emit cylindersChanged(serials);
    emit changed();
    return recorded;
}

} // namespace tarebook
