#include "core/store/held_touches.h"

#include <algorithm>
#include <utility>

#include "core/store/row_supply.h"

namespace tarebook {

namespace {

constexpr std::size_t kManyShare = 500; // a thousand of half a million
// Below this the table of the supply costs more to make than it saves.
constexpr std::size_t kFewTouches = 50;

constexpr const char* kTouchColumns = "subject, occurred, seq, mass, reversed_by";
constexpr const char* kPutTouch = "INSERT INTO touch(subject, occurred, seq, mass, reversed_by) "
                                  "VALUES(?1, ?2, ?3, ?4, nullif(?5, 0))";

using Touches = std::pair<std::int64_t, std::vector<HeldTouches::Touch>*>; // of a subject

bool isEarlier(const HeldTouches::Touch& one, const HeldTouches::Touch& other) {
    return one.moment < other.moment;
}

class TouchSupply : public RowSupply {
public:
    explicit TouchSupply(const std::vector<Touches>& subjects) : m_subjects(subjects) {}

    bool next() override {
        if (m_started) {
            ++m_touch;
        }
        m_started = true;
        while (m_subject < m_subjects.size() && m_touch == m_subjects[m_subject].second->size()) {
            ++m_subject;
            m_touch = 0;
        }
        return m_subject < m_subjects.size();
    }

    void give(sqlite3_context* context, int column) const override {
        const auto& [subject, touches] = m_subjects[m_subject];
        const HeldTouches::Touch& touch = (*touches)[m_touch];
        switch (column) {
        case 0:
            return sqlite3_result_int64(context, subject);
        case 1:
            return sqlite3_result_int64(context, touch.moment.occurred.seconds());
        case 2:
            return sqlite3_result_int64(context, touch.moment.seq);
        case 3:
            return sqlite3_result_int(context, touch.mass ? 1 : 0);
        default:
            if (touch.reversedBy != 0) {
                sqlite3_result_int64(context, touch.reversedBy);
            }
        }
    }

private:
    const std::vector<Touches>& m_subjects;
    std::size_t m_subject = 0;
    std::size_t m_touch = 0;
    bool m_started = false;
};

} // namespace

void HeldTouches::add(std::int64_t subject, Moment moment, bool mass) {
    m_touches[subject].push_back({moment, 0, mass});
    ++m_count;
}

bool HeldTouches::full() const {
    return m_count >= m_most;
}

bool HeldTouches::many(std::int64_t subject) const {
    const auto held = m_touches.find(subject);
    return held != m_touches.end() && held->second.size() > m_most / kManyShare;
}

template <typename Asked> void HeldTouches::each(std::int64_t subject, Asked asked) const {
    const auto held = m_touches.find(subject);
    if (held == m_touches.end()) {
        return;
    }
    for (const Touch& touch : held->second) {
        if (touch.reversedBy == 0) {
            asked(touch);
        }
    }
}

void HeldTouches::reverse(std::int64_t subject, Moment moment, Sequence by) {
    const auto held = m_touches.find(subject);
    if (held == m_touches.end()) {
        return;
    }
    for (Touch& touch : held->second) {
        if (touch.moment == moment) {
            touch.reversedBy = by;
        }
    }
}

std::optional<Moment> HeldTouches::newest(std::int64_t subject, bool massOnly, Sequence except) const {
    std::optional<Moment> found;
    each(subject, [&](const Touch& touch) {
        if (touch.moment.seq != except && (touch.mass || !massOnly) && (!found || *found < touch.moment)) {
            found = touch.moment;
        }
    });
    return found;
}

std::optional<Moment> HeldTouches::nextMass(std::int64_t subject, Moment after) const {
    std::optional<Moment> found;
    each(subject, [&](const Touch& touch) {
        if (touch.mass && touch.moment > after && (!found || touch.moment < *found)) {
            found = touch.moment;
        }
    });
    return found;
}

std::optional<Moment> HeldTouches::previousMass(std::int64_t subject, Moment before) const {
    std::optional<Moment> found;
    each(subject, [&](const Touch& touch) {
        if (touch.mass && touch.moment < before && (!found || *found < touch.moment)) {
            found = touch.moment;
        }
    });
    return found;
}

void HeldTouches::write() {
    std::vector<Touches> subjects;
    subjects.reserve(m_touches.size());
    for (auto& [subject, touches] : m_touches) {
        if (!std::is_sorted(touches.begin(), touches.end(), isEarlier)) {
            std::sort(touches.begin(), touches.end(), isEarlier);
        }
        subjects.emplace_back(subject, &touches);
    }
    std::sort(subjects.begin(), subjects.end());
    if (m_count > kFewTouches) {
        TouchSupply supply(subjects);
        insertRows(m_database, "touch", kTouchColumns, supply);
    } else {
        for (const auto& [subject, touches] : subjects) {
            for (const Touch& touch : *touches) {
                run(m_database, kPutTouch, subject, touch.moment.occurred.seconds(), touch.moment.seq,
                    touch.mass ? 1 : 0, touch.reversedBy);
            }
        }
    }
    m_touches.clear();
    m_count = 0;
}

} // namespace tarebook
