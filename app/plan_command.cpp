#include <fmt/core.h>

#include "app/column_option.h"
#include "app/day_plan.h"
#include "app/output.h"
#include "app/pdf_output.h"
#include "app/purpose_option.h"
#include "app/shop_session.h"
#include "core/shop/counter.h"
#include "core/shop/plan_margin.h"
#include "core/shop/recovery_method.h"

namespace tarebook {

namespace {

struct PlanOptions : ShopOptions {
    JobPlan job;
    std::string purpose = "recover";
    std::string expected;
    std::string back;
    std::string method;
    std::string margin;
    std::string day;
    std::string ambient;
    std::string jobs;                 // a sheet: all of a day at once
    std::vector<std::string> columns; // FIELD=COLUMN of it
    std::string pdf;                  // file to write the plan of the day to
};

/// What a plan of the day is not asked by options: the sheet says it.
Error standsInTheSheet(const PlanOptions& options) {
    for (const auto& [name, given] :
         {std::pair("--system", !options.job.system.empty()),
          std::pair("--refrigerant", !options.job.refrigerant.empty()),
          std::pair("--expected", !options.expected.empty()), std::pair("--back", !options.back.empty()),
          std::pair("--ambient", !options.ambient.empty()), std::pair("--method", !options.method.empty()),
          std::pair("--machine", !options.job.machine.empty()),
          std::pair("--burn-out", options.job.burnOut)}) {
        if (given) {
            return {fmt::format("{}: the sheet says it of every job", name), "leave it out, or plan one job"};
        }
    }
    return {};
}

nlohmann::json jsonOf(const Candidate& candidate, bool charge) {
    nlohmann::json its{{"serial", candidate.serial},
                       {"gross_now_kg", kilograms(candidate.grossNow)},
                       {"note", candidate.note}};
    const auto known = [&](Mass mass) {
        return candidate.limitKnown ? nlohmann::json(kilograms(mass)) : nlohmann::json();
    };
    its[charge ? "inside_kg" : "room_kg"] = known(candidate.room);
    its[charge ? "charged_gross_kg" : "max_gross_kg"] = known(candidate.grossToStop);
    if (!candidate.atAmbient.empty()) {
        its["at_ambient"] = candidate.atAmbient;
    }
    return its;
}

std::string whyOf(const Candidate& candidate) {
    return candidate.atAmbient.empty() ? candidate.note : candidate.note + "; " + candidate.atAmbient;
}

int planVerb(Shop& shop, const PlanOptions& options, const CommandContext& context) {
    if (!options.jobs.empty()) {
        const Error twice = standsInTheSheet(options);
        return twice.wrong.empty()
                   ? planDayVerb(shop,
                                 {options.day, options.jobs, options.margin, options.columns, options.pdf},
                                 context)
                   : refuse(twice);
    }
    const auto expected = massIn(shop, "--expected", options.expected);
    if (!expected || !expected.value()) {
        return refuse(expected ? Error{"--expected is missing", "as --expected '32 lb'"} : expected.error());
    }
    JobPlan plan = options.job;
    plan.purpose = purposeOf(options.purpose);
    plan.expected = *expected.value();
    const auto method = readMethod(options.method);
    const auto margin = readMargin(shop, options.margin, plan.expected);
    if (!method || !margin) {
        return refuse(!method ? inOption("--method", method.error()) : inOption("--margin", margin.error()));
    }
    plan.method = method.value();
    plan.margin = margin.value();
    if (plan.purpose != Purpose::recover && (plan.method != Method::unsaid || !plan.machine.empty())) {
        return refuse(
            {plan.machine.empty() ? "--method: belongs to a recovery" : "--machine: belongs to a recovery",
             "leave it out, or plan with --purpose recover"});
    }
    if (!options.back.empty()) {
        const auto back = dayIn("--back", options.back);
        if (!back) {
            return refuse(back.error());
        }
        plan.back = back.value();
    }
    if (!options.day.empty()) {
        const auto day = dayIn("--day", options.day);
        if (!day) {
            return refuse(day.error());
        }
        plan.day = day.value();
    }
    if (!options.ambient.empty()) {
        const auto ambient = Temperature::parse(options.ambient);
        if (!ambient) {
            return refuse(inOption("--ambient", ambient.error()));
        }
        plan.ambient = ambient.value();
    }
    const auto proposal = propose(shop, plan);
    if (!proposal) {
        return refuse(proposal.error());
    }
    const Proposal& its = proposal.value();
    const bool charge = plan.purpose == Purpose::charge;
    if (context.json) {
        nlohmann::json answer{{"chosen", nlohmann::json::array()},
                              {"others", nlohmann::json::array()},
                              {"left_out", nlohmann::json::array()}};
        for (const Candidate& one : its.chosen) {
            answer["chosen"].push_back(jsonOf(one, charge));
        }
        for (const Candidate& one : its.others) {
            answer["others"].push_back(jsonOf(one, charge));
        }
        for (const LeftOut& one : its.leftOut) {
            answer["left_out"].push_back(
                {{"serial", one.serial}, {"rule", one.rule}, {"reason", one.reason}});
        }
        if (!its.problem.empty()) {
            answer["problem"] = its.problem;
        }
        answer["findings"] = jsonOfFindings(its.findings);
        printJson(answer);
        return its.problem.empty() && !its.refused() ? kDone : kRefused;
    }
    const Display display = shop.display();
    TextTable table(charge
                        ? std::vector<std::string>{"take", "inside", "gross now", "charged at gross", "why"}
                        : std::vector<std::string>{"take", "room", "stop at gross", "why"});
    const auto add = [&](const std::string& take, const Candidate& one) {
        if (charge) {
            table.add({take, display.mass(one.room), display.mass(one.grossNow),
                       display.mass(one.grossToStop), whyOf(one)});
        } else {
            table.add({take, one.limitKnown ? display.limit(one.room) : "not known",
                       one.limitKnown ? display.limit(one.grossToStop) : "not known", whyOf(one)});
        }
    };
    for (const Candidate& one : its.chosen) {
        add(one.serial, one);
    }
    for (const Candidate& one : its.others) {
        add("or " + one.serial, one);
    }
    if (!table.empty()) {
        table.print();
    }
    TextTable left({"left out", "rule", "why"});
    for (const LeftOut& one : its.leftOut) {
        left.add({one.serial, one.rule, one.reason});
    }
    if (!left.empty()) {
        left.print();
    }
    printFindings(its.findings);
    if (!its.problem.empty()) {
        fmt::print(stderr, "tarebookctl: {}\n", its.problem);
        return kRefused;
    }
    return its.refused() ? kRefused : kDone;
}

} // namespace

void addPlanCommand(CLI::App& program, CommandContext& context) {
    CLI::App* verb =
        program.add_subcommand("plan", "Which cylinders should go out for a job, and why not the others");
    const auto options = std::make_shared<PlanOptions>();
    addShopOptions(*verb, options, context);
    addPurpose(*verb, options->purpose);
    verb->add_option("--system", options->job.system, "SITE/TAG of the equipment");
    verb->add_option("--refrigerant", options->job.refrigerant, "where no system is named");
    verb->add_flag("--burn-out", options->job.burnOut, "what is recovered comes from a burn-out");
    verb->add_option("--expected", options->expected, "mass to recover or charge, as '32 lb'");
    verb->add_option("--back", options->back, "expected day of return");
    verb->add_option("--method", options->method,
                     "of recovery, for what common practice says of it: liquid, vapour or push-pull");
    verb->add_option("--machine", options->job.machine, "recovery machine that is to be used");
    verb->add_option("--margin", options->margin,
                     "room to spare, as '10 %' or '3 lb'; common practice, none by default");
    verb->add_option("--day", options->day, "the day of the work, or that is planned; today by default");
    verb->add_option("--ambient", options->ambient,
                     "temperature at the work, as '95 F': what level and pressure the cylinders have there");
    CLI::Option* jobs = verb->add_option(
        "--jobs", options->jobs,
        "a sheet with all jobs of a day: technician, job, owner, direction, refrigerant, mass, "
        "method, system, machine, hour, burn_out");
    addColumnOption(*verb, options->columns)->needs(jobs);
    addPdfOption(*verb, options->pdf, context);
    verb->get_option("--pdf")->needs(jobs);
    addEarlierOptions(*verb, options);
    shopVerb(*verb, options, context,
             [options, &context](Shop& shop) { return planVerb(shop, *options, context); });
}

} // namespace tarebook
