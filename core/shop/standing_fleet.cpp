#include "core/shop/standing_fleet.h"

#include <algorithm>
#include <iterator>

#include "core/shop/card.h"

namespace tarebook {

namespace {

constexpr int kAtOnce = 1'000;            // states in memory at the same time while they are read
constexpr std::size_t kMostKept = 20'000; // some 1.5 kB each

/// Set as long as it lives.
class Mark {
public:
    explicit Mark(bool& flag) : m_flag(flag) { m_flag = true; }
    Mark(const Mark&) = delete;
    Mark& operator=(const Mark&) = delete;
    ~Mark() { m_flag = false; }

private:
    bool& m_flag;
};

} // namespace

Result<bool> StandingFleet::each(const std::function<void(const CylinderState&)>& visit) {
    forgetWhatIsOld();
    const Mark shows(m_shows);
    if (m_whole) {
        for (const CylinderState& state : m_states) {
            visit(state);
        }
        return true;
    }
    const bool keeps = m_store.fleetCount() <= static_cast<std::int64_t>(kMostKept);
    std::vector<CylinderState> kept;
    std::string after;
    for (bool more = true; more;) {
        auto some = m_store.cylinders(after, kAtOnce);
        if (!some) {
            return some.error();
        }
        std::vector<CylinderState> states = std::move(some).value();
        more = states.size() == static_cast<std::size_t>(kAtOnce);
        for (const CylinderState& state : states) {
            visit(state);
            after = state.plate.serial;
        }
        if (keeps) {
            kept.insert(kept.end(), std::make_move_iterator(states.begin()),
                        std::make_move_iterator(states.end()));
        }
    }
    if (keeps) {
        m_states = std::move(kept);
        m_whole = true;
    }
    return true;
}

std::string StandingFleet::lastHeld(const std::string& serial) {
    forgetWhatIsOld();
    const auto known = m_lastHeld.find(serial);
    if (known != m_lastHeld.end()) {
        return known->second;
    }
    const auto legs = m_store.legsAbout(Account::cylinder(serial), 1);
    if (!legs) {
        return {}; // not kept: the next time it may be read
    }
    std::string held = legs.value().empty() ? std::string() : contentName(legs.value().front().moved);
    if (m_lastHeld.size() < kMostKept) {
        m_lastHeld.emplace(serial, held);
    }
    return held;
}

std::string StandingFleet::setAsideFor(const std::string& serial, const std::string& own) {
    forgetWhatIsOld();
    if (!m_knowsSetAside) {
        readWhatIsSetAside();
    }
    const auto known = m_setAside.find(serial);
    if (known == m_setAside.end() ||
        std::find(known->second.begin(), known->second.end(), own) != known->second.end()) {
        return {};
    }
    return known->second.front();
}

/// By what the batches say as they are now: one that was prepared anew set its cylinders aside, and no others
/// that it once had. What cannot be read is asked for again the next time.
void StandingFleet::readWhatIsSetAside() {
    m_setAside.clear();
    const auto prepared = m_store.recordMoments("batch", "status", "batch_prepared");
    if (!prepared) {
        return;
    }
    for (const auto& [batch, moment] : prepared.value()) {
        const auto record = m_store.record("batch", batch);
        if (!record || !record.value()) {
            return;
        }
        const auto serials = record.value()->body.find("serials");
        if (serials == record.value()->body.end() || !serials->is_array()) {
            continue;
        }
        for (const auto& serial : *serials) {
            if (serial.is_string()) {
                m_setAside[serial.get<std::string>()].push_back(batch);
            }
        }
    }
    m_knowsSetAside = true;
}

void StandingFleet::forgetWhatIsOld() {
    if (m_shows) {
        return;
    }
    const Sequence head = m_store.headSeq();
    const std::int64_t version = m_store.dataVersion();
    if (head != m_head || version != m_version) {
        m_states.clear();
        m_lastHeld.clear();
        m_knowsSetAside = false;
        m_whole = false;
        m_head = head;
        m_version = version;
    }
}

} // namespace tarebook
