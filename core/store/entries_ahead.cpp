#include "core/store/entries_ahead.h"

#include <algorithm>
#include <array>
#include <future>
#include <utility>

#include "core/store/subject_table.h"

namespace tarebook {

namespace {

constexpr std::int64_t kRowsAhead = 1'024;

std::array<std::string_view*, 7> textsIn(JournalRow& row) {
    return {&row.id, &row.operatorName, &row.zone, &row.kind, &row.body, &row.previous, &row.digest};
}

/// Rows of the journal with their texts, and what is made of them.
class Batch {
public:
    /// Forgets what it had, but for the entries, which are freed where they were made.
    void read(Database& database, Sequence first, Sequence last) {
        m_rows.clear();
        m_texts.clear();
        readRows(database, first, last, kRowsAhead, [this](const JournalRow& row) {
            m_rows.push_back(row);
            for (const std::string_view* text : textsIn(m_rows.back())) {
                m_texts += *text;
            }
        });
        // The lengths were right all along; now the texts stay where they are.
        std::string_view rest = m_texts;
        for (JournalRow& row : m_rows) {
            for (std::string_view* text : textsIn(row)) {
                *text = rest.substr(0, text->size());
                rest.remove_prefix(text->size());
            }
        }
    }
    [[nodiscard]] bool empty() const { return m_rows.empty(); }
    [[nodiscard]] Sequence last() const { return m_rows.back().seq; }

    void prepare() {
        m_entries.clear();
        m_entries.reserve(m_rows.size());
        for (const JournalRow& row : m_rows) {
            m_entries.emplace_back(entryOf(row));
        }
    }
    [[nodiscard]] bool visit(const std::function<bool(PreparedEntry&, std::string_view body)>& visitor) {
        for (std::size_t place = 0; place < m_entries.size(); ++place) {
            if (!visitor(m_entries[place], m_rows[place].body)) {
                return false;
            }
        }
        return true;
    }

private:
    std::vector<JournalRow> m_rows;
    std::string m_texts;
    std::vector<PreparedEntry> m_entries;
};

std::vector<EntrySubject> subjectsWith(const Draft& draft, const std::vector<std::string>& serials) {
    constexpr std::string_view kCylinderPrefix = "cylinder:";
    std::vector<std::string> texts = subjectsOf(draft);
    for (const std::string& serial : serials) {
        texts.push_back(Account::cylinder(serial).text());
    }
    std::sort(texts.begin(), texts.end());
    texts.erase(std::unique(texts.begin(), texts.end()), texts.end());
    std::vector<EntrySubject> subjects;
    subjects.reserve(texts.size());
    for (std::string& text : texts) {
        EntrySubject subject;
        if (text.starts_with(kCylinderPrefix)) {
            subject.serial = text.substr(kCylinderPrefix.size());
            subject.mass = std::binary_search(serials.begin(), serials.end(), subject.serial);
        }
        subject.text = std::move(text);
        subjects.push_back(std::move(subject));
    }
    return subjects;
}

} // namespace

EntryFacts::EntryFacts(const Entry& entry) : masses(massFactsOf(entry)) {
    if (masses) {
        serials = serialsOf(masses.value());
        subjects = subjectsWith(entry, serials);
    }
}

void visitPrepared(Database& database, Sequence first, Sequence last,
                   const std::function<bool(PreparedEntry&, std::string_view body)>& visit) {
    std::array<Batch, 2> batches;
    Batch* now = &batches[0];
    Batch* next = &batches[1];
    next->read(database, first, last);
    while (!next->empty()) {
        // Waited for before the batches go, whatever is thrown. Where no thread is to be had, when asked.
        std::future<void> preparing = std::async([next] { next->prepare(); });
        if (!now->visit(visit)) {
            return; // what is wrong with later entries does not count
        }
        preparing.get();
        std::swap(now, next);
        next->read(database, now->last() + 1, last);
    }
    (void)now->visit(visit);
}

} // namespace tarebook
