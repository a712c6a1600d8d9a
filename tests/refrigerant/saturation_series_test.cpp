#include "core/refrigerant/saturation_series.h"

#include <cmath>
#include <random>

#include <gtest/gtest.h>

using namespace tarebook;

// An answer is the same whether asked alone or after others, whatever came before it.
TEST(SaturationSeries, NeighboursChangeNothing) {
    const Catalogue known = Catalogue::load(TAREBOOK_RESOURCE_DIR "/refrigerants").value();
    std::mt19937_64 random(20261126);
    std::uniform_real_distribution<double> celsius(-40, 65);
    int compared = 0;
    for (const char* text : {"R-410A", "R-407C", "R-410A:0.5+R-22:0.3+R-134a:0.1+R-290:0.1", "R-455A",
                             "R-744:0.2+R-600a:0.8", "R-508B", "R-1234yf:0.5+R-134a:0.5", "R-22",
                             "R-14:0.4+R-236ea:0.6", "R-365mfc:0.557+R-601:0.443"}) {
        const Contents contents = known.contents(text).value();
        std::vector<Temperature> temperatures;
        for (int place = 0; place < 40; ++place) {
            temperatures.push_back(Temperature::fromCelsius(celsius(random)));
        }
        const auto list = saturationsAt(known, contents, temperatures);
        ASSERT_EQ(list.size(), temperatures.size());
        for (std::size_t place = 0; place < list.size(); ++place) {
            const auto alone = saturationAt(known, contents, temperatures[place]);
            ASSERT_EQ(alone.ok(), list[place].ok()) << text << " at " << temperatures[place].celsius();
            if (!alone) {
                continue; // which of its reasons comes first may differ
            }
            ++compared;
            EXPECT_NEAR(list[place].value().bubble.kilopascal() / alone.value().bubble.kilopascal(), 1, 1e-9)
                << text << " at " << temperatures[place].celsius();
            EXPECT_NEAR(list[place].value().dew.kilopascal() / alone.value().dew.kilopascal(), 1, 1e-9)
                << text << " at " << temperatures[place].celsius();
        }
    }
    EXPECT_GT(compared, 200);
}

TEST(SaturationSeries, UnknownSubstancesAreRefusedForAll) {
    const Catalogue known = Catalogue::load(TAREBOOK_RESOURCE_DIR "/refrigerants").value();
    const auto list =
        saturationsAt(known, {{"R9999", 1.0}}, {Temperature::fromCelsius(0), Temperature::fromCelsius(25)});
    ASSERT_EQ(list.size(), 2U);
    EXPECT_FALSE(list[0]);
    EXPECT_FALSE(list[1]);
}
