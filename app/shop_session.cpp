#include "app/shop_session.h"

#include <cstdlib>

#include <fmt/core.h>

#include "app/output.h"
#include "app/passphrase_reading.h"
#include "core/shop/books.h"
#include "core/shop/moments.h"
#include "core/shop/operators.h"
#include "core/store/kept_copies.h"

namespace tarebook {

namespace {

std::string fromEnvironment(const char* name) {
    const char* value = std::getenv(name);
    return value == nullptr ? std::string() : std::string(value);
}

PassphraseSource sourceOf(const ShopOptions& options) {
    return {options.passphraseFile, "--passphrase-file", kPassphraseVariable};
}

/// The wait after wrong tries goes by the machine's clock: --now would end it.
Result<bool> signInWith(Shop& shop, const PassphraseSource& source) {
    const std::string name = shop.environment().operatorName;
    auto passphrase = readPassphrase(source, fmt::format("Passphrase of {}", name));
    if (!passphrase) {
        return passphrase.error();
    }
    const auto signedIn = signIn(shop, name, passphrase.value(), SystemClock().now());
    return signedIn ? Result<bool>(true) : Result<bool>(inOption("--operator", signedIn.error()));
}

/// Names the newest copy that can take the place of a damaged file, where there is one.
void tellWayBack(const std::string& path, const Clock& clock) {
    for (const KeptCopy& copy : keptCopies(path)) {
        const CopyStanding its = standingOf(copy.path, nullptr, clock);
        if (its.problem.empty()) {
            fmt::print(stderr,
                       "tarebookctl: the newest copy that opens has {} entries, of {}: `tarebookctl restore "
                       "{} {} --preview` says what would be lost\n",
                       its.entries, copy.taken.text(), copy.path, path);
            return;
        }
    }
}

} // namespace

void addShopOptions(CLI::App& verb, const std::shared_ptr<ShopOptions>& options, CommandContext& context) {
    verb.add_option("SHOP", options->path, "the shop file")->required();
    verb.add_option("--operator", options->operatorName, "who is at the counter; the login name by default");
    verb.add_option("--passphrase-file", options->passphraseFile,
                    "its first line is the operator's passphrase; also TAREBOOK_PASSPHRASE, else it is asked "
                    "where the shop wants one");
    verb.add_option("--now", options->now,
                    "takes this moment for now (ISO 8601 with offset), for replays; also TAREBOOK_NOW");
    addJsonOption(verb, context);
}

void addHeadOptions(CLI::App& verb, ShopOptions& options) {
    verb.add_option("--head", options.head, "as the books stood when this entry was the newest");
    verb.add_option("--as-of", options.asOf, "as the books stood at the end of this day");
}

void addEarlierOptions(CLI::App& verb, const std::shared_ptr<ShopOptions>& options) {
    options->replays = true;
    addHeadOptions(verb, *options);
}

void addEarlierOptions(CLI::App& verb, const std::shared_ptr<ShopOptions>& options, CLI::Option* writes) {
    addEarlierOptions(verb, options);
    verb.get_option("--head")->excludes(writes);
    verb.get_option("--as-of")->excludes(writes);
}

Result<Sequence> headAskedFor(Shop& shop, const ShopOptions& options) {
    if (options.asOf.empty()) {
        return options.head;
    }
    const auto day = dayIn("--as-of", options.asOf);
    if (!day) {
        return day.error();
    }
    const Sequence head = headOn(shop, day.value());
    if (head == 0) {
        return Error{"nothing was recorded by then", "name a later day"};
    }
    return head;
}

Result<std::unique_ptr<Clock>> clockOf(const ShopOptions& options) {
    const std::string now = options.now.empty() ? fromEnvironment("TAREBOOK_NOW") : options.now;
    if (now.empty()) {
        return std::unique_ptr<Clock>(std::make_unique<SystemClock>());
    }
    const auto moment = Instant::parse(now);
    if (!moment) {
        return Error{"--now: " + moment.error().wrong, moment.error().right};
    }
    return std::unique_ptr<Clock>(std::make_unique<SetClock>(moment.value()));
}

Environment environmentOf(const ShopOptions& options, const CommandContext& context, const Clock& clock) {
    std::string name = options.operatorName;
    for (const char* variable : {"USER", "LOGNAME"}) {
        if (name.empty()) {
            name = fromEnvironment(variable);
        }
    }
    return {context.resourceFolder, &clock, systemIds(), name.empty() ? "command line" : name,
            [source = sourceOf(options)](Shop& shop) { return signInWith(shop, source); }};
}

int exitCodeOf(OpenProblem problem) {
    switch (problem) {
    case OpenProblem::damaged:
    case OpenProblem::locked:
        return kDamaged;
    default:
        return kRefused;
    }
}

ShopSession::ShopSession(const ShopOptions& options, CommandContext& context)
    : m_path(options.path), m_context(context) {
    auto clock = clockOf(options);
    if (!clock) {
        printError(clock.error());
        context.exitCode = kWrongUsage;
        return;
    }
    m_clock = std::move(clock).value();
    const Environment environment = environmentOf(options, context, *m_clock);
    auto opened = Shop::open(options.path, environment);
    if (opened.problem == OpenProblem::damaged) {
        fmt::print(stderr, "tarebookctl: {}: {}; read as far as it can be: restore a backup\n", options.path,
                   opened.error.wrong);
        tellWayBack(options.path, *m_clock);
        m_damaged = true;
    }
    if (opened.problem == OpenProblem::damaged || opened.problem == OpenProblem::unwritable) {
        opened = Shop::open(options.path, environment, true);
    }
    if (!opened.shop) {
        printError({options.path + ": " + opened.error.wrong, opened.error.right});
        context.exitCode = m_damaged ? kDamaged : exitCodeOf(opened.problem);
        return;
    }
    m_shop = std::move(opened.shop);
    if (!signedInWhereGiven(options) || !goneBackWhereAsked(options)) {
        m_shop.reset();
        context.exitCode = m_damaged ? kDamaged : kRefused;
    }
}

bool ShopSession::signedInWhereGiven(const ShopOptions& options) {
    if (!isGiven(sourceOf(options)) || !m_shop->store().needsSignIn()) {
        return true;
    }
    const auto ready = m_shop->ensureSignedIn();
    if (!ready) {
        printError(ready.error());
    }
    return ready.ok();
}

bool ShopSession::goneBackWhereAsked(const ShopOptions& options) {
    if (!options.replays || (options.head == 0 && options.asOf.empty())) {
        return true;
    }
    const auto head = headAskedFor(*m_shop, options);
    if (!head) {
        printError(head.error());
        return false;
    }
    auto made = EarlierBooks::make(*m_shop, head.value(), options.now.empty() ? nullptr : m_clock.get());
    if (!made) {
        printError(inOption("--head", made.error()));
        return false;
    }
    m_earlier = std::move(made).value();
    return true;
}

void ShopSession::run(const std::function<int(Shop&)>& work) {
    if (!m_shop) {
        return;
    }
    const int code = work(m_earlier ? m_earlier->shop() : *m_shop);
    const OpenProblem trouble = m_shop->store().trouble();
    if (trouble == OpenProblem::damaged && !m_damaged) {
        fmt::print(stderr,
                   "tarebookctl: {}: a part of the file is damaged, so the answer may lack something; "
                   "`tarebookctl verify {}` lists the damage, and a backup mends it\n",
                   m_path, m_path);
        tellWayBack(m_path, *m_clock);
    }
    const bool locked = trouble == OpenProblem::locked && code == kRefused;
    m_context.exitCode = m_damaged || locked || trouble == OpenProblem::damaged ? kDamaged : code;
}

void shopVerb(CLI::App& verb, const std::shared_ptr<ShopOptions>& options, CommandContext& context,
              std::function<int(Shop&)> work) {
    verb.callback([options, &context, work = std::move(work)] { ShopSession(*options, context).run(work); });
}

Error inOption(const char* option, const Error& error) {
    return {fmt::format("{}: {}", option, error.wrong), error.right};
}

Result<Date> dayIn(const char* option, const std::string& text) {
    auto day = Date::parse(text);
    return day ? std::move(day) : Result<Date>(inOption(option, day.error()));
}

Result<Date> dayOrToday(const Shop& shop, const char* option, const std::string& text) {
    return text.empty() ? Result<Date>(shop.today()) : dayIn(option, text);
}

Result<std::optional<Instant>> momentIn(const Shop& shop, const char* option, const std::string& text) {
    auto moment = readMoment(shop, text);
    return moment ? std::move(moment) : Result<std::optional<Instant>>(inOption(option, moment.error()));
}

Result<std::optional<Mass>> massIn(const Shop& shop, const char* option, const std::string& text) {
    if (text.empty()) {
        return std::optional<Mass>();
    }
    const auto mass = shop.display().readMass(text);
    if (!mass) {
        return inOption(option, mass.error());
    }
    return std::optional<Mass>(mass.value());
}

int refuse(const Error& error) {
    printError(error);
    return kRefused;
}

} // namespace tarebook
