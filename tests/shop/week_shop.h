#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/shop/books.h"
#include "core/shop/card.h"
#include "core/shop/counter.h"
#include "core/shop/register.h"
#include "core/shop/returns.h"
#include "core/shop/today.h"

namespace tarebook::tests {

/// A shop file of its own in a folder of its own, a clock that stands until it is set, ids that count.
class ShopTest : public testing::Test {
protected:
    void SetUp() override {
        m_folder = std::filesystem::temp_directory_path() /
                   fmt::format("tarebook-{}-{}", ::getpid(),
                               testing::UnitTest::GetInstance()->current_test_info()->name());
        std::filesystem::create_directories(m_folder);
        Settings settings;
        settings.name = "Larkspur Mechanical";
        settings.address = "Port Ansel";
        settings.zone = "America/Chicago";
        auto opened = Shop::create((m_folder / "shop.tarebook").string(), settings, environment());
        ASSERT_TRUE(opened.shop) << opened.error.text();
        m_shop = std::move(opened.shop);
    }
    void TearDown() override {
        m_shop.reset();
        std::filesystem::remove_all(m_folder);
    }

    [[nodiscard]] Environment environment() {
        return {TAREBOOK_RESOURCE_DIR, &m_clock, [this] { return fmt::format("id-{}", ++m_ids); }, "COUNTER"};
    }
    /// Local time of the shop, as `2026-09-14 08:30`.
    [[nodiscard]] Instant at(const std::string& local) const {
        const auto day = Date::parse(local.substr(0, 10));
        return m_shop->zone()
            .fromLocal(day.value(), std::stoi(local.substr(11, 2)), std::stoi(local.substr(14, 2)))
            .value();
    }
    void setTime(const std::string& local) { m_clock.set(at(local)); }

    [[nodiscard]] static Mass lb(const std::string& number) { return Mass::parse(number + " lb").value(); }
    /// What the books say is inside, as a person reads it.
    [[nodiscard]] std::string net(const std::string& serial) {
        return shown(card(*m_shop, serial).value().state.content.total());
    }
    [[nodiscard]] static std::string shown(Mass mass) { return mass.poundsText(); }
    /// Rules of the open findings, the worst first.
    [[nodiscard]] std::vector<std::string> rulesOf(const std::string& serial) {
        std::vector<std::string> rules;
        const Card its = card(*m_shop, serial).value();
        for (const Finding& finding : its.findings) {
            rules.push_back(finding.rule);
        }
        return rules;
    }
    /// A cylinder of 27.0 lb tare takes 10 lb from a system and gives them back: empty again.
    void fillAndEmpty(const std::string& serial, const std::string& system) {
        CheckIn facts;
        facts.serial = serial;
        facts.grossBefore = lb("27.0");
        facts.grossAfter = lb("37.0");
        facts.from = "system:" + system;
        expectRecorded(checkIn(*m_shop, facts));
        std::swap(facts.grossBefore, facts.grossAfter);
        facts.to.swap(facts.from);
        expectRecorded(checkIn(*m_shop, facts));
        EXPECT_TRUE(card(*m_shop, serial).value().state.content.empty());
    }
    static void expectRecorded(const Recorded& recorded) {
        EXPECT_EQ(recorded.outcome, Outcome::recorded) << recorded.error.text();
    }

    std::filesystem::path m_folder;
    SetClock m_clock{Instant::parse("2026-09-14T13:30:00Z").value()};
    int m_ids = 0;
    std::unique_ptr<Shop> m_shop;
};

} // namespace tarebook::tests
