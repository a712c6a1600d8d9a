#include "core/store/named_before.h"

#include <nlohmann/json.hpp>

namespace tarebook {

namespace {

constexpr const char* kSubjectNamed =
    "SELECT 1 FROM subject WHERE text = ?1 OR substr(text, instr(text, ':') + 1) = ?1 OR "
    "(text LIKE 'system:%' AND (substr(text, instr(text, '/') + 1) = ?1 OR "
    "substr(text, 8, instr(text, '/') - 8) = ?1)) LIMIT 1";
constexpr const char* kRecordThatHas = "SELECT 1 FROM record WHERE instr(body, ?1) > 0 LIMIT 1";

} // namespace

bool isNamed(Database& database, const std::string& name) {
    // A body is JSON: the text stands in it with its quotation marks.
    return wholeNumber(database, kSubjectNamed, 0, name) == 1 ||
           wholeNumber(database, kRecordThatHas, 0, nlohmann::json(name).dump()) == 1;
}

} // namespace tarebook
