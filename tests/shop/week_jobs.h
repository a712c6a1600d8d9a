#pragma once

#include "core/shop/day_plan.h"

namespace tarebook::tests {

/// A line of a sheet of jobs: to recover so many pounds from a system.
inline DayJob dayJob(int line, const char* person, const char* job, int minute, const char* system,
                     const char* pounds, Method method) {
    DayJob its;
    its.line = line;
    its.person = person;
    its.job = job;
    its.minute = minute;
    its.plan.system = system;
    its.plan.expected = Mass::parse(std::string(pounds) + " lb").value();
    its.plan.method = method;
    return its;
}

} // namespace tarebook::tests
