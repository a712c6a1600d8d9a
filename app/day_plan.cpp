#include "app/day_plan.h"

#include <fmt/core.h>
#include <fmt/ranges.h>

#include "app/column_option.h"
#include "app/file_bytes.h"
#include "app/output.h"
#include "app/pdf_output.h"
#include "app/shop_session.h"
#include "core/exchange/importing.h"
#include "core/exchange/job_rows.h"
#include "core/papers/day_paper.h"
#include "core/shop/plan_margin.h"
#include "core/shop/recovery_method.h"

namespace tarebook {

namespace {

constexpr std::size_t kMostNextShown = 3;

/// The jobs of the sheet; says on standard error which rows it cannot take.
struct JobsRead {
    std::vector<DayJob> jobs;
    int refused = 0; // rows
};

Result<JobsRead> jobsIn(Shop& shop, const DayQuestion& question) {
    const auto bytes = bytesOf(question.jobs);
    if (!bytes) {
        return bytes.error();
    }
    const auto named = [&](const Error& error) {
        return Error{question.jobs + ": " + error.wrong, error.right};
    };
    const auto sheet = readSheet(bytes.value());
    if (!sheet) {
        return named(sheet.error());
    }
    const auto map = columnsChosen(sheet.value(), SheetKind::jobs, habitsOf(shop), question.columns);
    if (!map) {
        return inOption("--column", map.error());
    }
    const auto rows = readJobRows(sheet.value(), map.value());
    if (!rows) {
        return named(rows.error());
    }
    JobsRead read;
    for (const JobRow& row : rows.value()) {
        for (const RowProblem& problem : row.problems) {
            fmt::print(stderr, "{}:{}: {}: {}\n", question.jobs, row.line, problem.column,
                       problem.error.text());
        }
        if (!row.job) {
            ++read.refused;
            continue;
        }
        DayJob job = *row.job;
        const auto margin = readMargin(shop, question.margin, job.plan.expected);
        if (!margin) {
            return inOption("--margin", margin.error());
        }
        job.plan.margin = margin.value();
        read.jobs.push_back(std::move(job));
    }
    return read;
}

std::string hourText(std::optional<int> minute) {
    constexpr int kMinutesOfHour = 60;
    return minute ? fmt::format("{:02}:{:02}", *minute / kMinutesOfHour, *minute % kMinutesOfHour)
                  : std::string();
}

nlohmann::json jsonOf(const DayAnswer& answer) {
    nlohmann::json its{{"line", answer.job.line},
                       {"technician", answer.job.person},
                       {"job", answer.job.job},
                       {"hour", hourText(answer.job.minute)},
                       {"direction", answer.job.plan.purpose == Purpose::charge ? "charge" : "recover"},
                       {"refrigerant", answer.refrigerant},
                       {"owner", answer.owner},
                       {"method", methodWord(answer.job.plan.method)},
                       {"expected_kg", kilograms(answer.job.plan.expected)},
                       {"margin_kg", kilograms(answer.job.plan.margin)},
                       {"served", answer.served()},
                       {"take", nlohmann::json::array()},
                       {"next", nlohmann::json::array()},
                       {"stay", answer.stay},
                       {"findings", jsonOfFindings(answer.findings)}};
    for (const DayTaken& taken : answer.taken) {
        const bool charge = answer.job.plan.purpose == Purpose::charge;
        its["take"].push_back(
            {{"serial", taken.cylinder.serial},
             {"share_kg", kilograms(taken.share)},
             {charge ? "inside_kg" : "room_kg", kilograms(taken.cylinder.room)},
             {"gross_now_kg", kilograms(taken.cylinder.grossNow)},
             {charge ? "charged_gross_kg" : "max_gross_kg", kilograms(taken.cylinder.grossToStop)},
             {"note", taken.cylinder.note}});
    }
    for (const LeftOut& one : answer.next) {
        its["next"].push_back({{"serial", one.serial}, {"rule", one.rule}, {"reason", one.reason}});
    }
    if (!answer.problem.empty()) {
        its["problem"] = answer.problem;
    }
    return its;
}

nlohmann::json jsonOf(const DayPlan& plan) {
    nlohmann::json all{{"day", plan.day.text()},          {"cylinders", plan.cylinders},
                       {"not_served", plan.unserved},     {"proved", plan.proved},
                       {"jobs", nlohmann::json::array()}, {"technicians", nlohmann::json::object()}};
    for (const DayAnswer& answer : plan.answers) {
        all["jobs"].push_back(jsonOf(answer));
    }
    for (const std::string& person : plan.people()) {
        for (const Candidate& one : plan.takenBy(person)) {
            all["technicians"][person].push_back(one.serial);
        }
    }
    return all;
}

std::string askedFor(const DayAnswer& answer, const Display& display) {
    const JobPlan& plan = answer.job.plan;
    return fmt::format("{} {} {}", plan.purpose == Purpose::charge ? "charge" : "recover",
                       display.mass(plan.expected),
                       answer.refrigerant.empty() ? plan.refrigerant : answer.refrigerant);
}

void printTaken(const DayPlan& plan, const Display& display) {
    TextTable table({"technician", "hour", "job", "what", "take", "for it", "stop at gross", "why"});
    for (const DayAnswer& answer : plan.answers) {
        const std::string what = askedFor(answer, display);
        for (const DayTaken& taken : answer.taken) {
            table.add({answer.job.person, hourText(answer.job.minute), answer.job.job, what,
                       taken.cylinder.serial, display.limit(taken.share), stopTextOf(answer, taken, display),
                       taken.cylinder.note});
        }
        if (!answer.served()) {
            table.add({answer.job.person, hourText(answer.job.minute), answer.job.job, what, "-", "", "",
                       "not served: " + answer.problem});
        }
    }
    table.print();
}

void printNext(const DayPlan& plan) {
    TextTable table({"job", "stays", "rule", "why"});
    for (const DayAnswer& answer : plan.answers) {
        const std::string job = answer.job.job.empty() ? answer.job.person : answer.job.job;
        for (std::size_t place = 0; place < std::min(kMostNextShown, answer.next.size()); ++place) {
            const LeftOut& one = answer.next[place];
            table.add({job, one.serial, one.rule, one.reason});
        }
        if (!answer.served()) {
            for (const auto& [rule, count] : answer.stay) {
                table.add({job, fmt::format("{} more", count), rule, "plan the job alone to see why"});
            }
        }
    }
    if (!table.empty()) {
        table.print();
    }
}

/// Each job's findings under its name; the same of several jobs each time, as each is read for itself.
void printJobFindings(const DayPlan& plan) {
    for (const DayAnswer& answer : plan.answers) {
        if (!answer.findings.empty()) {
            fmt::print("{}{}{}:\n", answer.job.person, answer.job.job.empty() ? "" : ", ", answer.job.job);
            printFindings(answer.findings);
        }
    }
}

} // namespace

int planDayVerb(Shop& shop, const DayQuestion& question, const CommandContext& context) {
    const auto day = dayOrToday(shop, "--day", question.day);
    if (!day) {
        return refuse(day.error());
    }
    const auto read = jobsIn(shop, question);
    if (!read) {
        return refuse(read.error());
    }
    if (read.value().jobs.empty() && read.value().refused > 0) {
        return refuse({question.jobs + ": no row can be read", "mend the rows that are named above"});
    }
    const auto planned = planDay(shop, day.value(), read.value().jobs);
    if (!planned) {
        return refuse(planned.error());
    }
    const DayPlan& plan = planned.value();
    if (!question.pdf.empty()) {
        const int written = writePdfVerb(context, question.pdf, [&](const PaperPrinter& printer) {
            return printer.pdfOf(paperOf(shop, plan), paperSheetOf(shop));
        });
        if (written != kDone) {
            return written;
        }
    }
    if (context.json) {
        nlohmann::json answer = jsonOf(plan);
        answer["rows_refused"] = read.value().refused;
        printJson(answer);
    } else if (question.pdf.empty()) {
        printTaken(plan, shop.display());
        printNext(plan);
        printJobFindings(plan);
        fmt::print("{}: {} cylinder{} for {} of {} jobs{}\n", plan.day.text(), plan.cylinders,
                   plan.cylinders == 1 ? "" : "s", plan.answers.size() - plan.unserved, plan.answers.size(),
                   plan.proved ? ", proved the fewest" : "; the search was cut off: not proved the fewest");
    }
    return plan.unserved == 0 && read.value().refused == 0 ? kDone : kRefused;
}

} // namespace tarebook
