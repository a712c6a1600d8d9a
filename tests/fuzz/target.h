#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tarebook::tests {

/// A reader that must stand whatever comes in. Ends the program when an answer cannot be right.
struct FuzzTarget {
    const char* name; // its seeds and findings are in tests/fuzz/seeds/NAME
    void (*feed)(std::string_view bytes);
};

/// Sheets of people (CSV in any encoding) and their rows, tables, quantities, dates, contents, specification
/// marks, lines of an exported journal, shop files, and files that are kept with an entry.
[[nodiscard]] const std::vector<FuzzTarget>& fuzzTargets();

/// Ends the program with the text when it does not hold.
void demand(bool holds, const char* what, std::string_view input);

void feedSheet(std::string_view bytes);
void feedQuantity(std::string_view bytes);
void feedDate(std::string_view bytes);
void feedContents(std::string_view bytes);
void feedMark(std::string_view bytes);
void feedJournalLine(std::string_view bytes);
void feedShopFile(std::string_view bytes);
void feedRows(std::string_view bytes);
void feedAttached(std::string_view bytes);

} // namespace tarebook::tests
