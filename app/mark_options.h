#pragma once

#include <string>

#include "app/command.h"
#include "core/cylinder/nameplate.h"
#include "core/shop/shop.h"

namespace tarebook {

/// The marks of a cylinder and what it is kept for, as typed on a command line.
struct MarkOptions {
    std::string specification;
    std::string capacity;
    std::string tare;
    std::string made;
    std::string tested;
    std::string method;
    std::string requalifier;
    std::string suffix;
    std::string serviceUntil;
    std::string owner;
    std::string flammable;
    bool burnOut = false;
    bool clean = false;
    bool sensor = false;
};
/// Adds them to a verb; `options` outlives it.
void addMarkOptions(CLI::App& verb, MarkOptions& options);
/// What they say of the cylinder. Error names the option whose value cannot be read.
[[nodiscard]] Result<Nameplate> nameplateOf(const Shop& shop, const std::string& serial,
                                            const MarkOptions& options);

} // namespace tarebook
