#include "core/quantity/scale_line.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"

namespace tarebook {
namespace {

using Rest = ScaleLine::Rest;
using Kind = ScaleLine::Kind;

constexpr std::string_view kOfNumbers = "0123456789.";

bool parts(char letter) {
    return letter == ' ' || letter == ',' || letter == ':' || letter == '\t';
}

bool isWordOfOverload(std::string_view word) {
    return word == "ol" || word == "ul" || word == "of" || word == "uf";
}

/// A word beside the number; false when it is none that is known.
bool takeWord(std::string_view word, ScaleLine& said) {
    constexpr std::array kRests = {
        std::pair{std::string_view("st"), Rest::still},  std::pair{std::string_view("s"), Rest::still},
        std::pair{std::string_view("us"), Rest::moving}, std::pair{std::string_view("sd"), Rest::moving},
        std::pair{std::string_view("d"), Rest::moving},  std::pair{std::string_view("?"), Rest::moving}};
    constexpr std::array kKinds = {
        std::pair{std::string_view("gs"), Kind::gross}, std::pair{std::string_view("g"), Kind::gross},
        std::pair{std::string_view("nt"), Kind::net}, std::pair{std::string_view("n"), Kind::net}};
    for (const auto& [name, rest] : kRests) {
        if (word == name) {
            said.rest = rest;
            return true;
        }
    }
    for (const auto& [name, kind] : kKinds) {
        if (word == name) {
            said.kind = kind;
            return true;
        }
    }
    return false;
}

/// The next word of the text, which loses it and what parts it from the one after.
std::string_view nextWord(std::string_view& text) {
    const auto end = static_cast<std::size_t>(std::find_if(text.begin(), text.end(), parts) - text.begin());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(end);
    while (!text.empty() && parts(text.front())) {
        text.remove_prefix(1);
    }
    return word;
}

Result<std::monostate> takeWords(std::string_view text, std::string_view line, ScaleLine& said) {
    while (!text.empty()) {
        const std::string word = lowered(nextWord(text));
        if (isWordOfOverload(word)) {
            return Error{fmt::format("the scale says that it cannot weigh this: {}", tarebook::quoted(line)),
                         "unload it, set it to zero, and weigh within its range"};
        }
        if (!word.empty() && !takeWord(word, said)) {
            return Error{fmt::format("{} is no word of a scale that is known, in {}", tarebook::quoted(word),
                                     tarebook::quoted(line)),
                         "type the weight by hand, or have the scale send the plain weight with its unit"};
        }
    }
    return std::monostate{};
}

bool isPound(std::string_view name) {
    return name == "lb" || name == "lbs" || name == "#";
}

/// A large G is the word for gross: read as grams it would be a thousandth.
bool isUnit(std::string_view word) {
    const std::string name = lowered(word);
    return name == "kg" || name == "kgs" || word == "g" || isPound(name) || name == "oz";
}

/// Number and unit at the beginning of the text, which loses them: `61.8 lb`, `61lb 14.0oz`.
std::string takeWeight(std::string_view& text, std::string_view unit) {
    std::string weight;
    while (!text.empty() && kOfNumbers.find(text.front()) != std::string_view::npos) {
        const std::size_t digits = std::min(text.find_first_not_of(kOfNumbers), text.size());
        const std::string_view number = text.substr(0, digits);
        text.remove_prefix(digits);
        while (!text.empty() && parts(text.front())) {
            text.remove_prefix(1);
        }
        std::string_view after = text;
        const std::string_view word = nextWord(after);
        const bool hasUnit = isUnit(word);
        if (hasUnit) {
            text = after;
        }
        weight += fmt::format("{}{} {}", weight.empty() ? "" : " ", number, hasUnit ? lowered(word) : unit);
        if (!hasUnit || !isPound(lowered(word))) {
            break;
        }
    }
    return std::string(trimmed(weight));
}

} // namespace

Result<ScaleLine> parseScaleLine(std::string_view line, std::string_view unit) {
    std::string_view text = trimmed(line);
    ScaleLine said;
    const std::size_t begin = text.find_first_of(kOfNumbers);
    const std::string_view before = text.substr(0, std::min(begin, text.size()));
    const std::size_t sign = before.find_first_of("+-");
    std::string_view words = trimmed(before.substr(0, std::min(sign, before.size())));
    while (!words.empty() && parts(words.back())) {
        words.remove_suffix(1);
    }
    const auto first = takeWords(words, line, said);
    if (!first) {
        return first.error();
    }
    if (begin == std::string_view::npos) {
        return Error{fmt::format("no weight in what the scale sent: {}", tarebook::quoted(line)),
                     "look at the scale: it may be overloaded, or speak at another speed than was set"};
    }
    const std::string_view signs =
        sign == std::string_view::npos ? std::string_view() : trimmed(before.substr(sign));
    if (signs.size() > 1) {
        return Error{
            fmt::format("{} is no sign of a weight, in {}", tarebook::quoted(signs), tarebook::quoted(line)),
            "weigh again"};
    }
    text.remove_prefix(begin);
    said.text = takeWeight(text, unit);
    const auto last = takeWords(text, line, said);
    if (!last) {
        return last.error();
    }
    const auto mass = Mass::parse(said.text);
    if (!mass) {
        return mass.error();
    }
    const bool below = signs == "-";
    said.mass = below ? Mass::fromMilligrams(-mass.value().milligrams()) : mass.value();
    if (below) {
        said.text.insert(said.text.begin(), '-');
    }
    return said;
}

} // namespace tarebook
