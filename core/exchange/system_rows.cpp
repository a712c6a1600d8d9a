#include "core/exchange/system_rows.h"

#include <map>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostCharacters = 80;
constexpr std::size_t kMostAddress = 200;

void checkRefrigerant(SheetFields& fields, const std::string& refrigerant, const Catalogue* catalogue) {
    if (catalogue == nullptr || refrigerant.empty()) {
        return;
    }
    if (const auto contents = catalogue->contents(refrigerant); !contents) {
        fields.refuse("refrigerant", contents.error());
    }
}

} // namespace

Result<std::vector<SystemRow>> readSystemRows(const Sheet& sheet, const ColumnMap& map,
                                              const Catalogue* catalogue) {
    std::map<std::string, int> lines; // site/tag -> line
    return readRows<SystemRow>(sheet, map, [&](SheetFields& fields, SystemRow& row) {
        SystemFacts system;
        system.site = fields.text("site", kMostCharacters, "write the site, as HARBOR");
        system.tag = fields.text("tag", kMostCharacters, "write the unit's tag, as DOCK-1");
        system.customer = fields.note("customer", kMostCharacters);
        system.refrigerant = fields.note("refrigerant", kMostCharacters);
        system.kind = fields.note("kind", kMostCharacters);
        system.address = fields.note("address", kMostAddress);
        system.nominalCharge = fields.optional<Mass>("nominal_charge", Mass::parse);
        system.betweenPorts = fields.note("between_ports", kMostCharacters);
        checkRefrigerant(fields, system.refrigerant, catalogue);
        if (system.site.find('/') != std::string::npos) {
            fields.refuse("site", Error{fmt::format("{} has a stroke in it", tarebook::quoted(system.site)),
                                        "a stroke parts the site from the tag, as HARBOR/DOCK-1"});
        }
        if (system.nominalCharge && *system.nominalCharge <= Mass()) {
            fields.refuse("nominal_charge",
                          Error{"the charge is zero", "leave it blank where it is not known"});
        }
        if (!system.site.empty() && !system.tag.empty()) {
            const std::string name = system.site + "/" + system.tag;
            const auto [other, fresh] = lines.emplace(lowered(name), row.line);
            if (!fresh) {
                fields.refuse("tag", Error{fmt::format("{} stands in line {} too", tarebook::quoted(name),
                                                       other->second),
                                           "keep one of the two rows"});
            }
        }
        if (row.state() != RowState::refused) {
            row.system = std::move(system);
        }
    });
}

} // namespace tarebook
