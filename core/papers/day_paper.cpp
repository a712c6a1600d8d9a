#include "core/papers/day_paper.h"

#include <fmt/format.h>

#include "core/papers/paper_parts.h"

namespace tarebook {

namespace {

std::string dayHour(std::optional<int> minute) {
    constexpr int kMinutesOfHour = 60;
    return minute ? fmt::format("{:02}:{:02}", *minute / kMinutesOfHour, *minute % kMinutesOfHour)
                  : std::string();
}

std::string dayWork(const DayAnswer& answer, const Display& display) {
    const JobPlan& plan = answer.job.plan;
    return fmt::format("{} {} {}", plan.purpose == Purpose::charge ? "charge" : "recover",
                       display.mass(plan.expected),
                       answer.refrigerant.empty() ? plan.refrigerant : answer.refrigerant);
}

void addDayTables(const std::vector<DayRow>& rows, DayPaper& paper) {
    paper.unserved = {"Not served", {"Technician", "Hour", "Job", "What", "Why"}, {}};
    for (const DayRow& row : rows) {
        if (row.serial.empty()) {
            paper.unserved.rows.push_back({row.person, row.hour, row.job, row.what, row.why});
            continue;
        }
        if (paper.technicians.empty() || paper.technicians.back().heading != row.person) {
            paper.technicians.push_back(
                {row.person, {"Hour", "Job", "What", "Take", "For it", "Stop at gross", "Why"}, {}});
        }
        paper.technicians.back().rows.push_back(
            {row.hour, row.job, row.what, row.serial, row.share, row.stopAt, row.why});
    }
}

/// What is to be watched, and what it rests on: practice is told from law.
std::vector<std::string> findingCells(const Finding& finding) {
    std::string why;
    for (const std::string& line : finding.working) {
        why += line + "\n";
    }
    why += finding.citation;
    const std::string firmness = firmnessWord(finding.firmness);
    if (!firmness.empty() && finding.citation.find(firmness) == std::string::npos) {
        why += fmt::format(" ({})", firmness);
    }
    const std::string about = finding.subject.empty() ? std::string() : finding.subject + ": ";
    const std::string remedy = finding.remedy.empty() ? std::string() : "\n" + finding.remedy;
    return {severityWord(finding.severity), about + finding.headline + remedy, why};
}

void addDayFindings(const DayPlan& plan, DayPaper& paper) {
    for (const DayAnswer& answer : plan.answers) {
        if (answer.findings.empty()) {
            continue;
        }
        PaperTable& table = paper.findings.emplace_back();
        table.heading =
            fmt::format("{}{}{}", answer.job.person, answer.job.job.empty() ? "" : ", ", answer.job.job);
        table.columns = {"", "To watch", "What it rests on"};
        table.rows.reserve(answer.findings.size());
        for (const Finding& finding : answer.findings) {
            table.rows.push_back(findingCells(finding));
        }
    }
}

} // namespace

std::string stopTextOf(const DayAnswer& answer, const DayTaken& taken, const Display& display) {
    return answer.job.plan.purpose == Purpose::charge
               ? fmt::format("{} (now {})", display.mass(taken.cylinder.grossToStop),
                             display.mass(taken.cylinder.grossNow))
           : !taken.cylinder.limitKnown ? "not known"
                                        : display.limit(taken.cylinder.grossToStop);
}

std::vector<DayRow> rowsOf(const DayPlan& plan, const Display& display) {
    std::vector<DayRow> rows;
    for (std::size_t place = 0; place < plan.answers.size(); ++place) {
        const DayAnswer& answer = plan.answers[place];
        DayRow row;
        row.answer = place;
        row.person = answer.job.person;
        row.hour = dayHour(answer.job.minute);
        row.job = answer.job.job;
        row.what = dayWork(answer, display);
        if (!answer.served()) {
            row.why = answer.problem;
            rows.push_back(row);
        }
        for (const DayTaken& taken : answer.taken) {
            row.serial = taken.cylinder.serial;
            row.share = display.limit(taken.share);
            row.stopAt = stopTextOf(answer, taken, display);
            row.why = taken.cylinder.note;
            rows.push_back(row);
        }
    }
    return rows;
}

std::string summaryOf(const DayPlan& plan) {
    return fmt::format(
        "{} cylinder{} for {} of {} job{}{}", plan.cylinders, plan.cylinders == 1 ? "" : "s",
        plan.answers.size() - plan.unserved, plan.answers.size(), plan.answers.size() == 1 ? "" : "s",
        plan.proved ? ", proved the fewest" : "; the search was cut off: not proved the fewest");
}

DayPaper paperOf(const Shop& shop, const DayPlan& plan) {
    DayPaper paper;
    paper.title = "Plan of a day";
    paper.day = plan.day.text();
    paper.shop = shop.settings().name;
    paper.shopAddress = shop.settings().address;
    paper.summary = summaryOf(plan);
    addDayTables(rowsOf(plan, shop.display()), paper);
    addDayFindings(plan, paper);
    paper.cautions = {
        "Eye protection and gloves. Weigh while filling and stop at the stop weight. One refrigerant a "
        "cylinder, nothing on top of another. Flammable refrigerants only with cylinder and machine rated "
        "for them.",
        "Cylinders upright, secured, valves closed and capped, never above 125 °F (52 °C). Local codes and "
        "licensed practice decide.",
        "A plan hands nothing out: the check-out asks the rules again."};
    paper.head = shownHead(shop);
    return paper;
}

} // namespace tarebook
