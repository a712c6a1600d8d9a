#pragma once

#include <algorithm>

#include "core/shop/reversing.h"
#include "core/shop/unexplained.h"
#include "tests/shop/week_register.h"
#include "tests/shop/week_shop.h"

namespace tarebook::tests {

/// The week's cylinders, what goes into and out of them, and what is said of it.
class CounterLawTest : public ShopTest {
protected:
    void SetUp() override {
        ShopTest::SetUp();
        ASSERT_TRUE(registerWeek(*m_shop));
    }
    Recorded movedOut(const std::string& serial, const std::string& pounds, const std::string& to) {
        return checkIn(*m_shop, facts(serial, pounds, {}, to));
    }
    Recorded movedIn(const std::string& serial, const std::string& pounds, const std::string& from,
                     const std::string& refrigerant = {}) {
        CheckIn its = facts(serial, pounds, from, {});
        its.refrigerant = refrigerant;
        return checkIn(*m_shop, its);
    }
    static CheckIn facts(const std::string& serial, const std::string& pounds, const std::string& from,
                         const std::string& to) {
        CheckIn its;
        its.serial = serial;
        its.moved = lb(pounds);
        its.from = from;
        its.to = to;
        return its;
    }
    static const Finding* named(const std::vector<Finding>& findings, const std::string& rule) {
        const auto found = std::find_if(findings.begin(), findings.end(),
                                        [&](const Finding& one) { return one.rule == rule; });
        return found == findings.end() ? nullptr : &*found;
    }
    std::optional<Alert> alert(const std::string& rule, const std::string& subject) {
        const auto list = today(*m_shop, m_shop->today());
        for (const Alert& one : list ? list.value().alerts : std::vector<Alert>()) {
            if (one.finding.rule == rule && one.subject == subject) {
                return one;
            }
        }
        return std::nullopt;
    }
    std::vector<Finding> findingsFor(const std::string& serial) {
        return card(*m_shop, serial).value().findings;
    }
    void later() { m_clock.set(Instant::fromSeconds(m_clock.now().seconds() + 3600)); }
};

} // namespace tarebook::tests
