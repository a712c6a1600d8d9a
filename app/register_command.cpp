#include <fmt/core.h>

#include "app/mark_options.h"
#include "app/output.h"
#include "app/shop_session.h"
#include "app/tare_option.h"
#include "core/shop/register.h"
#include "core/shop/usual_tare.h"

namespace tarebook {

namespace {

struct Marks : ShopOptions {
    std::string serial;
    MarkOptions plate;
    std::string refrigerant;
    std::string place;
    std::string content;
    std::string contentOwner;
    std::string source;
    std::string filled;
    bool evacuated = false;
    bool isNew = false;
    bool tareIsSo = false;
};

/// Of an option that takes only these; nothing when it was not given.
std::optional<bool> yesOrNo(const std::string& word) {
    return word.empty() ? std::nullopt : std::optional(word == "yes");
}

int registerVerb(Shop& shop, const Marks& marks, bool json) {
    const auto plate = nameplateOf(shop, marks.serial, marks.plate);
    const auto content = massIn(shop, "--holds", marks.content);
    const auto filled = dayOrToday(shop, "--filled", marks.filled);
    if (!plate || !content || !filled) {
        return refuse(!plate ? plate.error() : !content ? content.error() : filled.error());
    }
    NewCylinder cylinder;
    cylinder.plate = plate.value();
    cylinder.place = marks.place;
    cylinder.evacuated = marks.evacuated;
    cylinder.content = content.value().value_or(Mass());
    (cylinder.content.milligrams() > 0 ? cylinder.refrigerant : cylinder.plate.refrigerant) =
        marks.refrigerant;
    cylinder.contentOwner = marks.contentOwner;
    cylinder.contentState = marks.isNew ? GasState::unused : GasState::recovered;
    cylinder.source = marks.source;
    if (!marks.filled.empty()) {
        cylinder.filled = filled.value();
    }
    const bool possible = !review(shop, cylinder).refused(); // what cannot be is told first
    if (const auto waits = waitsForYes("--tare", tareQuestion(shop, cylinder.plate), marks.tareIsSo);
        waits && possible) {
        return refuse(*waits);
    }
    return report(registerCylinder(shop, cylinder), shop, json);
}

void addRegister(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("register", "Enter a cylinder by its stamped marks");
    const auto marks = std::make_shared<Marks>();
    addShopOptions(*verb, marks, context);
    verb->add_option("SERIAL", marks->serial, "as stamped")->required();
    addMarkOptions(*verb, marks->plate);
    addTareConfirmation(*verb, marks->tareIsSo);
    verb->add_option("--refrigerant", marks->refrigerant,
                     "what it is kept for or holds; mixed for mixed only");
    verb->add_flag("--evacuated", marks->evacuated, "a clean empty");
    verb->add_option("--place", marks->place, "where it stands");
    verb->add_option("--holds", marks->content, "mass of what is inside");
    verb->add_option("--filled", marks->filled, "day on which it was filled last, where that is known");
    verb->add_option("--content-owner", marks->contentOwner, "whose gas; the shop's by default");
    verb->add_flag("--new-gas", marks->isNew, "it was never used; recovered by default");
    verb->add_option("--source", marks->source, "opening by default, or supplier:NAME");
    shopVerb(*verb, marks, context,
             [marks, &context](Shop& shop) { return registerVerb(shop, *marks, context.json); });
}

struct Act : ShopOptions {
    std::string serial;
    std::string text;
    std::string month;
    std::string tare;
    std::string rule;
    Sequence entry = 0;
    TestResult result{{}, MonthYear::of(2000, 1).value(), {}, {}, {}, {}, true, {}};
    bool failed = false;
    bool weighed = false;
    bool atFitting = false;
    bool tareIsSo = false;
};

void addTest(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("test", "Enter the result of a requalification");
    const auto act = std::make_shared<Act>();
    addShopOptions(*verb, act, context);
    verb->add_option("SERIAL", act->serial, "of the cylinder")->required();
    verb->add_option("MONTH", act->month, "as marked, 2026-11")->required();
    verb->add_option("--method", act->result.method, "volumetric, proof, visual, ...");
    verb->add_option("--requalifier", act->result.requalifier, "number beside the date");
    verb->add_option("--mark-suffix", act->result.markSuffix, "what stands behind the date");
    verb->add_option("--tare", act->tare, "as marked anew");
    addTareConfirmation(*verb, act->tareIsSo);
    verb->add_option("--note", act->result.note, "kept with the entry");
    verb->add_flag("--failed", act->failed, "it is condemned");
    shopVerb(*verb, act, context, [act, &context](Shop& shop) {
        const auto month = MonthYear::parse(act->month);
        const auto tare = massIn(shop, "--tare", act->tare);
        if (!month || !tare) {
            return refuse(month ? tare.error() : inOption("MONTH", month.error()));
        }
        act->result.serial = act->serial;
        act->result.month = month.value();
        act->result.tare = tare.value();
        act->result.passed = !act->failed;
        if (tare.value()) {
            const auto odd = tareQuestion(shop, act->serial, *tare.value());
            if (const auto waits = waitsForYes("--tare", odd, act->tareIsSo)) {
                return refuse(*waits);
            }
        }
        return report(recordTest(shop, act->result), shop, context.json);
    });
}

void addAct(CLI::App& program, CommandContext& context, const char* name, const char* help, const char* text,
            const std::string& textHelp, const std::function<Recorded(Shop&, const Act&)>& work) {
    CLI::App* verb = program.add_subcommand(name, help);
    const auto act = std::make_shared<Act>();
    addShopOptions(*verb, act, context);
    verb->add_option("SERIAL", act->serial, "of the cylinder")->required();
    verb->add_option(text, act->text, textHelp)->required(std::string_view(text).front() != '-');
    if (std::string_view(name) == "inspect") {
        verb->add_option("--note", act->rule, "what was seen");
        verb->add_flag("--leak-at-fitting", act->atFitting,
                       "with sound: the leak was at a fitting, and is tight now");
    }
    if (std::string_view(name) == "tare") {
        verb->add_option("REASON", act->rule, "why it is restated")->required();
        verb->add_flag("--weighed", act->weighed,
                       "as weighed empty, while the collar still says the old one");
        addTareConfirmation(*verb, act->tareIsSo);
    }
    shopVerb(*verb, act, context,
             [act, work, &context](Shop& shop) { return report(work(shop, *act), shop, context.json); });
}

void addActs(CLI::App& program, CommandContext& context) {
    addAct(program, context, "inspect", "Enter what an inspection found", "RESULT",
           "one of " + inspectionResults(), [](Shop& shop, const Act& act) {
               return inspect(shop, act.serial, act.text, act.rule, act.atFitting);
           });
    addAct(program, context, "condemn", "Condemn a cylinder, for ever", "REASON", "why",
           [](Shop& shop, const Act& act) { return condemn(shop, act.serial, act.text); });
    addAct(program, context, "retire", "An empty cylinder leaves the fleet", "REASON", "why",
           [](Shop& shop, const Act& act) { return retire(shop, act.serial, act.text); });
    addAct(program, context, "tare", "Restate a tare, as the collar says", "TARE", "as '27.0 lb'",
           [](Shop& shop, const Act& act) -> Recorded {
               const auto tare = massIn(shop, "TARE", act.text);
               Recorded recorded;
               if (!tare) {
                   recorded.error = tare.error();
                   return recorded;
               }
               const Mass stated = tare.value().value_or(Mass());
               if (const auto waits =
                       waitsForYes("TARE", tareQuestion(shop, act.serial, stated), act.tareIsSo);
                   waits && stated > Mass()) {
                   recorded.error = *waits;
                   return recorded;
               }
               return restateTare(shop, act.serial, stated, act.rule, act.weighed);
           });
}

void addEvacuate(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("evacuate", "Enter that a cylinder was evacuated: a clean empty");
    const auto act = std::make_shared<Act>();
    const auto gas = std::make_shared<std::string>();
    addShopOptions(*verb, act, context);
    verb->add_option("SERIAL", act->serial, "of the cylinder")->required();
    verb->add_option("--note", act->text, "kept with it");
    verb->add_option("--purged-with", *gas, "gas that it was purged with, as nitrogen");
    verb->footer(kPurgeCautions);
    shopVerb(*verb, act, context, [act, gas, &context](Shop& shop) {
        return report(evacuate(shop, act->serial, act->text, *gas), shop, context.json);
    });
}

void addUse(CLI::App& program, CommandContext& context) {
    CLI::App* verb =
        program.add_subcommand("use", "Restate what a cylinder may be used for, as it is marked");
    const auto act = std::make_shared<Act>();
    const auto flammable = std::make_shared<std::string>();
    const auto burnOut = std::make_shared<std::string>();
    const auto clean = std::make_shared<std::string>();
    addShopOptions(*verb, act, context);
    verb->add_option("SERIAL", act->serial, "of the cylinder")->required();
    verb->add_option("--flammable", *flammable, "rated for flammable gas: yes or no")
        ->check(CLI::IsMember({"yes", "no"}));
    verb->add_option("--burn-out", *burnOut, "kept for gas from burn-outs: yes or no")
        ->check(CLI::IsMember({"yes", "no"}));
    verb->add_option("--clean-service", *clean,
                     "kept for clean noncorrosive gas only, coated outside: yes or no")
        ->check(CLI::IsMember({"yes", "no"}));
    verb->add_option("--service-until", act->month, "last month of a fixed service life");
    verb->add_option("REASON", act->text, "how you know")->required();
    shopVerb(*verb, act, context, [act, flammable, burnOut, clean, &context](Shop& shop) {
        Use use{yesOrNo(*flammable), yesOrNo(*burnOut), {}, yesOrNo(*clean)};
        if (!act->month.empty()) {
            const auto month = MonthYear::parse(act->month);
            if (!month) {
                return refuse(inOption("--service-until", month.error()));
            }
            use.serviceUntil = month.value();
        }
        return report(restateUse(shop, act->serial, use, act->text), shop, context.json);
    });
}

void addOverrule(CLI::App& program, CommandContext& context) {
    {
        CLI::App* verb = program.add_subcommand("overrule", "Close a practice-level finding with a reason");
        const auto act = std::make_shared<Act>();
        addShopOptions(*verb, act, context);
        verb->add_option("SERIAL", act->serial, "of the cylinder, or system:SITE/TAG")->required();
        verb->add_option("RULE", act->rule, "as contents.mixed")->required();
        verb->add_option("REASON", act->text, "stays in the books")->required();
        shopVerb(*verb, act, context, [act, &context](Shop& shop) {
            const std::string subject =
                act->serial.starts_with("system:") ? act->serial : "cylinder:" + act->serial;
            return report(overrule(shop, act->rule, subject, act->text), shop, context.json);
        });
    }
    {
        CLI::App* verb = program.add_subcommand("reverse", "Reverse an entry by a new one that names it");
        const auto act = std::make_shared<Act>();
        addShopOptions(*verb, act, context);
        verb->add_option("ENTRY", act->entry, "number of the entry")->required();
        verb->add_option("REASON", act->text, "stays in the books")->required();
        shopVerb(*verb, act, context, [act, &context](Shop& shop) {
            return report(shop.reverse(act->entry, act->text), shop, context.json);
        });
    }
}

} // namespace

void addRegisterCommands(CLI::App& program, CommandContext& context) {
    addRegister(program, context);
    addTest(program, context);
    addActs(program, context);
    addEvacuate(program, context);
    addUse(program, context);
    addOverrule(program, context);
}

} // namespace tarebook
