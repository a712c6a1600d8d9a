#include "app/purpose_option.h"

namespace tarebook {

Purpose purposeOf(const std::string& word) {
    return word == "charge" ? Purpose::charge : word == "carry" ? Purpose::carry : Purpose::recover;
}

void addPurpose(CLI::App& verb, std::string& purpose) {
    verb.add_option("--purpose", purpose, "recover, charge or carry")
        ->capture_default_str()
        ->check(CLI::IsMember({"recover", "charge", "carry"}));
}

} // namespace tarebook
