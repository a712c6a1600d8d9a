#include "core/store/held_legs.h"

#include <string_view>

#include "core/store/row_supply.h"

namespace tarebook {

namespace {

// Below this the table of the supply costs more to make than it saves.
constexpr std::size_t kFewLegs = 20;

#define TAREBOOK_HELD_LEG_COLUMNS                                                                            \
    "seq, number, since_head, occurred, cause, source, target, total, source_total, target_total, moved, "   \
    "source_before, target_before"
constexpr const char* kLegColumns = TAREBOOK_HELD_LEG_COLUMNS;
constexpr const char* kPutLeg = "INSERT INTO leg(" TAREBOOK_HELD_LEG_COLUMNS
                                ") VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)";

/// The texts of a row, from the place where they begin.
std::array<std::string_view, HeldLegs::kTexts> textsOf(const HeldLegs::Row& row, std::string_view texts) {
    std::array<std::string_view, HeldLegs::kTexts> parts;
    for (std::size_t place = 0; place < parts.size(); ++place) {
        parts[place] = texts.substr(0, row.lengths[place]);
        texts.remove_prefix(row.lengths[place]);
    }
    return parts;
}

std::size_t lengthOf(const HeldLegs::Row& row) {
    std::size_t length = 0;
    for (const std::uint32_t one : row.lengths) {
        length += one;
    }
    return length;
}

class LegSupply : public RowSupply {
public:
    LegSupply(const std::vector<HeldLegs::Row>& rows, std::string_view texts) : m_rows(rows), m_rest(texts) {}

    bool next() override {
        if (m_row < m_rows.size() && m_started) {
            m_rest.remove_prefix(lengthOf(m_rows[m_row]));
            ++m_row;
        }
        m_started = true;
        if (m_row < m_rows.size()) {
            m_texts = textsOf(m_rows[m_row], m_rest);
        }
        return m_row < m_rows.size();
    }

    void give(sqlite3_context* context, int column) const override {
        const auto place = static_cast<std::size_t>(column);
        if (place < HeldLegs::kNumbers) {
            return sqlite3_result_int64(context, m_rows[m_row].numbers[place]);
        }
        const std::string_view text = m_texts[place - HeldLegs::kNumbers];
        sqlite3_result_text64(context, text.data(), text.size(), SQLITE_STATIC, SQLITE_UTF8);
    }

private:
    const std::vector<HeldLegs::Row>& m_rows;
    std::string_view m_rest; // texts of this row and those behind it
    std::array<std::string_view, HeldLegs::kTexts> m_texts;
    std::size_t m_row = 0;
    bool m_started = false;
};

} // namespace

void HeldLegs::add(const Leg& leg, Sequence seq, Sequence since, std::int64_t source, std::int64_t target) {
    Row row;
    row.numbers = {seq,
                   leg.number,
                   since,
                   leg.moment.occurred.seconds(),
                   static_cast<std::int64_t>(leg.cause),
                   source,
                   target,
                   leg.moved.total().milligrams(),
                   leg.sourceBefore.total().milligrams(),
                   leg.targetBefore.total().milligrams()};
    std::size_t place = 0;
    for (const Holding* holding : {&leg.moved, &leg.sourceBefore, &leg.targetBefore}) {
        const std::string text = holding->encoded();
        row.lengths[place++] = static_cast<std::uint32_t>(text.size());
        m_texts += text;
    }
    m_rows.push_back(row);
}

void HeldLegs::write() {
    if (m_rows.size() > kFewLegs) {
        LegSupply supply(m_rows, m_texts);
        insertRows(m_database, "leg", kLegColumns, supply);
    } else {
        std::string_view rest = m_texts;
        for (const Row& row : m_rows) {
            const auto& [seq, number, since, occurred, cause, source, target, total, sourceTotal,
                         targetTotal] = row.numbers;
            const auto [moved, sourceBefore, targetBefore] = textsOf(row, rest);
            run(m_database, kPutLeg, seq, number, since, occurred, cause, source, target, total, sourceTotal,
                targetTotal, moved, sourceBefore, targetBefore);
            rest.remove_prefix(lengthOf(row));
        }
    }
    m_rows.clear();
    m_texts.clear();
}

} // namespace tarebook
