#include "core/exchange/column_names.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>
#include <vector>

#include "core/base/text.h"

namespace tarebook {

namespace {

using Names = std::map<std::string_view, std::string_view>;

// What shops call these columns: common practice of the trade, gathered for this program.
const Names kCylinderNames = {{"serial no", "serial"},
                              {"serial number", "serial"},
                              {"s n", "serial"},
                              {"sn", "serial"},
                              {"ser no", "serial"},
                              {"cyl no", "serial"},
                              {"cyl", "serial"},
                              {"cylinder", "serial"},
                              {"cylinder no", "serial"},
                              {"cylinder number", "serial"},
                              {"cylinder serial", "serial"},
                              {"tank no", "serial"},
                              {"tank", "serial"},
                              {"bottle no", "serial"},
                              {"spec", "specification"},
                              {"dot spec", "specification"},
                              {"dot rating", "specification"},
                              {"dot", "specification"},
                              {"rating", "specification"},
                              {"cylinder type", "specification"},
                              {"specification mark", "specification"},
                              {"wc", "water_capacity"},
                              {"w c", "water_capacity"},
                              {"water cap", "water_capacity"},
                              {"water capacity", "water_capacity"},
                              {"water volume", "water_capacity"},
                              {"capacity", "water_capacity"},
                              {"volume", "water_capacity"},
                              {"tw", "tare"},
                              {"t w", "tare"},
                              {"tare wt", "tare"},
                              {"tare weight", "tare"},
                              {"empty weight", "tare"},
                              {"empty wt", "tare"},
                              {"mfg date", "manufactured"},
                              {"mfg", "manufactured"},
                              {"mfr date", "manufactured"},
                              {"made", "manufactured"},
                              {"date made", "manufactured"},
                              {"manufacture date", "manufactured"},
                              {"date of manufacture", "manufactured"},
                              {"manufactured date", "manufactured"},
                              {"dom", "manufactured"},
                              {"born", "manufactured"},
                              {"retest", "last_test"},
                              {"retest date", "last_test"},
                              {"last retest", "last_test"},
                              {"last test", "last_test"},
                              {"last test date", "last_test"},
                              {"test date", "last_test"},
                              {"requalified", "last_test"},
                              {"requal", "last_test"},
                              {"requal date", "last_test"},
                              {"last requalification", "last_test"},
                              {"requalification", "last_test"},
                              {"hydro", "last_test"},
                              {"hydro date", "last_test"},
                              {"method", "test_method"},
                              {"test type", "test_method"},
                              {"retest method", "test_method"},
                              {"owned by", "owner"},
                              {"ownership", "owner"},
                              {"belongs to", "owner"},
                              {"ofp", "overfill_sensor"},
                              {"float", "overfill_sensor"},
                              {"float switch", "overfill_sensor"},
                              {"overfill", "overfill_sensor"},
                              {"sensor", "overfill_sensor"},
                              {"overfill protection", "overfill_sensor"},
                              {"80 shutoff", "overfill_sensor"},
                              {"gas", "refrigerant"},
                              {"contents", "refrigerant"},
                              {"ref", "refrigerant"},
                              {"refrig", "refrigerant"},
                              {"intended refrigerant", "refrigerant"},
                              {"rin", "requalifier"},
                              {"requalifier no", "requalifier"},
                              {"tester no", "requalifier"},
                              {"mark suffix", "mark_suffix"},
                              {"suffix", "mark_suffix"},
                              {"clean service", "clean_service"},
                              {"clean gas only", "clean_service"},
                              {"service life", "service_until"},
                              {"service life ends", "service_until"},
                              {"end of service life", "service_until"},
                              {"evac", "evacuated"},
                              {"under vacuum", "evacuated"},
                              {"vacuum", "evacuated"},
                              {"clean empty", "evacuated"}};

const Names kPeopleNames = {{"person", "name"},
                            {"tech", "name"},
                            {"technician", "name"},
                            {"employee", "name"},
                            {"full name", "name"},
                            {"cert", "certificate"},
                            {"cert no", "certificate"},
                            {"certificate no", "certificate"},
                            {"certification", "certificate"},
                            {"certification no", "certificate"},
                            {"608 cert", "certificate"},
                            {"license", "certificate"},
                            {"licence", "certificate"},
                            {"expires", "certificate_expires"},
                            {"expiry", "certificate_expires"},
                            {"expiry date", "certificate_expires"},
                            {"exp date", "certificate_expires"},
                            {"cert expires", "certificate_expires"},
                            {"cert expiry", "certificate_expires"},
                            {"valid until", "certificate_expires"},
                            {"certificate expiry", "certificate_expires"},
                            {"position", "role"},
                            {"job title", "role"},
                            {"title", "role"}};

const Names kSystemNames = {{"location", "site"},
                            {"site name", "site"},
                            {"building", "site"},
                            {"unit", "tag"},
                            {"unit no", "tag"},
                            {"unit tag", "tag"},
                            {"equipment", "tag"},
                            {"system", "tag"},
                            {"asset", "tag"},
                            {"asset tag", "tag"},
                            {"client", "customer"},
                            {"customer name", "customer"},
                            {"account", "customer"},
                            {"site address", "address"},
                            {"street", "address"},
                            {"gas", "refrigerant"},
                            {"ref", "refrigerant"},
                            {"refrig", "refrigerant"},
                            {"charge", "nominal_charge"},
                            {"full charge", "nominal_charge"},
                            {"factory charge", "nominal_charge"},
                            {"between the ports", "between_ports"},
                            {"between service ports", "between_ports"},
                            {"nameplate charge", "nominal_charge"},
                            {"type", "kind"},
                            {"system type", "kind"},
                            {"use", "kind"},
                            {"application", "kind"}};

const Names kMovementNames = {
    {"date", "occurred"},     {"when", "occurred"},   {"date time", "occurred"}, {"time", "occurred"},
    {"type", "kind"},         {"what", "kind"},       {"action", "kind"},        {"source", "from"},
    {"target", "to"},         {"destination", "to"},  {"weight", "mass"},        {"amount", "mass"},
    {"qty", "mass"},          {"quantity", "mass"},   {"net", "mass"},           {"net weight", "mass"},
    {"gas", "refrigerant"},   {"ref", "refrigerant"}, {"refrig", "refrigerant"}, {"job no", "job"},
    {"work order", "job"},    {"wo", "job"},          {"ticket", "job"},         {"tech", "person"},
    {"technician", "person"}, {"by", "person"},       {"notes", "note"},         {"comment", "note"},
    {"comments", "note"},     {"remarks", "note"}};

const Names kStocktakeNames = {{"serial no", "serial"},   {"serial number", "serial"},
                               {"s n", "serial"},         {"sn", "serial"},
                               {"cylinder", "serial"},    {"cylinder no", "serial"},
                               {"cyl", "serial"},         {"cyl no", "serial"},
                               {"tank", "serial"},        {"tank no", "serial"},
                               {"gross weight", "gross"}, {"gross wt", "gross"},
                               {"weight", "gross"},       {"wt", "gross"},
                               {"scale", "gross"},        {"weighed", "gross"},
                               {"note", "remark"},        {"notes", "remark"},
                               {"remarks", "remark"},     {"comment", "remark"}};

const Names kJobNames = {{"tech", "technician"},
                         {"person", "technician"},
                         {"name", "technician"},
                         {"by", "technician"},
                         {"who", "technician"},
                         {"job no", "job"},
                         {"job name", "job"},
                         {"work order", "job"},
                         {"wo", "job"},
                         {"ticket", "job"},
                         {"customer", "owner"},
                         {"client", "owner"},
                         {"owned by", "owner"},
                         {"customer name", "owner"},
                         {"kind", "direction"},
                         {"type", "direction"},
                         {"what", "direction"},
                         {"action", "direction"},
                         {"purpose", "direction"},
                         {"gas", "refrigerant"},
                         {"ref", "refrigerant"},
                         {"refrig", "refrigerant"},
                         {"weight", "mass"},
                         {"amount", "mass"},
                         {"expected", "mass"},
                         {"qty", "mass"},
                         {"quantity", "mass"},
                         {"how", "method"},
                         {"equipment", "system"},
                         {"unit", "system"},
                         {"site tag", "system"},
                         {"recovery machine", "machine"},
                         {"time", "hour"},
                         {"when", "hour"},
                         {"start", "hour"},
                         {"begins", "hour"},
                         {"burnout", "burn_out"}};

const Names kReceiptNames = {{"serial no", "serial"},
                             {"serial number", "serial"},
                             {"s n", "serial"},
                             {"sn", "serial"},
                             {"cylinder", "serial"},
                             {"cylinder no", "serial"},
                             {"cyl", "serial"},
                             {"cyl no", "serial"},
                             {"tank", "serial"},
                             {"tank no", "serial"},
                             {"gross weight", "gross"},
                             {"gross wt", "gross"},
                             {"gross received", "gross"},
                             {"received gross", "gross"},
                             {"tare weight", "tare"},
                             {"tare wt", "tare"},
                             {"empty weight", "tare"},
                             {"empty wt", "tare"},
                             {"tw", "tare"},
                             {"oil weight", "oil"},
                             {"oil wt", "oil"},
                             {"oil deduction", "oil"},
                             {"oil removed", "oil"},
                             {"water", "moisture"},
                             {"water deduction", "moisture"},
                             {"moisture deduction", "moisture"},
                             {"other deduction", "other"},
                             {"other deductions", "other"},
                             {"deduction", "other"},
                             {"deductions", "other"},
                             {"lab", "analysis"},
                             {"analysis found", "analysis"},
                             {"composition", "analysis"},
                             {"remark", "analysis"},
                             {"remarks", "analysis"},
                             {"verdict", "result"},
                             {"analysis result", "result"},
                             {"pass fail", "result"},
                             {"cert", "certificate"},
                             {"cert no", "certificate"},
                             {"certificate no", "certificate"},
                             {"certificate number", "certificate"},
                             {"coa", "certificate"},
                             {"exchanged for", "exchange"},
                             {"empty given", "exchange"},
                             {"empty out", "exchange"},
                             {"replacement", "exchange"},
                             {"replacement cylinder", "exchange"}};

const Names& namesOf(SheetKind kind) {
    switch (kind) {
    case SheetKind::cylinders:
        return kCylinderNames;
    case SheetKind::people:
        return kPeopleNames;
    case SheetKind::systems:
        return kSystemNames;
    case SheetKind::stocktake:
        return kStocktakeNames;
    case SheetKind::jobs:
        return kJobNames;
    case SheetKind::receipt:
        return kReceiptNames;
    case SheetKind::movements:
        break;
    }
    return kMovementNames;
}

constexpr std::array<std::pair<std::string_view, std::string_view>, 18> kUnits = {{{"lb", "lb"},
                                                                                   {"lbs", "lb"},
                                                                                   {"pound", "lb"},
                                                                                   {"pounds", "lb"},
                                                                                   {"kg", "kg"},
                                                                                   {"kgs", "kg"},
                                                                                   {"kilogram", "kg"},
                                                                                   {"kilograms", "kg"},
                                                                                   {"oz", "oz"},
                                                                                   {"ounces", "oz"},
                                                                                   {"g", "g"},
                                                                                   {"grams", "g"},
                                                                                   {"l", "l"},
                                                                                   {"litre", "l"},
                                                                                   {"litres", "l"},
                                                                                   {"liter", "l"},
                                                                                   {"liters", "l"},
                                                                                   {"ltr", "l"}}};

} // namespace

HeaderWords headerWords(std::string_view header) {
    std::string spaced;
    for (const char character : lowered(tidied(header))) {
        const bool kept = (character >= 'a' && character <= 'z') || (character >= '0' && character <= '9') ||
                          static_cast<unsigned char>(character) >= 0x80;
        spaced += kept ? std::string(1, character) : character == '#' ? " no " : " ";
    }
    HeaderWords found;
    for (const std::string& word : split(spaced, ' ')) {
        const auto unit =
            std::find_if(kUnits.begin(), kUnits.end(), [&](const auto& pair) { return pair.first == word; });
        if (word.empty()) {
            continue;
        }
        if (unit != kUnits.end()) {
            found.unit = unit->second;
            continue;
        }
        found.words += (found.words.empty() ? "" : " ") + word;
    }
    return found;
}

std::string_view fieldCalled(SheetKind kind, std::string_view words) {
    for (const SheetField& field : fieldsOf(kind)) {
        if (headerWords(field.name).words == words) {
            return field.name;
        }
    }
    const Names& names = namesOf(kind);
    const auto found = names.find(words);
    return found == names.end() ? std::string_view() : found->second;
}

} // namespace tarebook
