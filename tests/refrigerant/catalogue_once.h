#pragma once

#include <cstdlib>

#include <fmt/core.h>

#include "core/refrigerant/catalogue.h"

namespace tarebook::tests {

/// The catalogue that comes with the program, read once for all tests of a program.
inline const Catalogue& catalogue() {
    static const Catalogue loaded = [] {
        auto read = Catalogue::load(TAREBOOK_RESOURCE_DIR "/refrigerants");
        if (!read) {
            fmt::print(stderr, "{}\n", read.error().text());
            std::abort();
        }
        return std::move(read).value();
    }();
    return loaded;
}

} // namespace tarebook::tests
