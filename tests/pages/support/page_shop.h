#pragma once

#include <functional>
#include <string>
#include <vector>

#include "tests/shop/week_shop.h"

namespace tarebook::tests {

/// An invented shop on an invented day, Monday 2026-09-14, in which every paper has something to say. Times,
/// ids and names are fixed; the digest of the books on a paper is replaced by kHead once it has been found to
/// be that of the books, so that a paper stays the same when the journal learns a new word.
class PageShop : public ShopTest {
protected:
    static constexpr const char* kHead = "7c3a8977c69530cd";

    void SetUp() override;
    [[nodiscard]] std::string file(const std::string& name) const { return (m_folder / name).string(); }
    /// Says that this is the head of the books, and gives the fixed one.
    void fixHead(std::string& head) const;

    void set(const std::string& setting, const std::string& value);
    /// A cylinder of 47.7 lb water and 27.0 lb tare that is rated for gas that burns.
    void enter(const std::string& serial, const std::string& mass, const std::string& refrigerant,
               const std::string& owner = "", const std::string& mark = "DOT-4BA400");
    /// Recovered from a system into a cylinder, weighed afterwards.
    void recover(const std::string& serial, const std::string& gross, const std::string& system);
    void handOut(const std::string& person, const std::string& job, const std::vector<std::string>& serials,
                 const std::string& system, Purpose purpose = Purpose::recover,
                 const std::string& expected = "");
    void beginWeek();
    /// A batch of gas that burns and of gas that does not, of two owners.
    void beginBatch();
    void beginConsignment(const std::string& rulebook);
};

} // namespace tarebook::tests
