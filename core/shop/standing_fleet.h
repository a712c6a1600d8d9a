#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/store/store.h"

namespace tarebook {

/// The cylinders of a shop file that are not retired, as they stand: read in few questions, and kept until
/// something is written, by this program or another. Only a fleet of up to 20,000 is kept; a larger one is
/// read anew each time. The store must outlive it.
class StandingFleet {
public:
    explicit StandingFleet(Store& store) : m_store(store) {}

    /// Shows each, by serial. The visitor writes nothing.
    [[nodiscard]] Result<bool> each(const std::function<void(const CylinderState&)>& visit);
    /// By the newest movement of a cylinder: what left it, or was lost from it, was what it held. Empty: it
    /// held nothing yet.
    [[nodiscard]] std::string lastHeld(const std::string& serial);
    /// The batch that is prepared and not yet gone for which the cylinder is set aside; empty where there is
    /// none, and where `own`, a batch in which it may stand, is one of them.
    [[nodiscard]] std::string setAsideFor(const std::string& serial, const std::string& own = {});

private:
    void forgetWhatIsOld();
    void readWhatIsSetAside();

    Store& m_store;
    Sequence m_head = -1;
    std::int64_t m_version = -1;
    bool m_whole = false; // m_states has them all
    bool m_shows = false; // each() is at work: what is kept stays
    std::vector<CylinderState> m_states;
    std::unordered_map<std::string, std::string> m_lastHeld;              // of those that were asked about
    std::unordered_map<std::string, std::vector<std::string>> m_setAside; // batches by serial
    bool m_knowsSetAside = false;
};

} // namespace tarebook
