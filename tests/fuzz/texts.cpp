// Readers of short texts. What was read, written and read again is the same; an error has words.

#include <cmath>
#include <cstdlib>

#include "core/base/instant.h"
#include "core/base/month_year.h"
#include "core/base/sheet.h"
#include "core/base/table.h"
#include "core/base/written_date.h"
#include "core/cylinder/nameplate.h"
#include "core/cylinder/specification.h"
#include "core/quantity/mass.h"
#include "core/quantity/pressure_reading.h"
#include "core/quantity/scale_line.h"
#include "core/quantity/temperature.h"
#include "core/refrigerant/catalogue.h"
#include "tests/fuzz/target.h"

namespace tarebook::tests {

namespace {

template <typename Value> bool worded(const Result<Value>& result, std::string_view input) {
    demand(result.ok() || (!result.error().wrong.empty() && !result.error().right.empty()),
           "an error says what is wrong and what would be right", input);
    return result.ok();
}

template <typename Value> void readsBack(const Result<Value>& result, std::string_view input) {
    if (worded(result, input)) {
        const auto again = Value::parse(result.value().text());
        demand(again.ok() && again.value().text() == result.value().text(), "what is written reads back",
               input);
    }
}

const Catalogue& catalogue() {
    static const Catalogue kCatalogue = [] {
        auto loaded = Catalogue::load(TAREBOOK_RESOURCE_DIR "/refrigerants");
        demand(loaded.ok(), "the tables of refrigerants load", "");
        return std::move(loaded).value();
    }();
    return kCatalogue;
}

} // namespace

void feedSheet(std::string_view bytes) {
    const auto sheet = readSheet(bytes);
    if (worded(sheet, bytes)) {
        for (const SheetRow& row : sheet.value().rows) {
            demand(sheet.value().problemAt(row.line) != nullptr ||
                       row.cells.size() == sheet.value().header.size(),
                   "a row without a problem has as many cells as the header", bytes);
        }
    }
    (void)worded(readTable(bytes), bytes);
}

void feedQuantity(std::string_view bytes) {
    if (const auto mass = Mass::parse(bytes); worded(mass, bytes)) {
        const auto again = Mass::parse(mass.value().kilogramsText());
        demand(again.ok() && again.value() == mass.value(), "a mass reads back", bytes);
        demand(mass.value().milligrams() >= 0 && mass.value().milligrams() <= 1'000'000'000'000,
               "a mass is at most 1000 t", bytes);
    }
    if (const auto pressure = parseGaugePressure(bytes); worded(pressure, bytes)) {
        demand(std::isfinite(pressure.value().kilopascal()), "a pressure is a number", bytes);
    }
    if (const auto temperature = Temperature::parse(bytes); worded(temperature, bytes)) {
        demand(std::isfinite(temperature.value().kelvin()) && temperature.value().kelvin() >= 0,
               "a temperature is not below absolute zero", bytes);
    }
    if (const auto line = parseScaleLine(bytes, "lb"); worded(line, bytes)) {
        const bool below = line.value().text.front() == '-';
        const auto again = Mass::parse(line.value().text.substr(below ? 1 : 0));
        demand(again.ok() && std::abs(line.value().mass.milligrams()) == again.value().milligrams(),
               "the text of a weight is the weight", bytes);
    }
    (void)worded(WaterCapacity::parse(bytes), bytes);
    readsBack(Owner::parse(bytes), bytes);
}

void feedDate(std::string_view bytes) {
    readsBack(Date::parse(bytes), bytes);
    readsBack(MonthYear::parse(bytes), bytes);
    readsBack(Instant::parse(bytes), bytes);
    for (const DateOrder order : {DateOrder::monthFirst, DateOrder::dayFirst}) {
        if (const auto day = readDate(bytes, order); worded(day, bytes)) {
            demand(Date::parse(day.value().text()).ok(), "a day reads back", bytes);
        }
        (void)worded(readMonth(bytes, order), bytes);
        if (const auto moment = readMoment(bytes, order); worded(moment, bytes)) {
            const int minute = moment.value().minuteOfDay.value_or(0);
            demand(minute >= 0 && minute < 24 * 60, "a time is one of a day", bytes);
        }
    }
}

void feedContents(std::string_view bytes) {
    const auto contents = catalogue().contents(bytes);
    if (worded(contents, bytes)) {
        double sum = 0;
        for (const auto& component : contents.value()) {
            demand(component.massShare > 0 && component.massShare <= 1, "a share is one", bytes);
            sum += component.massShare;
        }
        demand(std::abs(sum - 1) < 1e-9, "shares sum to one", bytes);
        demand(!catalogue().displayName(contents.value()).empty(), "contents have a name", bytes);
    }
    if (const auto designation = catalogue().designation(bytes); worded(designation, bytes)) {
        demand(catalogue().designation(designation.value()).ok(), "a designation reads back", bytes);
    }
}

void feedMark(std::string_view bytes) {
    readsBack(Specification::parse(bytes), bytes);
    (void)worded(parseTestPressureMark(bytes), bytes);
}

} // namespace tarebook::tests
