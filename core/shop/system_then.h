#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/shop/register.h"

namespace tarebook {

/// What a system is for and whose it is, now and at a moment that is past. What the register said then is
/// read once somebody asks for it. The shop and the system must outlive it.
class SystemThen {
public:
    SystemThen(Shop& shop, const System& system);

    [[nodiscard]] const System& system() const { return m_system; }
    [[nodiscard]] const Account& account() const { return m_self; }
    /// The designation of what it is for, whichever way it was written; empty where nobody knows.
    [[nodiscard]] const std::string& meant() const { return m_meant; }
    /// The same as the register had it at the moment, or at first: after a retrofit what was charged before
    /// it was right.
    [[nodiscard]] std::string meantOn(Instant moment);
    /// Whose the site was at the moment, or at first: after a sale what was charged before it was right.
    [[nodiscard]] std::string ownerOn(Instant moment);

private:
    Shop& m_shop;
    const System& m_system;
    std::string m_meant;
    Account m_self;
    std::optional<std::vector<Entry>> m_history; // entries that set the system, not reversed
    std::optional<std::vector<Entry>> m_sites;   // entries that set its site, not reversed
};

/// The designation of what is written for a system; empty where nobody knows it.
[[nodiscard]] std::string designationFor(const Shop& shop, const std::string& refrigerant);

} // namespace tarebook
