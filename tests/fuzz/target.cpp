#include "tests/fuzz/target.h"

#include <cstdlib>
#include <iostream>

namespace tarebook::tests {

const std::vector<FuzzTarget>& fuzzTargets() {
    static const std::vector<FuzzTarget> kTargets = {
        {"sheet", feedSheet},        {"quantity", feedQuantity}, {"date", feedDate},
        {"contents", feedContents},  {"mark", feedMark},         {"journal_line", feedJournalLine},
        {"shop_file", feedShopFile}, {"rows", feedRows},         {"attached", feedAttached}};
    return kTargets;
}

void demand(bool holds, const char* what, std::string_view input) {
    if (!holds) {
        std::cerr << "does not hold: " << what << ", for `" << input << "`\n";
        std::abort();
    }
}

} // namespace tarebook::tests
