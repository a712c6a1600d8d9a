#include "core/rules/evacuation.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/base/text.h"
#include "core/quantity/decimal.h"
#include "core/quantity/pressure.h"
#include "core/rules/rule_cells.h"

namespace tarebook {

namespace {

constexpr double kAirInches = 29.9; // what Table 1 of 40 CFR 82.156 measures its vacuum from
constexpr double kMillimetresPerInch = 25.4;
constexpr double kKilopascalPerInch = 3.386389; // conventional inch of mercury at 0 degC

double inchesOfGauge(double psig) {
    return kAirInches + psig * kKilopascalPerPsi / kKilopascalPerInch;
}

bool fitsMachine(const RuleRow& row, const std::optional<Date>& made) {
    for (const std::string_view column : {"machine_from", "machine_before"}) {
        const auto bound = Date::parse(row.cell(column));
        if (!made || !bound) {
            continue; // without a day every machine is possible
        }
        if (column == "machine_from" ? *made < bound.value() : *made >= bound.value()) {
            return false;
        }
    }
    return true;
}

struct Level {
    const RuleRow* row = nullptr;
    EvacuationReading reading;
};

/// The level that holds; where the machine's day is not known, the strictest that could.
Result<Level> levelOf(const Rulebook& book, const EvacuationAsk& ask) {
    const RuleTable* table = book.table("evacuation");
    if (table == nullptr) {
        return withoutTable(book, "how far appliances are evacuated");
    }
    std::optional<Level> best;
    for (const RuleRow& row : table->rows) {
        const auto from = massIn(row, "charge_from_lb", "lb");
        const auto below = massIn(row, "charge_below_lb", "lb");
        if (!from || !below) {
            return from ? below.error() : from.error();
        }
        const bool charge = (!from.value() || ask.fullCharge >= *from.value()) &&
                            (!below.value() || ask.fullCharge < *below.value());
        if (row.cell("appliance") != ask.appliance || row.cell("work") != ask.work || !charge ||
            !fitsMachine(row, ask.machineMade)) {
            continue;
        }
        auto reading = EvacuationReading::ofRow(row);
        if (!reading) {
            return reading.error();
        }
        if (!best || reading.value().value() < best->reading.value()) {
            best = Level{&row, std::move(reading).value()};
        }
    }
    if (!best) {
        return Error{fmt::format("no level for a {} appliance and the work {}", ask.appliance, ask.work),
                     fmt::format("the work is one of {}; compressor-works and compressor-dead are for small "
                                 "appliances, not-major and leaking for the others",
                                 fmt::join(evacuationWorks(), ", "))};
    }
    return *best;
}

void judgeReached(Finding& finding, const EvacuationReading& level, const EvacuationReading& reached) {
    const bool met =
        level.isShare() ? reached.value() >= level.value() : reached.value() <= level.value() + 1e-9;
    finding.working.push_back(
        level.isShare()
            ? fmt::format("recovered {:g} %, asked for {:g} %, margin {:g} points", reached.value(),
                          level.value(), reached.value() - level.value())
            : fmt::format("reached {} = {:.2f} inHg above vacuum, asked for {:.2f}, margin {:.2f}",
                          reached.text(), reached.value(), level.value(), level.value() - reached.value()));
    if (met) {
        finding.headline =
            fmt::format("Evacuated far enough: {} reached, {} asked for.", reached.text(), level.text());
        finding.remedy.clear();
    } else {
        finding.severity = Severity::refusal;
        finding.headline =
            fmt::format("Not to be opened yet: {} reached, {} asked for.", reached.text(), level.text());
        finding.remedy = "Go on recovering; where leaks make it impossible, isolate the leaking part.";
    }
}

} // namespace

Result<EvacuationReading> EvacuationReading::parse(std::string_view text) {
    const std::string_view plain = trimmed(text);
    const auto read = readNumber(plain);
    const std::string right = "write it as '10 inHg' of vacuum, '25 mmHg' absolute, '0 psig' or '90 %'";
    if (!read) {
        return Error{fmt::format("{} is no reading", tarebook::quoted(text)), right};
    }
    double number = static_cast<double>(read.value().number.digits);
    for (int place = 0; place < read.value().number.places; ++place) {
        number /= 10;
    }
    const std::string unit = lowered(trimmed(read.value().rest));
    EvacuationReading reading;
    reading.m_text = std::string(plain);
    if (unit == "inhg") {
        reading.m_value = kAirInches - number;
    } else if (unit == "mmhg") {
        reading.m_value = number / kMillimetresPerInch;
    } else if (unit == "psig") {
        reading.m_value = inchesOfGauge(number);
    } else if (unit == "%" && number <= 100) {
        reading.m_share = true;
        reading.m_value = number;
    } else {
        return Error{fmt::format("{} is no reading", tarebook::quoted(text)), right};
    }
    if (reading.m_value < 0) {
        return Error{fmt::format("{} is more than a whole vacuum", tarebook::quoted(text)), right};
    }
    return reading;
}

Result<EvacuationReading> EvacuationReading::ofRow(const RuleRow& row) {
    const std::string& reach = row.cell("reach");
    const char* unit = reach == "vacuum"      ? "inHg"
                       : reach == "absolute"  ? "mmHg"
                       : reach == "gauge"     ? "psig"
                       : reach == "recovered" ? "%"
                                              : "";
    auto reading = parse(fmt::format("{} {}", row.cell("level"), unit));
    if (!reading) {
        return Error{fmt::format("evacuation.csv: {} {} is no level", reach, row.cell("level")),
                     "take the file as it was delivered"};
    }
    EvacuationReading its = std::move(reading).value();
    its.m_text += reach == "vacuum" ? " of vacuum" : reach == "absolute" ? " absolute" : "";
    return its;
}

const std::vector<std::string>& evacuationWorks() {
    static const std::vector<std::string> kWorks{"any", "not-major", "leaking", "compressor-works",
                                                 "compressor-dead"};
    return kWorks;
}

Result<Finding> evacuation(const Rulebook& book, const EvacuationAsk& ask) {
    const auto level = levelOf(book, ask);
    if (!level) {
        return level.error();
    }
    const RuleRow& row = *level.value().row;
    const EvacuationReading& asked = level.value().reading;
    if (ask.reached && ask.reached->isShare() != asked.isShare()) {
        return Error{fmt::format("{} cannot be held against {}", ask.reached->text(), asked.text()),
                     asked.isShare() ? "give the share of the charge, as 90 %"
                                     : "give the pressure that the gauge shows, as 10 inHg"};
    }
    Finding finding =
        findingOf(book, row, "release.evacuation", Severity::note,
                  asked.isShare() ? fmt::format("Recover {} of the charge before it is opened.", asked.text())
                                  : fmt::format("Evacuate it to {} before it is opened.", asked.text()));
    finding.remedy = "Read the gauge once it stands still, and see that the level was reached.";
    finding.working.push_back(fmt::format("{} appliance, full charge {}, work: {}", ask.appliance,
                                          bothUnits(ask.fullCharge), ask.work));
    if (!row.cell("machine_from").empty() || !row.cell("machine_before").empty()) {
        finding.working.push_back(
            ask.machineMade
                ? fmt::format("recovery machine made {}; the level changes with those made from {}",
                              ask.machineMade->text(),
                              row.cell("machine_from").empty() ? row.cell("machine_before")
                                                               : row.cell("machine_from"))
                : "the day on which the recovery machine was made is not known: the stricter level");
    }
    if (!asked.isShare()) {
        finding.working.push_back(fmt::format("{} is {:.2f} inHg above vacuum (air at {} inHg)", asked.text(),
                                              asked.value(), kAirInches));
    }
    if (!row.cell("remark").empty()) {
        finding.working.push_back(row.cell("remark"));
    }
    if (ask.reached) {
        judgeReached(finding, asked, *ask.reached);
    }
    return finding;
}

} // namespace tarebook
