#pragma once

#include <functional>

#include "core/store/database.h"

namespace tarebook {

/// While it lives, `goesOn` is asked now and then during each statement of the connection, also within one
/// that takes long. Where it returns false, the statement ends with SqlFailure SQLITE_INTERRUPT, and SQLite
/// rolls the transaction back if the statement wrote.
class Interruption {
public:
    Interruption(Database& database, std::function<bool()> goesOn);
    Interruption(const Interruption&) = delete;
    Interruption& operator=(const Interruption&) = delete;
    ~Interruption();

private:
    Database& m_database;
    std::function<bool()> m_goesOn;
};

} // namespace tarebook
