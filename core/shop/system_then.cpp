#include "core/shop/system_then.h"

#include "core/rules/contents_on_top.h"
#include "core/shop/names.h"

namespace tarebook {

namespace {

std::vector<Entry> setBy(Shop& shop, const std::string& subject, EntryKind kind) {
    auto entries = shop.store().entriesAbout(subject);
    std::vector<Entry> its = entries ? std::move(entries).value() : std::vector<Entry>();
    std::erase_if(
        its, [&](const Entry& entry) { return entry.kind != kind || shop.store().reversedBy(entry.seq); });
    return its;
}

/// What the newest entry up to the moment says, or the first one that says anything.
std::string saidOn(const std::vector<Entry>& entries, const char* key, Instant moment) {
    std::string said;
    for (const Entry& entry : entries) {
        const auto text = entry.body.find(key);
        if ((entry.occurred <= moment || said.empty()) && text != entry.body.end() && text->is_string()) {
            said = text->get<std::string>();
        }
    }
    return said;
}

} // namespace

std::string designationFor(const Shop& shop, const std::string& refrigerant) {
    const auto known =
        refrigerant.empty() ? Result<std::string>(std::string()) : designationOf(shop, refrigerant);
    return !known || known.value() == kUnknownGas ? std::string() : known.value();
}

SystemThen::SystemThen(Shop& shop, const System& system)
    : m_shop(shop), m_system(system),
      m_meant(designationFor(shop, system.refrigerant)), m_self{AccountKind::system, system.key()} {}

std::string SystemThen::meantOn(Instant moment) {
    if (!m_history) {
        m_history = setBy(m_shop, m_self.text(), EntryKind::systemSet);
    }
    return designationFor(m_shop, saidOn(*m_history, "refrigerant", moment));
}

std::string SystemThen::ownerOn(Instant moment) {
    if (!m_sites) {
        m_sites = setBy(m_shop, "site:" + m_system.site, EntryKind::siteSet);
    }
    return saidOn(*m_sites, "customer", moment);
}

} // namespace tarebook
