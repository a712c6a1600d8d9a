#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

namespace tarebook::support {

/// One line of a journal as plain text and numbers, so that the replay shares no type with the books.
struct PlainEntry {
    std::int64_t seq = 0;
    std::int64_t second = 0; // occurred
    std::string kind;        // as docs/journal.md writes it
    nlohmann::json body;
};

/// The whole journal replayed by brute force from docs/journal.md alone, entry by entry in time order, with
/// every lot followed everywhere in floating point. Slow and plain on purpose; shares no code with the books.
class NaiveShop {
public:
    using GasText = std::string;                             // refrigerant|owner|state
    using Parts = std::map<GasText, std::int64_t>;           // milligrams
    using LotName = std::pair<std::int64_t, int>;            // entry, transfer
    using Inside = std::map<LotName, long double>;           // milligrams of each lot
    using Place = std::tuple<LotName, std::string, GasText>; // lot, account, gas

    struct Transfer {
        std::int64_t seq = 0;
        int number = 0;
        std::string from;
        std::string to;
        Parts moved;
        Parts fromBefore; // of cylinders
        Parts toBefore;
        bool operator==(const Transfer&) const = default;
    };

    /// `wholeMix`: what leaves takes the same share of every lot inside, whatever its gas, before any
    /// rounding of balances; otherwise the share within each gas that the rounded balances say.
    explicit NaiveShop(bool wholeMix) : m_wholeMix(wholeMix) {}

    void replay(std::vector<PlainEntry> entries);

    [[nodiscard]] const std::vector<Transfer>& transfers() const { return m_transfers; }
    [[nodiscard]] Parts held(const std::string& cylinder) const;
    /// Milligrams of each lot by account and gas (gas empty with wholeMix).
    [[nodiscard]] std::map<Place, long double> whereabouts() const;

private:
    void enter(const PlainEntry& entry);
    void weigh(const std::string& cylinder, const nlohmann::json& body, const char* grossKey);
    void movement(const std::string& from, const std::string& to, std::int64_t milligrams,
                  const nlohmann::json& body);
    void found(const std::string& cylinder, std::int64_t milligrams, const std::string& refrigerant);
    void transfer(const std::string& from, const std::string& to, const Parts& moved);
    void moveLots(const Transfer& made);

    bool m_wholeMix;
    std::vector<Transfer> m_transfers;
    std::map<std::string, Parts> m_held;
    std::map<std::pair<std::string, GasText>, Inside> m_lots; // by account and gas
    std::int64_t m_seq = 0;
    int m_number = 0;
};

} // namespace tarebook::support
