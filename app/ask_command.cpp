#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/questions.h"
#include "core/shop/record_keeping.h"

namespace tarebook {

namespace {

struct AskOptions : ShopOptions {
    std::string question;
    std::string from;
    std::string to;
    std::string cylinder;
    std::string system;
    std::string customer;
    std::string refrigerant;
    std::string owner;
    std::string by;
};

int listQuestions(bool json) {
    nlohmann::json list = nlohmann::json::array();
    TextTable table({"question", "needs", "in the words of who asks", "who"});
    for (const Question& one : auditQuestions()) {
        list.push_back(
            {{"name", one.name}, {"needs", needWords(one.need)}, {"words", one.words}, {"asker", one.asker}});
        table.add({std::string(one.name), std::string(needWords(one.need)), std::string(one.words),
                   std::string(one.asker)});
    }
    if (json) {
        printJson(list);
    } else {
        table.print();
    }
    return kDone;
}

/// This year, up to today, where no day is named.
Result<std::pair<Date, Date>> periodOf(const Shop& shop, const std::string& from, const std::string& to) {
    const auto year = MonthYear::of(shop.today().month().year(), 1);
    if (!year) {
        return year.error();
    }
    const auto first = from.empty() ? Result<Date>(Date::firstOf(year.value())) : dayIn("--from", from);
    const auto last = dayOrToday(shop, "--to", to);
    if (!first || !last) {
        return first ? last.error() : first.error();
    }
    return std::pair(first.value(), last.value());
}

/// Which option names the subject of the question.
std::string subjectIn(const AskOptions& options, QuestionNeed need) {
    return need == QuestionNeed::cylinder   ? options.cylinder
           : need == QuestionNeed::system   ? options.system
           : need == QuestionNeed::customer ? options.customer
                                            : std::string();
}

/// The first option that was given though the question does not ask for it: its answer would not be of that.
std::string notAsked(const AskOptions& options, QuestionNeed need) {
    const struct {
        const char* name;
        const std::string& given;
        QuestionNeed need;
    } all[] = {{"--cylinder", options.cylinder, QuestionNeed::cylinder},
               {"--system", options.system, QuestionNeed::system},
               {"--customer", options.customer, QuestionNeed::customer},
               {"--refrigerant", options.refrigerant, QuestionNeed::holdings},
               {"--owner", options.owner, QuestionNeed::holdings},
               {"--by", options.by, QuestionNeed::holdings}};
    for (const auto& one : all) {
        if (!one.given.empty() && one.need != need) {
            return one.name;
        }
    }
    return "";
}

int printAnswerOf(Shop& shop, const Question& question, const QuestionAnswer& answer, bool json) {
    if (json) {
        nlohmann::json rows = nlohmann::json::array();
        for (const auto& row : answer.table.rows) {
            nlohmann::json object = nlohmann::json::object();
            for (std::size_t column = 0; column < row.size(); ++column) {
                object[answer.table.columns[column]] = row[column];
            }
            rows.push_back(std::move(object));
        }
        printJson({{"question", question.name},
                   {"words", question.words},
                   {"sentence", answer.sentence},
                   {"columns", answer.table.columns},
                   {"rows", rows},
                   {"entries", answer.entries},
                   {"findings", jsonOfFindings(answer.findings)},
                   {"head", shop.store().headDigest()}});
        return kDone;
    }
    const auto lines = linesOf(shop, answer.entries);
    if (!lines) {
        return refuse(lines.error());
    }
    fmt::print("{}\n{}\n", question.words, answer.sentence);
    TextTable table(answer.table.columns);
    for (const auto& row : answer.table.rows) {
        table.add(row);
    }
    if (!table.empty()) {
        table.print();
    }
    printFindings(answer.findings);
    TextTable behind({"entry", "happened", "what"});
    for (const HistoryLine& line : lines.value()) {
        behind.add({std::to_string(line.entry), shop.zone().localText(line.occurred), line.sentence});
    }
    if (!behind.empty()) {
        behind.print();
    }
    fmt::print("head {}\n", shop.store().headDigest());
    return kDone;
}

int askVerb(Shop& shop, const AskOptions& options, bool json) {
    if (options.question.empty()) {
        return listQuestions(json);
    }
    const Question* question = questionNamed(options.question);
    if (question == nullptr) {
        return refuse(
            {fmt::format("'{}' is no question", options.question), "`tarebookctl ask SHOP` lists them"});
    }
    if (const std::string option = notAsked(options, question->need); !option.empty()) {
        return refuse({fmt::format("{} is not asked by `{}`", option, question->name),
                       "leave it out; `tarebookctl ask SHOP` lists what each question needs"});
    }
    const auto period = periodOf(shop, options.from, options.to);
    if (!period) {
        return refuse(period.error());
    }
    QuestionInput input{period.value().first, period.value().second, subjectIn(options, question->need)};
    input.refrigerant = options.refrigerant;
    input.owner = options.owner;
    input.step = options.by == "day"     ? HeldStep::day
                 : options.by == "month" ? HeldStep::month
                                         : HeldStep::automatic;
    const auto answer = answered(shop, *question, input);
    return answer ? printAnswerOf(shop, *question, answer.value(), json) : refuse(answer.error());
}

int recordsVerb(Shop& shop, const AskOptions& options, bool json) {
    const auto period = periodOf(shop, options.from, options.to);
    if (!period) {
        return refuse(period.error());
    }
    const auto all = recordsKept(shop, period.value().first, period.value().second);
    if (!all) {
        return refuse(all.error());
    }
    nlohmann::json list = nlohmann::json::array();
    TextTable table({"record", "verdict", "kept by", "for", "law", "how firm"});
    TextTable missing({"lacks something", "record", "entry", "missing"});
    for (const RecordKept& one : all.value()) {
        nlohmann::json gaps = nlohmann::json::array();
        for (const RecordGap& gap : one.gaps) {
            nlohmann::json object{{"subject", gap.subject}, {"missing", gap.missing}};
            object["entry"] = gap.entry == 0 ? nlohmann::json() : nlohmann::json(gap.entry);
            gaps.push_back(std::move(object));
            missing.add(
                {gap.subject, one.record, gap.entry == 0 ? "" : std::to_string(gap.entry), gap.missing});
        }
        list.push_back({{"record", one.record},
                        {"fields", one.fields},
                        {"kept_by", one.keeper},
                        {"retention", one.retention},
                        {"law", one.jurisdiction},
                        {"status", one.status},
                        {"in_these_books", one.inTheseBooks},
                        {"asked", one.asked},
                        {"verdict", one.verdict()},
                        {"gaps", gaps}});
        table.add({one.record, one.verdict(), one.keeper, one.retention, one.jurisdiction, one.status});
    }
    if (json) {
        printJson(list);
        return kDone;
    }
    table.print();
    if (!missing.empty()) {
        missing.print();
    }
    return kDone;
}

} // namespace

void addAskCommands(CLI::App& program, CommandContext& context) {
    {
        CLI::App* verb = program.add_subcommand("ask", "What auditors ask, answered from the books");
        const auto options = std::make_shared<AskOptions>();
        addShopOptions(*verb, options, context);
        verb->add_option("QUESTION", options->question, "its name; without one the questions are listed");
        verb->add_option("--from", options->from, "first day of the period; this year's by default");
        verb->add_option("--to", options->to, "last day, included; today by default");
        verb->add_option("--cylinder", options->cylinder, "serial that is asked about");
        verb->add_option("--system", options->system, "SITE/TAG that is asked about");
        verb->add_option("--customer", options->customer, "whose sites are asked about");
        verb->add_option("--refrigerant", options->refrigerant, "of `held`, `balances`: only this one");
        verb->add_option("--owner", options->owner,
                         "of `held`, `balances`: only this owner's gas; `the shop` is its own");
        verb->add_option(
                "--by", options->by,
                "of `held`, `balances`: by day or month; otherwise `held` goes by day up to two months")
            ->check(CLI::IsMember({"day", "month"}));
        addEarlierOptions(*verb, options);
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return askVerb(shop, *options, context.json); });
    }
    {
        CLI::App* verb = program.add_subcommand(
            "records", "Records that the law asks for: whether they are complete, and what is missing");
        const auto options = std::make_shared<AskOptions>();
        addShopOptions(*verb, options, context);
        verb->add_option("--from", options->from, "first day of the period; this year's by default");
        verb->add_option("--to", options->to, "last day, included; today by default");
        addEarlierOptions(*verb, options);
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return recordsVerb(shop, *options, context.json); });
    }
}

} // namespace tarebook
