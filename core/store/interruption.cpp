#include "core/store/interruption.h"

#include <utility>

namespace tarebook {

namespace {

constexpr int kStepsBetweenQuestions = 10'000; // of SQLite's virtual machine: about a millisecond

int isToEnd(void* goesOn) noexcept {
    try {
        return (*static_cast<std::function<bool()>*>(goesOn))() ? 0 : 1;
    } catch (...) {
        return 1; // nothing may be thrown through SQLite
    }
}

} // namespace

Interruption::Interruption(Database& database, std::function<bool()> goesOn)
    : m_database(database), m_goesOn(std::move(goesOn)) {
    if (m_goesOn) {
        sqlite3_progress_handler(m_database.handle(), kStepsBetweenQuestions, isToEnd, &m_goesOn);
    }
}

Interruption::~Interruption() {
    sqlite3_progress_handler(m_database.handle(), 0, nullptr, nullptr);
}

} // namespace tarebook
