#include <limits>

#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/head_asked.h"

namespace tarebook {

namespace {

/// What is known of a head that somebody holds on paper.
struct HeadAsked {
    std::string digits; // empty: none was asked for
    std::optional<Sequence> entry;

    [[nodiscard]] bool isMissing() const { return !digits.empty() && !entry; }
};

nlohmann::json jsonOf(const Verification& verified, const HeadAsked& asked) {
    nlohmann::json lost = nlohmann::json::array();
    for (const EntrySpan& span : verified.lost) {
        lost.push_back({span.first, span.last});
    }
    nlohmann::json answer{
        {"entries", verified.entries},        {"head", verified.head},
        {"problems", verified.problems},      {"lost_entries", lost},
        {"sound", verified.problems.empty()}, {"ok", verified.problems.empty() && !asked.isMissing()}};
    if (!asked.digits.empty()) {
        answer["entry_of_head"] = asked.entry ? nlohmann::json(*asked.entry) : nlohmann::json();
    }
    return answer;
}

int verify(Shop& shop, const CommandContext& context, HeadAsked asked, VerifyDepth depth) {
    const auto verified = shop.store().verify(progressOf("entry"), depth);
    if (!verified) {
        printError(verified.error());
        return kDamaged;
    }
    if (!asked.digits.empty()) {
        const auto entry = entryOfHead(shop, asked.digits);
        if (!entry) {
            return refuse(entry.error());
        }
        asked.entry = entry.value();
    }
    const std::vector<std::string>& problems = verified.value().problems;
    if (context.json) {
        nlohmann::json answer = jsonOf(verified.value(), asked);
        answer["looked_at"] = depth == VerifyDepth::chain ? "chain" : "all";
        printJson(answer);
    } else {
        for (const std::string& problem : problems) {
            fmt::print(stderr, "tarebookctl: {}\n", problem);
        }
        fmt::print("{} entries, {}\nhead {}\n", verified.value().entries,
                   !problems.empty() ? "NOT sound"
                   : depth == VerifyDepth::chain
                       ? "the chain is sound; balances, views and file were not looked at"
                       : "chain, balances, views and file are sound",
                   verified.value().head);
        if (asked.entry) {
            fmt::print("the head given is that of entry {}: those books are part of these\n", *asked.entry);
        }
    }
    if (asked.isMissing()) {
        printError(
            {fmt::format("--head: no entry that can be read has a digest that begins with {}", asked.digits),
             "look whether it was read right; otherwise the paper is of other books, or of later entries "
             "than these have"});
    }
    return !problems.empty() ? kDamaged : asked.isMissing() ? kRefused : kDone;
}

/// The chain up to the head that is asked for: the chain of those books, line by line.
int journal(Shop& shop, const ShopOptions& options) {
    const auto head = headAskedFor(shop, options);
    if (!head) {
        return refuse(head.error());
    }
    const bool all = head.value() == 0; // of a damaged file nobody need know which entry is the newest
    const Sequence newest = all ? 0 : shop.store().headSeq();
    if (head.value() < 0 || (!all && head.value() > newest)) {
        return refuse({fmt::format("--head: there is no entry {}", head.value()),
                       fmt::format("the books have entries 1 to {}", newest)});
    }
    const Sequence last = all ? std::numeric_limits<Sequence>::max() : head.value();
    const auto read = shop.store().eachLegibleEntry([last](const Entry& entry) {
        if (entry.seq <= last) {
            fmt::print("{}\n", exportLine(entry));
        }
        return entry.seq < last;
    });
    if (!read) {
        return refuse(read.error());
    }
    if (read.value().lost.empty()) {
        return kDone;
    }
    for (const std::string& sentence : read.value().sentences()) {
        fmt::print(stderr, "tarebookctl: {}\n", sentence);
    }
    return kDamaged;
}

} // namespace

void addVerifyCommands(CLI::App& program, CommandContext& context) {
    {
        CLI::App* verb =
            program.add_subcommand("verify", "Check chain, balances, views and file; print the head");
        const auto options = std::make_shared<ShopOptions>();
        const auto head = std::make_shared<std::string>();
        const auto chain = std::make_shared<bool>(false);
        addShopOptions(*verb, options, context);
        const CLI::Option* given = verb->add_option(
            "--head", *head,
            "digest from an earlier paper, 16 digits or all: is it an ancestor of these books?");
        verb->add_flag("--chain", *chain, "follow the chain alone: quick, and enough to compare a head");
        verb->callback([options, head, chain, given, &context] {
            HeadAsked asked;
            if (given->count() > 0) {
                auto digits = readHead(*head);
                if (!digits) {
                    context.exitCode = refuse(inOption("--head", digits.error()));
                    return;
                }
                asked.digits = std::move(digits).value();
            }
            const VerifyDepth depth = *chain ? VerifyDepth::chain : VerifyDepth::all;
            ShopSession(*options, context).run([&](Shop& shop) {
                return verify(shop, context, asked, depth);
            });
        });
    }
    {
        CLI::App* verb = program.add_subcommand("journal", "Write the chain as lines of JSON");
        const auto options = std::make_shared<ShopOptions>();
        addShopOptions(*verb, options, context);
        addHeadOptions(*verb, *options);
        shopVerb(*verb, options, context, [options](Shop& shop) { return journal(shop, *options); });
    }
}

} // namespace tarebook
