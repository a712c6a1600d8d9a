#include "app/column_option.h"

namespace tarebook {

CLI::Option* addColumnOption(CLI::App& verb, std::vector<std::string>& columns) {
    return verb.add_option(
        "--column", columns,
        "FIELD=COLUMN: the field stands in the column with this header, or in the second as #2; "
        "FIELD= for none. For each that is not guessed right");
}

} // namespace tarebook
