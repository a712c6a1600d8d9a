#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "app/command.h"
#include "core/shop/earlier.h"
#include "core/shop/shop.h"

namespace tarebook {

/// What every verb of a shop takes: the file, who is at the counter, and, for replays, the time.
struct ShopOptions {
    std::string path;
    std::string operatorName;        // by default the login name
    std::string now;                 // ISO 8601 with offset; by default the machine's clock
    std::string passphraseFile = {}; // its first line signs the operator in
    // As the books stood: by entry or by day; where neither is given, now.
    Sequence head = 0;
    std::string asOf = {};
    bool replays = false; // the session makes the books as they stood; otherwise the verb knows how to ask
};

/// Adds SHOP, --operator, --passphrase-file, --now and --json to a verb.
void addShopOptions(CLI::App& verb, const std::shared_ptr<ShopOptions>& options, CommandContext& context);

/// Adds --head and --as-of to a verb that asks: it is then asked of the books as they stood.
void addEarlierOptions(CLI::App& verb, const std::shared_ptr<ShopOptions>& options);
/// The same for a verb that lists, or, given this option, writes: what was is only asked.
void addEarlierOptions(CLI::App& verb, const std::shared_ptr<ShopOptions>& options, CLI::Option* writes);
/// The same for a verb that answers them itself, without making those books.
void addHeadOptions(CLI::App& verb, ShopOptions& options);
/// The head that the question is asked at; 0 is now. Error: the day cannot be read, or nothing was recorded.
[[nodiscard]] Result<Sequence> headAskedFor(Shop& shop, const ShopOptions& options);

/// The clock that the options ask for. Error: the time cannot be read.
[[nodiscard]] Result<std::unique_ptr<Clock>> clockOf(const ShopOptions& options);

/// An open shop for the length of a verb.
class ShopSession {
public:
    /// Opens; on failure says why on standard error and leaves the exit code. A damaged file, and one that
    /// may not be written, are opened for reading: questions are answered as far as they can be, and what
    /// would write is refused. Where somebody signs in to the shop, a passphrase that is given is checked at
    /// once; otherwise it is asked for when something is to be written.
    ShopSession(const ShopOptions& options, CommandContext& context);
    /// Runs the work and leaves its exit code, or that of a file which turned out damaged or locked.
    void run(const std::function<int(Shop&)>& work);

private:
    [[nodiscard]] bool signedInWhereGiven(const ShopOptions& options);
    [[nodiscard]] bool goneBackWhereAsked(const ShopOptions& options);

    const std::string m_path;
    CommandContext& m_context;
    bool m_damaged = false;
    std::unique_ptr<Clock> m_clock;
    std::unique_ptr<Shop> m_shop;
    std::unique_ptr<EarlierBooks> m_earlier;
};

/// The environment of a shop as the command line gives it.
[[nodiscard]] Environment environmentOf(const ShopOptions& options, const CommandContext& context,
                                        const Clock& clock);
/// Exit code for a file that did not open.
[[nodiscard]] int exitCodeOf(OpenProblem problem);

/// A verb about a shop: opens it and leaves what `work` returns as the exit code.
void shopVerb(CLI::App& verb, const std::shared_ptr<ShopOptions>& options, CommandContext& context,
              std::function<int(Shop&)> work);

/// One verb of a family, whose steps share their options.
template <typename Options>
CLI::App* addStep(CLI::App& family, CommandContext& context, const std::shared_ptr<Options>& options,
                  const char* name, const char* help,
                  std::function<int(Shop&, Options&, const CommandContext&)> work) {
    CLI::App* verb = family.add_subcommand(name, help);
    addShopOptions(*verb, options, context);
    shopVerb(*verb, options, context, [options, work = std::move(work), &context](Shop& shop) {
        return work(shop, *options, context);
    });
    return verb;
}

/// A moment as the person writes it: ISO 8601 with offset, or local time of the shop as `2026-09-14 15:30`;
/// blank is nothing. Error: no such moment; names the option, as the errors of the next two do.
[[nodiscard]] Result<std::optional<Instant>> momentIn(const Shop& shop, const char* option,
                                                      const std::string& text);
/// A weight, the shop's unit for a bare number; blank is nothing.
[[nodiscard]] Result<std::optional<Mass>> massIn(const Shop& shop, const char* option,
                                                 const std::string& text);
[[nodiscard]] Result<Date> dayIn(const char* option, const std::string& text);
/// The same, blank is today.
[[nodiscard]] Result<Date> dayOrToday(const Shop& shop, const char* option, const std::string& text);
/// `--gross: what is wrong`.
[[nodiscard]] Error inOption(const char* option, const Error& error);

/// Prints the error, and is the exit code of a refused input.
[[nodiscard]] int refuse(const Error& error);

} // namespace tarebook
