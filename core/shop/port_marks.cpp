#include "core/shop/port_marks.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {

namespace {

constexpr std::string_view kNoMark = "no ";
constexpr std::string_view kNoneOfThem = "none";

std::vector<std::string> markWords(const std::string& text) {
    std::vector<std::string> words;
    std::string rest = lowered(text) + ',';
    std::replace(rest.begin(), rest.end(), '-', ' ');
    std::replace(rest.begin(), rest.end(), ';', ',');
    for (std::size_t comma = rest.find(','); comma != std::string::npos; comma = rest.find(',')) {
        if (std::string word = tidied(rest.substr(0, comma)); !word.empty()) {
            words.push_back(std::move(word));
        }
        rest.erase(0, comma + 1);
    }
    return words;
}

} // namespace

const std::vector<PortMark>& portMarks() {
    static const std::vector<PortMark> kMarks = {
        {"heat pump", "heat_pump", &System::heatPump},
        {"reversing valve", "reversing_valve", &System::reversingValve},
        {"accumulator", "accumulator", &System::accumulator}};
    return kMarks;
}

std::string portMarksText(const System& system) {
    const auto& marks = portMarks();
    if (std::all_of(marks.begin(), marks.end(),
                    [&](const PortMark& mark) { return system.*mark.field == false; })) {
        return std::string(kNoneOfThem);
    }
    std::string text;
    for (const PortMark& mark : marks) {
        if (system.*mark.field) {
            text += fmt::format("{}{}{}", text.empty() ? "" : ", ", *(system.*mark.field) ? "" : kNoMark,
                                mark.word);
        }
    }
    return text;
}

PortMarkValues portMarksOf(const System& system) {
    return {system.heatPump, system.reversingValve, system.accumulator};
}

void setPortMarks(System& system, const PortMarkValues& values) {
    for (std::size_t place = 0; place < values.size(); ++place) {
        system.*portMarks().at(place).field = values.at(place);
    }
}

Result<PortMarkValues> readPortMarks(const std::string& text) {
    const auto& marks = portMarks();
    PortMarkValues values;
    for (const std::string& word : markWords(text)) {
        const bool absent = word.starts_with(kNoMark);
        const std::string name = absent ? tidied(word.substr(kNoMark.size())) : word;
        const auto mark =
            std::find_if(marks.begin(), marks.end(), [&](const PortMark& one) { return one.word == name; });
        if (word == kNoneOfThem) {
            values.fill(false);
        } else if (mark != marks.end()) {
            values.at(static_cast<std::size_t>(mark - marks.begin())) = !absent;
        } else {
            return Error{fmt::format("{} is nothing that is asked about between the service ports",
                                     tarebook::quoted(word)),
                         "heat pump, reversing valve, accumulator; with no before it where there is none of "
                         "it, or none"};
        }
    }
    return values;
}

} // namespace tarebook
