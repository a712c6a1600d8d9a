#include "core/exchange/people_rows.h"

#include <map>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostCharacters = 100;

} // namespace

Result<std::vector<PersonRow>> readPeopleRows(const Sheet& sheet, const ColumnMap& map, DateOrder dateOrder) {
    std::map<std::string, int> lines; // folded name -> line
    return readRows<PersonRow>(sheet, map, [&](SheetFields& fields, PersonRow& row) {
        PersonFacts person;
        person.name = fields.text("name", kMostCharacters, "write the person's name");
        person.certificate = fields.note("certificate", kMostCharacters);
        person.role = fields.note("role", kMostCharacters);
        person.certificateExpires = fields.optional<Date>(
            "certificate_expires", [&](std::string_view text) { return readDate(text, dateOrder); });
        if (person.certificateExpires && person.certificate.empty()) {
            fields.refuse("certificate", Error{"a certificate expires, but none is named",
                                               "write the certificate's number or kind"});
        }
        if (!person.name.empty()) {
            const auto [other, fresh] = lines.emplace(lowered(person.name), row.line);
            if (!fresh) {
                fields.refuse("name", Error{fmt::format("{} stands in line {} too",
                                                        tarebook::quoted(person.name), other->second),
                                            "keep one of the two rows, or tell the two persons apart"});
            }
        }
        if (row.state() != RowState::refused) {
            row.person = std::move(person);
        }
    });
}

} // namespace tarebook
