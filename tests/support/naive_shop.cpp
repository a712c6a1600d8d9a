#include "tests/support/naive_shop.h"

#include <algorithm>

namespace tarebook::support {

namespace {

bool isCylinder(const std::string& account) {
    return account.compare(0, 9, "cylinder:") == 0;
}

std::int64_t sum(const NaiveShop::Parts& parts) {
    std::int64_t all = 0;
    for (const auto& [gas, milligrams] : parts) {
        all += milligrams;
    }
    return all;
}

/// Gases in the order refrigerant, owner, state (new, recovered, recycled, reclaimed): ties of the largest
/// remainder fall in that order.
std::tuple<std::string, std::string, int> rank(const std::string& gas) {
    const std::size_t one = gas.find('|');
    const std::size_t two = gas.find('|', one + 1);
    const std::string state = gas.substr(two + 1);
    const int place = state == "new" ? 0 : state == "recovered" ? 1 : state == "recycled" ? 2 : 3;
    return {gas.substr(0, one), gas.substr(one + 1, two - one - 1), place};
}

/// `milligrams` in the proportions of `whole`, in whole milligrams: the quotas floored, then one milligram
/// more to the largest remainders.
NaiveShop::Parts share(const NaiveShop::Parts& whole, std::int64_t milligrams) {
    const std::int64_t all = sum(whole);
    NaiveShop::Parts taken;
    std::vector<std::pair<std::int64_t, std::string>> rests;
    std::int64_t lacking = milligrams;
    for (const auto& [gas, part] : whole) {
        // Masses of the random shops stay below 2^31 mg, so that the product fits.
        const std::int64_t product = part * milligrams;
        taken[gas] = product / all;
        lacking -= product / all;
        rests.emplace_back(product % all, gas);
    }
    std::sort(rests.begin(), rests.end(), [](const auto& one, const auto& other) {
        return one.first != other.first ? one.first > other.first : rank(one.second) < rank(other.second);
    });
    for (std::size_t place = 0; lacking > 0; ++place, --lacking) {
        taken[rests[place].second] += 1;
    }
    std::erase_if(taken, [](const auto& part) { return part.second == 0; });
    return taken;
}

std::string textIn(const nlohmann::json& body, const char* key) {
    return body.contains(key) ? body[key].get<std::string>() : std::string();
}

} // namespace

void NaiveShop::replay(std::vector<PlainEntry> entries) {
    std::vector<std::int64_t> reversed;
    for (const PlainEntry& entry : entries) {
        if (entry.kind == "entry_reversed") {
            reversed.push_back(entry.body["entry"].get<std::int64_t>());
        }
    }
    std::sort(entries.begin(), entries.end(), [](const PlainEntry& one, const PlainEntry& other) {
        return std::pair(one.second, one.seq) < std::pair(other.second, other.seq);
    });
    for (const PlainEntry& entry : entries) {
        if (std::find(reversed.begin(), reversed.end(), entry.seq) == reversed.end()) {
            m_seq = entry.seq;
            m_number = 0;
            enter(entry);
        }
    }
}

NaiveShop::Parts NaiveShop::held(const std::string& cylinder) const {
    const auto place = m_held.find(cylinder);
    return place == m_held.end() ? Parts() : place->second;
}

std::map<NaiveShop::Place, long double> NaiveShop::whereabouts() const {
    std::map<Place, long double> all;
    for (const auto& [where, lots] : m_lots) {
        for (const auto& [lot, milligrams] : lots) {
            all[{lot, where.first, where.second}] += milligrams;
        }
    }
    return all;
}

void NaiveShop::enter(const PlainEntry& entry) {
    const auto& body = entry.body;
    if (entry.kind == "weighed") {
        weigh("cylinder:" + textIn(body, "serial"), body, "gross_mg");
    } else if (entry.kind == "evacuated") {
        const std::string cylinder = "cylinder:" + textIn(body, "serial");
        transfer(cylinder, "variance", held(cylinder));
    } else if (entry.kind == "batch_shipped") {
        for (const auto& line : body["lines"]) {
            movement("cylinder:" + textIn(line, "serial"), "reclaimer:" + textIn(body, "reclaimer"),
                     line["mass_mg"].get<std::int64_t>(), line);
        }
    } else if (entry.kind == "batch_settled") {
        const std::string reclaimer = "reclaimer:" + textIn(body, "reclaimer");
        for (const auto& line : body["lines"]) {
            const auto more = line["net_mg"].get<std::int64_t>() - line["book_mg"].get<std::int64_t>();
            nlohmann::json gas = line;
            gas["state"] = "recovered";
            if (more < 0) {
                movement(reclaimer, "variance", -more, gas);
            } else if (more > 0) {
                movement("variance", reclaimer, more, gas);
            }
        }
    } else if (body.contains("from") && body.contains("to")) {
        if (body.contains("cylinder") && body.contains("gross_before_mg")) {
            weigh("cylinder:" + textIn(body, "cylinder"), body, "gross_before_mg");
        }
        movement(textIn(body, "from"), textIn(body, "to"), body["mass_mg"].get<std::int64_t>(), body);
    }
}

void NaiveShop::weigh(const std::string& cylinder, const nlohmann::json& body, const char* grossKey) {
    const std::int64_t net =
        std::max<std::int64_t>(0, body[grossKey].get<std::int64_t>() - body["tare_mg"].get<std::int64_t>());
    const std::int64_t more = net - sum(held(cylinder));
    const auto tolerance = body["tolerance_mg"].get<std::int64_t>();
    if (more > tolerance) {
        found(cylinder, more, "");
    } else if (-more > tolerance) {
        transfer(cylinder, "variance", share(held(cylinder), -more));
    }
}

void NaiveShop::found(const std::string& cylinder, std::int64_t milligrams, const std::string& refrigerant) {
    const Parts inside = held(cylinder);
    if (inside.empty()) {
        transfer("variance", cylinder,
                 {{(refrigerant.empty() ? "unknown" : refrigerant) + "||recovered", milligrams}});
    } else {
        transfer("variance", cylinder, share(inside, milligrams));
    }
}

void NaiveShop::movement(const std::string& from, const std::string& to, std::int64_t milligrams,
                         const nlohmann::json& body) {
    if (milligrams == 0) {
        return;
    }
    if (!isCylinder(from)) {
        const std::string state = textIn(body, "state");
        transfer(from, to,
                 {{textIn(body, "refrigerant") + "|" + textIn(body, "owner") + "|" +
                       (state.empty() ? "recovered" : state),
                   milligrams}});
        return;
    }
    const std::int64_t lacking = milligrams - sum(held(from));
    if (lacking > 0) {
        found(from, lacking, textIn(body, "refrigerant"));
    }
    transfer(from, to, share(held(from), milligrams));
}

void NaiveShop::transfer(const std::string& from, const std::string& to, const Parts& moved) {
    if (moved.empty()) {
        return;
    }
    Transfer made{m_seq, m_number++, from, to, moved, {}, {}};
    if (isCylinder(from)) {
        made.fromBefore = held(from);
    }
    if (isCylinder(to)) {
        made.toBefore = held(to);
    }
    moveLots(made);
    for (const auto& [gas, milligrams] : moved) {
        if (isCylinder(from)) {
            m_held[from][gas] -= milligrams;
        }
        if (isCylinder(to)) {
            m_held[to][gas] += milligrams;
        }
    }
    std::erase_if(m_held[from], [](const auto& part) { return part.second == 0; });
    m_transfers.push_back(std::move(made));
}

void NaiveShop::moveLots(const Transfer& made) {
    const long double share = isCylinder(made.from) ? static_cast<long double>(sum(made.moved)) /
                                                          static_cast<long double>(sum(made.fromBefore))
                                                    : 1.0L;
    if (m_wholeMix && isCylinder(made.from)) {
        for (auto& [lot, mass] : m_lots[{made.from, ""}]) {
            m_lots[{made.to, ""}][lot] += mass * share;
            mass -= mass * share;
        }
        return;
    }
    for (const auto& [gas, milligrams] : made.moved) {
        const std::string shelf = m_wholeMix ? "" : gas;
        if (!isCylinder(made.from)) {
            m_lots[{made.to, shelf}][{made.seq, made.number}] += static_cast<long double>(milligrams);
            continue;
        }
        const long double part =
            static_cast<long double>(milligrams) / static_cast<long double>(made.fromBefore.at(gas));
        for (auto& [lot, mass] : m_lots[{made.from, shelf}]) {
            m_lots[{made.to, shelf}][lot] += mass * part;
            mass -= mass * part;
        }
    }
}

} // namespace tarebook::support
