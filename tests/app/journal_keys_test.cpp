// docs/journal.md is the format: what each entry says. Every key that the program writes into a body stands
// there, for entries of all kinds that the sample shop and a few more verbs make.
#include <regex>
#include <set>

#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

/// Objects whose keys are data: refrigerants, serials, kinds of gas.
const std::set<std::string> kKeyedByData = {"parts", "loans", "kinds"};

void addKeys(const nlohmann::json& value, bool data, std::set<std::string>& keys) {
    for (const auto& [key, inner] : value.items()) {
        if (value.is_object() && !data) {
            keys.insert(key);
        }
        if (inner.is_structured()) {
            addKeys(inner, value.is_object() && kKeyedByData.contains(key), keys);
        }
    }
}

/// What stands between backticks, in words.
std::set<std::string> namedIn(const std::string& text) {
    static const std::regex kCode("`[^`]*`");
    static const std::regex kWord("[a-z][a-z0-9_]*");
    std::set<std::string> names;
    for (std::sregex_iterator code(text.begin(), text.end(), kCode), end; code != end; ++code) {
        const std::string inside = code->str();
        for (std::sregex_iterator word(inside.begin(), inside.end(), kWord); word != end; ++word) {
            names.insert(word->str());
        }
    }
    return names;
}

} // namespace

TEST_F(CtlTest, EveryKeyOfABodyStandsInTheFormatOfTheJournal) {
    good("sample s.tarebook --cylinders 80 --years 2");
    for (const auto& one : good("fleet s.tarebook --json").json()) {
        if (one["net_kg"].get<double>() > 1) {
            good(fmt::format(
                "weigh s.tarebook {} '{} kg' --at '70 F' --measured '120 psig' --rest 14 --liquid yes "
                "--gauge-error '1 psi' --thermometer-error '1 F'",
                one["serial"].get<std::string>(),
                one["tare_kg"].get<double>() + one["net_kg"].get<double>()));
            break;
        }
    }
    std::set<std::string> keys;
    std::istringstream journal(good("journal s.tarebook").out);
    for (std::string line; std::getline(journal, line);) {
        addKeys(nlohmann::json::parse(line)["body"], false, keys);
    }
    EXPECT_TRUE(keys.contains("gauge_rest_s")) << "the reading is kept";
    EXPECT_GT(keys.size(), 60U);
    const std::set<std::string> named = namedIn(read(TAREBOOK_DOCS "/journal.md"));
    for (const std::string& key : keys) {
        EXPECT_TRUE(named.contains(key)) << key << " is written and stands in no line of docs/journal.md";
    }
}
