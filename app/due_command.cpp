#include <map>
#include <memory>

#include <fmt/core.h>

#include "app/calculator.h"
#include "app/command.h"
#include "core/base/text.h"
#include "core/rules/retest.h"

namespace tarebook {

namespace {

enum Column { specification, manufactured, lastTest, markSuffix, service, filledOn, on };

const std::vector<std::string> kInputs{"specification", "manufactured", "last_test", "mark_suffix",
                                       "service",       "filled_on",    "on"};

CalculatorAnswer refused(Column column, const Error& error) {
    return {{}, kInputs[static_cast<std::size_t>(column)], error.text()};
}

/// The column whose date retest() found impossible, by the order in which it looks at them.
Column impossibleColumn(const RetestFacts& facts) {
    if (facts.manufactured > facts.on.month()) {
        return manufactured;
    }
    if (facts.lastTest && (*facts.lastTest > facts.on.month() || *facts.lastTest < facts.manufactured)) {
        return lastTest;
    }
    if (facts.filledOn && (*facts.filledOn > facts.on || facts.filledOn->month() < facts.manufactured)) {
        return filledOn;
    }
    return specification;
}

/// The rulebook in the edition of the day asked for; kept, for the rows mostly share their day.
class Books {
public:
    Books(std::string resourceFolder, std::string name)
        : m_resourceFolder(std::move(resourceFolder)), m_name(std::move(name)) {}
    Result<const Rulebook*> on(Date day) {
        const auto kept = m_books.find(day);
        if (kept != m_books.end()) {
            return &kept->second;
        }
        auto book = Rulebook::load(m_resourceFolder, m_name, day);
        if (!book) {
            return book.error();
        }
        return &m_books.emplace(day, std::move(book).value()).first->second;
    }

private:
    std::string m_resourceFolder;
    std::string m_name;
    std::map<Date, Rulebook> m_books;
};

CalculatorAnswer judged(Books& books, const RetestFacts& facts) {
    const auto book = books.on(facts.on);
    if (!book) {
        return refused(on, book.error());
    }
    const auto verdict = retest(*book.value(), facts);
    if (!verdict) {
        return refused(impossibleColumn(facts), verdict.error());
    }
    const RetestVerdict& found = verdict.value();
    const std::string firmness = firmnessWord(found.firmness);
    return {{found.dueText(), found.fillAllowed ? "yes" : "no", found.shipAllowed ? "yes" : "no",
             fmt::format("{} ({}{}{})", found.rule, found.citation, firmness.empty() ? "" : "; ", firmness)},
            {},
            {}};
}

CalculatorAnswer answer(Books& books, const std::vector<std::string>& cells) {
    const auto mark = Specification::parse(cells[specification]);
    if (!mark) {
        return refused(specification, mark.error());
    }
    const bool yearFirst = mark.value().authority != "DOT" && mark.value().authority != "TC";
    const auto made = MonthYear::parse(cells[manufactured]);
    if (!made) {
        return refused(manufactured, made.error());
    }
    const auto suffix = parseMarkSuffix(cells[markSuffix]);
    if (!suffix) {
        return refused(markSuffix, suffix.error());
    }
    const auto kind = parseService(cells[service]);
    if (!kind) {
        return refused(service, kind.error());
    }
    const auto day = Date::parse(cells[on]);
    if (!day) {
        return refused(on, day.error());
    }
    RetestFacts facts{.specification = mark.value(),
                      .manufactured = made.value(),
                      .lastTest = {},
                      .markSuffix = suffix.value(),
                      .service = kind.value(),
                      .filledOn = {},
                      .waterCapacity = {},
                      .condition = {},
                      .on = day.value()};
    if (!trimmed(cells[lastTest]).empty()) {
        const auto test = TestMark::parse(cells[lastTest], yearFirst);
        if (!test) {
            return refused(lastTest, test.error());
        }
        facts.lastTest = test.value().month;
        facts.lastTestYearOnly = test.value().yearOnly;
    }
    if (!trimmed(cells[filledOn]).empty()) {
        const auto filled = Date::parse(cells[filledOn]);
        if (!filled) {
            return refused(filledOn, filled.error());
        }
        facts.filledOn = filled.value();
    }
    return judged(books, facts);
}

int run(const std::string& path, const std::string& rulebook, const CommandContext& context) {
    Books books(context.resourceFolder, rulebook);
    const Calculator calculator{kInputs,
                                {"due", "fill_allowed", "ship_allowed", "rule"},
                                [&](const std::vector<std::string>& cells) { return answer(books, cells); }};
    return runCalculator(calculator, path, context);
}

} // namespace

void addDueCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb =
        program.add_subcommand("due", "When cylinders fall due for retest, and what may be done with them");
    const auto path = std::make_shared<std::string>();
    const auto rulebook = std::make_shared<std::string>("us");
    verb->add_option("--csv", *path,
                     "table with the columns "
                     "specification,manufactured,last_test,mark_suffix,service,filled_on,on; - is "
                     "standard input")
        ->required();
    verb->add_option("--rulebook", *rulebook, "us (default), eu, uk, ca or au")
        ->check(CLI::IsMember(Rulebook::names()));
    addJsonOption(*verb, context);
    verb->callback([path, rulebook, &context] { context.exitCode = run(*path, *rulebook, context); });
}

} // namespace tarebook
