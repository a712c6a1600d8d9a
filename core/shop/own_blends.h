#pragma once

#include <string>
#include <vector>

#include "core/shop/shop.h"

namespace tarebook {

/// A blend that the shop has named for itself. Kept as a `setting_set` entry with the key `blend:NAME` and
/// the composition by mass as its value, `R-290:60+R-600a:40`; taken back by reversing that entry.
struct OwnBlend {
    std::string name;
    Contents contents;
    Sequence entry = 0;
};

/// Key of a setting that is an own blend; empty when it is none, otherwise the blend's name.
[[nodiscard]] std::string ownBlendNamed(const std::string& settingKey);

/// Composition of pure substances or blends in per cent by mass, `R-290:60+R-600a:40`; shares of one are
/// understood as well. Error: a part without share, one that is not known, a sum other than 100.
[[nodiscard]] Result<Contents> ownBlendContents(const Catalogue& catalogue, const std::string& parts);

/// The catalogue with those blends of the shop that it can still take, in the order they were entered: one
/// whose name or composition the standard has taken since is left out, never put in its place.
[[nodiscard]] Catalogue withOwnBlends(Catalogue catalogue, const std::vector<Record>& settings);

/// Whether the catalogue's own blends are those of the settings, all of them and no other.
[[nodiscard]] bool hasOwnBlends(const Catalogue& catalogue, const std::vector<Record>& settings);

/// Those in use, by name.
[[nodiscard]] std::vector<OwnBlend> ownBlends(Shop& shop);

/// Records a new blend, which every designation read in this shop may then name. Not recorded: a name or
/// composition that Catalogue::withBlend() or ownBlendContents() refuses. A blend is not changed but given
/// another name: what the books hold under the old one stays what it was.
[[nodiscard]] Recorded addOwnBlend(Shop& shop, const std::string& name, const std::string& parts);

} // namespace tarebook
