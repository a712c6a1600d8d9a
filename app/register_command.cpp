#include <fmt/core.h>

#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/register.h"

namespace tarebook {

namespace {

struct Marks : ShopOptions {
    std::string serial;
    std::string specification;
    std::string capacity;
    std::string tare;
    std::string made;
    std::string tested;
    std::string method;
    std::string requalifier;
    std::string suffix;
    std::string serviceUntil;
    std::string owner;
    std::string refrigerant;
    std::string place;
    std::string content;
    std::string contentOwner;
    std::string source;
    std::string flammable;
    std::string filled;
    bool burnOut = false;
    bool clean = false;
    bool sensor = false;
    bool evacuated = false;
    bool isNew = false;
};

/// Error names the option whose value cannot be read.
template <typename Value> std::optional<Error> wrongIn(const char* option, const Result<Value>& value) {
    return value ? std::nullopt : std::make_optional(inOption(option, value.error()));
}

/// Of an option that takes only these; nothing when it was not given.
std::optional<bool> yesOrNo(const std::string& word) {
    return word.empty() ? std::nullopt : std::optional(word == "yes");
}

int registerVerb(Shop& shop, const Marks& marks, bool json) {
    const auto specification = Specification::parse(marks.specification);
    const auto capacity = WaterCapacity::parse(marks.capacity);
    const auto tare = massIn(shop, "--tare", marks.tare);
    const auto made = MonthYear::parse(marks.made);
    const auto tested = marks.tested.empty() ? made : MonthYear::parse(marks.tested);
    const auto life = marks.serviceUntil.empty() ? made : MonthYear::parse(marks.serviceUntil);
    const auto owner = Owner::parse(marks.owner);
    const auto content = massIn(shop, "--holds", marks.content);
    const auto filled = dayOrToday(shop, "--filled", marks.filled);
    for (const auto& wrong :
         {wrongIn("--specification", specification), wrongIn("--water-capacity", capacity),
          wrongIn("--manufactured", made), wrongIn("--last-test", tested), wrongIn("--service-until", life),
          wrongIn("--owner", owner)}) {
        if (wrong) {
            return refuse(*wrong);
        }
    }
    if (!tare || !content || !filled) {
        return refuse(!tare ? tare.error() : !content ? content.error() : filled.error());
    }
    NewCylinder cylinder;
    cylinder.plate.serial = marks.serial;
    cylinder.plate.specification = specification.value();
    cylinder.plate.waterCapacity = capacity.value();
    cylinder.plate.tare = tare.value().value_or(Mass());
    cylinder.plate.manufactured = made.value();
    if (!marks.tested.empty()) {
        cylinder.plate.lastTest = tested.value();
    }
    if (!marks.serviceUntil.empty()) {
        cylinder.plate.serviceUntil = life.value();
    }
    cylinder.plate.testMethod = marks.method;
    cylinder.plate.requalifier = marks.requalifier;
    cylinder.plate.markSuffix = marks.suffix;
    cylinder.plate.owner = owner.value();
    cylinder.plate.overfillSensor = marks.sensor;
    cylinder.plate.flammableRated = yesOrNo(marks.flammable);
    cylinder.plate.burnOut = marks.burnOut;
    cylinder.plate.cleanService = marks.clean;
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
    return report(registerCylinder(shop, cylinder), shop, json);
}

void addRegister(CLI::App& program, CommandContext& context) {
    CLI::App* verb = program.add_subcommand("register", "Enter a cylinder by its stamped marks");
    const auto marks = std::make_shared<Marks>();
    addShopOptions(*verb, marks, context);
    verb->add_option("SERIAL", marks->serial, "as stamped")->required();
    verb->add_option("--specification", marks->specification,
                     "as DOT-4BA400, TC-4BAM28, 'UN ISO 22991 PH 42'")
        ->required();
    verb->add_option("--water-capacity", marks->capacity, "as '47.7 lb' or '21.6 l'")->required();
    verb->add_option("--tare", marks->tare, "as '27.0 lb'")->required();
    verb->add_option("--manufactured", marks->made, "month and year, as 2021-03")->required();
    verb->add_option("--last-test", marks->tested, "month and year of the last requalification");
    verb->add_option("--test-method", marks->method, "volumetric, proof, visual, ...");
    verb->add_option("--requalifier", marks->requalifier, "number beside the date");
    verb->add_option("--mark-suffix", marks->suffix, "what stands behind the date: E, S, star, ...");
    verb->add_option("--service-until", marks->serviceUntil,
                     "last month of a fixed service life, where it has one");
    verb->add_option("--owner", marks->owner, "own, 'rented: NAME', 'customer: NAME', 'reclaimer: NAME'");
    verb->add_flag("--overfill-sensor", marks->sensor, "it has one");
    verb->add_option("--flammable", marks->flammable, "rated for flammable gas: yes or no")
        ->check(CLI::IsMember({"yes", "no"}));
    verb->add_flag("--burn-out", marks->burnOut, "kept for gas from burn-outs");
    verb->add_flag(
        "--clean-service", marks->clean,
        "kept for clean noncorrosive gas only, new or reclaimed, and coated outside where a longer "
        "interval asks for it");
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
               if (!tare) {
                   Recorded recorded;
                   recorded.error = tare.error();
                   return recorded;
               }
               return restateTare(shop, act.serial, tare.value().value_or(Mass()), act.rule, act.weighed);
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
        verb->add_option("SERIAL", act->serial, "of the cylinder")->required();
        verb->add_option("RULE", act->rule, "as contents.mixed")->required();
        verb->add_option("REASON", act->text, "stays in the books")->required();
        shopVerb(*verb, act, context, [act, &context](Shop& shop) {
            return report(overrule(shop, act->rule, "cylinder:" + act->serial, act->text), shop,
                          context.json);
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
