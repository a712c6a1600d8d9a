#include <string_view>

#include <fmt/core.h>

#include "app/saturation_command.h"
#include "core/quantity/mass.h"

namespace {

constexpr int kDone = 0;
constexpr int kRefused = 1;
constexpr int kWrongUsage = 2;

int convertMass(std::string_view text) {
    const auto mass = tarebook::Mass::parse(text);
    if (!mass) {
        fmt::print(stderr, "{}\n", mass.error().text());
        return kRefused;
    }
    fmt::print("{}  {}\n", mass.value().kilogramsText(), mass.value().poundsFlooredText());
    return kDone;
}

} // namespace

int main(int argc, char** argv) {
    if (argc == 3 && std::string_view(argv[1]) == "mass") {
        return convertMass(argv[2]);
    }
    if (argc == 4 && std::string_view(argv[1]) == "saturation" && std::string_view(argv[2]) == "--csv") {
        return tarebook::runSaturation(argv[3], TAREBOOK_RESOURCE_DIR);
    }
    fmt::print(stderr, "usage: tarebookctl mass QUANTITY\n"
                       "       tarebookctl saturation --csv FILE|-\n");
    return kWrongUsage;
}
