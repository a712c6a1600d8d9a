#include "app/tare_option.h"

#include "app/shop_session.h"

namespace tarebook {

void addTareConfirmation(CLI::App& verb, bool& confirmed) {
    verb.add_flag("--confirm", confirmed, "an unusual tare is so: the stamp was looked at");
}

std::optional<Error> waitsForYes(const char* option, const std::optional<Error>& question, bool confirmed) {
    if (!question || confirmed) {
        return std::nullopt;
    }
    return inOption(option, {question->wrong, question->right + "; say --confirm if it is so"});
}

} // namespace tarebook
