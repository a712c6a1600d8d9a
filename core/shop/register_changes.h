#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/shop/port_marks.h"
#include "core/shop/register.h"

namespace tarebook {

/// What is said of a person, a party or a customer's equipment that may be on file already. What is not given
/// stays as it is there; given and blank takes it away.
struct PersonChange {
    std::string name;
    std::optional<std::string> role = {}; // of one who is new: technician
    std::optional<std::string> certificate = {};
    std::optional<std::optional<Date>> certificateExpires = {};
    std::optional<bool> active = {};
};
struct PartyChange {
    std::string kind; // supplier, reclaimer, destroyer
    std::string name;
    std::optional<std::string> address = {};
    std::optional<std::string> number = {};
};
struct SystemChange {
    std::string site;
    std::string tag;
    std::optional<std::string> customer = {}; // of the whole site
    std::optional<std::string> address = {};  // of the whole site
    std::optional<std::string> refrigerant = {};
    std::optional<std::optional<Mass>> nominalCharge = {};
    std::optional<std::string> equipment = {};
    std::optional<PortMarkValues> portMarks = {};
    [[nodiscard]] std::string key() const { return site + "/" + tag; }
};

[[nodiscard]] Person changed(Shop& shop, const PersonChange& change);
[[nodiscard]] Draft draftOf(Shop& shop, const PersonChange& change);
[[nodiscard]] Party changed(Shop& shop, const PartyChange& change);
/// Enters it as the books are then: what another desk says meanwhile, and the change does not, stays
/// (lookThenRecord()).
[[nodiscard]] Recorded enterChange(Shop& shop, const PersonChange& change);
[[nodiscard]] Recorded enterChange(Shop& shop, const PartyChange& change);

/// Systems that are entered or changed, one after the other, and to be recorded together: what one says of a
/// site holds for those after it.
class SystemChanges {
public:
    explicit SystemChanges(Shop& shop) : m_shop(shop) {}
    /// The system as it will stand on file.
    [[nodiscard]] System changed(const SystemChange& change) const;
    /// Its entries. The site is entered only where something is said of it that may differ: without a word of
    /// its customer it keeps the one that it has.
    [[nodiscard]] std::vector<Draft> take(const SystemChange& change);
    /// Whether anything has been said of the site, here or on file.
    [[nodiscard]] bool knowsSite(const std::string& name) const { return siteNamed(name).has_value(); }
    /// What a person should know of the change before or when it is entered: whose the site was until now,
    /// and that gas recovered there until now stays theirs. Empty: nothing. To be asked before take().
    [[nodiscard]] std::string notice(const SystemChange& change) const;

private:
    struct Site {
        std::string customer;
        std::string address;
    };
    [[nodiscard]] std::optional<Site> siteNamed(const std::string& name) const;

    Shop& m_shop;
    std::map<std::string, Site> m_sites; // as said so far
};

/// One system, likewise. `notice` is what SystemChanges::notice() says of the books that it was entered into.
[[nodiscard]] Recorded enterChange(Shop& shop, const SystemChange& change, std::string& notice);

} // namespace tarebook
