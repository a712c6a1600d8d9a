#include <map>

#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/books.h"

namespace tarebook {

namespace {

struct Options : ShopOptions {
    Sequence entry = 0;
    std::string cylinder;
    std::string at;
    std::string from;
    std::string to;
};

double shareOf(std::int64_t part, std::int64_t whole) {
    return whole == 0 ? 0.0 : static_cast<double>(part) / static_cast<double>(whole);
}

/// One part an account or lot, gases put together; beside it the gases.
struct Part {
    std::int64_t milligrams = 0;
    nlohmann::json gases = nlohmann::json::array();

    void add(const Gas& gas, Mass mass) {
        milligrams += mass.milligrams();
        gases.push_back({{"refrigerant", gas.refrigerant},
                         {"owner", gas.owner},
                         {"state", gasStateWord(gas.state)},
                         {"mass_kg", kilograms(mass)}});
    }
    [[nodiscard]] nlohmann::json json(std::int64_t whole) const {
        return {{"mass_kg", kilograms(Mass::fromMilligrams(milligrams))},
                {"share", shareOf(milligrams, whole)},
                {"gases", gases}};
    }
};

nlohmann::json numbersOf(const TraceAnswer& answer) {
    nlohmann::json numbers = nlohmann::json::array();
    for (const HistoryLine& line : answer.entries) {
        numbers.push_back(line.entry);
    }
    return numbers;
}

nlohmann::json jsonOf(const TraceAnswer& answer, const ForwardTrace& trace) {
    const std::int64_t whole = trace.lot.content.total().milligrams();
    std::map<std::string, Part> parts;
    for (const ForwardPart& part : trace.parts) {
        parts[part.account.text()].add(part.gas, part.mass);
    }
    nlohmann::json list = nlohmann::json::array();
    for (const auto& [account, part] : parts) {
        nlohmann::json object = part.json(whole);
        object["account"] = account;
        list.push_back(std::move(object));
    }
    return {{"lot", trace.lot.entry},
            {"account", trace.lot.source.text()},
            {"mass_kg", kilograms(trace.lot.content.total())},
            {"parts", list},
            {"entries", numbersOf(answer)},
            {"sentence", answer.sentence},
            {"head", answer.head}};
}

nlohmann::json jsonOf(const TraceAnswer& answer, const BackwardTrace& trace) {
    std::map<std::pair<Sequence, std::string>, Part> parts;
    for (const BackwardPart& part : trace.parts) {
        parts[{part.lot.entry, part.lot.source.text()}].add(part.gas, part.mass);
    }
    nlohmann::json list = nlohmann::json::array();
    for (const auto& [lot, part] : parts) {
        nlohmann::json object = part.json(trace.mass.milligrams());
        object["entry"] = lot.first;
        object["account"] = lot.second;
        list.push_back(std::move(object));
    }
    return {{"lot", nullptr},     {"cylinder", trace.cylinder.name}, {"mass_kg", kilograms(trace.mass)},
            {"parts", list},      {"entries", numbersOf(answer)},    {"sentence", answer.sentence},
            {"head", answer.head}};
}

void printAnswer(const Shop& shop, const TraceAnswer& answer) {
    fmt::print("{}\n", answer.sentence);
    const Display display = shop.display();
    TextTable table(
        {"mass", "refrigerant", "owner", "state", answer.forward ? "is in" : "came from", "entry"});
    if (answer.forward) {
        for (const ForwardPart& part : answer.forward->parts) {
            table.add({display.mass(part.mass), part.gas.refrigerant, part.gas.owner,
                       gasStateWord(part.gas.state), part.account.text(), ""});
        }
    } else {
        for (const BackwardPart& part : answer.backward->parts) {
            table.add({display.mass(part.mass), part.gas.refrigerant, part.gas.owner,
                       gasStateWord(part.gas.state), part.lot.source.text(), std::to_string(part.lot.entry)});
        }
    }
    if (!table.empty()) {
        table.print();
    }
    TextTable entries({"entry", "happened", "what"});
    for (const HistoryLine& line : answer.entries) {
        entries.add({std::to_string(line.entry), shop.zone().localText(line.occurred), line.sentence});
    }
    entries.print();
    fmt::print("head {}\n", answer.head);
}

int traceVerb(Shop& shop, const Options& options, bool json) {
    const auto head = headAskedFor(shop, options);
    const auto at = momentIn(shop, "--at", options.at);
    if (!head || !at) {
        return refuse(head ? at.error() : head.error());
    }
    const auto answer = options.cylinder.empty()
                            ? traceEntry(shop, options.entry, head.value())
                            : traceCylinder(shop, options.cylinder, at.value(), head.value());
    if (!answer) {
        return refuse(answer.error());
    }
    if (!json) {
        printAnswer(shop, answer.value());
    } else if (answer.value().forward) {
        printJson(jsonOf(answer.value(), *answer.value().forward));
    } else {
        printJson(jsonOf(answer.value(), *answer.value().backward));
    }
    return kDone;
}

int balanceVerb(Shop& shop, const Options& options, bool json) {
    const auto from = dayIn("--from", options.from);
    const auto to = dayIn("--to", options.to);
    const auto head = headAskedFor(shop, options);
    if (!from || !to || !head) {
        return refuse(!from ? from.error() : !to ? to.error() : head.error());
    }
    const auto sums = balance(shop, from.value(), to.value(), head.value());
    if (!sums) {
        return refuse(sums.error());
    }
    const std::vector<std::pair<const char*, std::int64_t PeriodSum::*>> columns = {
        {"opening", &PeriodSum::opening},     {"bought", &PeriodSum::bought},
        {"recovered", &PeriodSum::recovered}, {"charged", &PeriodSum::charged},
        {"returned", &PeriodSum::returned},   {"released", &PeriodSum::released},
        {"variance", &PeriodSum::variance},   {"closing", &PeriodSum::closing}};
    nlohmann::json list = nlohmann::json::array();
    std::vector<std::string> header{"refrigerant"};
    for (const auto& [name, member] : columns) {
        header.emplace_back(name);
    }
    TextTable table(header);
    for (PeriodSum sum : sums.value()) {
        // What was there when the books began, within the period, counts as its opening: the columns then sum
        // to the closing.
        const Mass opened = Mass::fromMilligrams(sum.opened);
        sum.opening += sum.opened;
        nlohmann::json object{{"refrigerant", sum.refrigerant}};
        std::vector<std::string> row{sum.refrigerant};
        for (const auto& [name, member] : columns) {
            const Mass mass = Mass::fromMilligrams(sum.*member);
            object[name] = kilograms(mass);
            row.push_back(mass.kilogramsText());
        }
        object["of_which_opened"] = kilograms(opened);
        list.push_back(std::move(object));
        table.add(std::move(row));
    }
    if (json) {
        printJson(list);
    } else {
        table.print();
    }
    return kDone;
}

int lotsVerb(Shop& shop, int most, bool json) {
    const auto lines = lots(shop, most);
    if (!lines) {
        return refuse(lines.error());
    }
    nlohmann::json list = nlohmann::json::array();
    TextTable table({"entry", "happened", "what"});
    for (const HistoryLine& line : lines.value()) {
        list.push_back({{"entry", line.entry},
                        {"occurred", line.occurred.text()},
                        {"kind", line.kind},
                        {"sentence", line.sentence},
                        {"reversed", line.reversedBy.has_value()}});
        table.add(
            {std::to_string(line.entry), shop.zone().localText(line.occurred),
             line.sentence + (line.reversedBy ? fmt::format(" (reversed by {})", *line.reversedBy) : "")});
    }
    if (json) {
        printJson(list);
    } else {
        table.print();
    }
    return kDone;
}

} // namespace

void addBooksCommands(CLI::App& program, CommandContext& context) {
    {
        CLI::App* verb = program.add_subcommand(
            "trace", "Where a charge went, or where the contents of a cylinder came from");
        const auto options = std::make_shared<Options>();
        addShopOptions(*verb, options, context);
        CLI::Option* entry =
            verb->add_option("--entry", options->entry, "forward, from the lot born in this entry");
        CLI::Option* cylinder =
            verb->add_option("--cylinder", options->cylinder, "backward, from this serial");
        entry->excludes(cylinder);
        verb->add_option("--at", options->at, "with --cylinder: what it held at this moment")
            ->needs(cylinder);
        addHeadOptions(*verb, *options);
        verb->callback([entry, cylinder, options, &context] {
            if (entry->count() + cylinder->count() != 1) {
                throw CLI::ValidationError("trace", "needs --entry SEQ or --cylinder SERIAL");
            }
            ShopSession(*options, context).run([&](Shop& shop) {
                return traceVerb(shop, *options, context.json);
            });
        });
    }
    {
        CLI::App* verb =
            program.add_subcommand("balance", "Balance of a period per refrigerant, in kilograms, exact");
        const auto options = std::make_shared<Options>();
        addShopOptions(*verb, options, context);
        verb->add_option("--from", options->from, "first day")->required();
        verb->add_option("--to", options->to, "last day, included")->required();
        addHeadOptions(*verb, *options);
        shopVerb(*verb, options, context,
                 [options, &context](Shop& shop) { return balanceVerb(shop, *options, context.json); });
    }
    {
        CLI::App* verb =
            program.add_subcommand("lots", "Entries with which refrigerant came into the shop, newest first");
        const auto options = std::make_shared<ShopOptions>();
        const auto most = std::make_shared<int>(50);
        addShopOptions(*verb, options, context);
        addEarlierOptions(*verb, options);
        verb->add_option("--most", *most, "so many at most")->capture_default_str();
        shopVerb(*verb, options, context,
                 [most, &context](Shop& shop) { return lotsVerb(shop, *most, context.json); });
    }
}

} // namespace tarebook
