#include "core/store/database.h"

#include <filesystem>

#include <fmt/format.h>

namespace tarebook {

namespace {

constexpr int kBusyMilliseconds = 5'000;
constexpr const char* kBegin = "BEGIN";
constexpr const char* kBeginImmediate = "BEGIN IMMEDIATE";
constexpr const char* kCommit = "COMMIT";
constexpr const char* kRollback = "ROLLBACK";

std::string absolutePath(const std::string& path) {
    std::error_code problem;
    const auto absolute = std::filesystem::absolute(path, problem);
    return problem ? path : absolute.string();
}

} // namespace

Error errorOf(const SqlFailure& failure) {
    switch (failure.primary()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return {"another program is writing to the shop file", "wait until it is done and try again"};
    case SQLITE_FULL:
        return {"the disk is full", "make room and try again"};
    case SQLITE_READONLY:
    case SQLITE_PERM:
        return {"the shop file cannot be written", "check its permissions, or work on a copy"};
    case SQLITE_IOERR:
        return {fmt::format("the disk reports a fault (code {})", failure.code()),
                "check the disk; restore a backup where the file is damaged"};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        return {"the shop file is damaged", "open it read-only to save what it holds, or restore a backup"};
    case SQLITE_CANTOPEN:
        return {"the shop file cannot be opened", "check that its folder is there and can be written"};
    case SQLITE_NOMEM:
        return {"there is not enough memory", "close other programs and try again"};
    default:
        return {fmt::format("the shop file refuses: {} (code {})", failure.what(), failure.code()),
                "verify the file"};
    }
}

Database::Database(const std::string& path, Mode mode) {
    int flags = SQLITE_OPEN_READONLY;
    if (mode != Mode::readOnly) {
        flags = SQLITE_OPEN_READWRITE | (mode == Mode::create ? SQLITE_OPEN_CREATE : 0);
    }
    const int code =
        sqlite3_open_v2(absolutePath(path).c_str(), &m_handle, flags | SQLITE_OPEN_NOMUTEX, nullptr);
    if (code != SQLITE_OK) {
        const int extended = m_handle == nullptr ? code : sqlite3_extended_errcode(m_handle);
        const std::string message = m_handle == nullptr ? "no memory" : sqlite3_errmsg(m_handle);
        sqlite3_close(m_handle);
        throw SqlFailure(extended, message);
    }
    sqlite3_extended_result_codes(m_handle, 1);
    sqlite3_busy_timeout(m_handle, kBusyMilliseconds);
}

Database Database::inMemory() {
    sqlite3* handle = nullptr;
    const int code = sqlite3_open_v2(
        ":memory:", &handle,
        SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_MEMORY | SQLITE_OPEN_NOMUTEX, nullptr);
    if (code != SQLITE_OK) {
        sqlite3_close(handle);
        throw SqlFailure(code, "no memory");
    }
    sqlite3_extended_result_codes(handle, 1);
    return Database(handle);
}

Database::Database(Database&& other) noexcept
    : m_handle(std::exchange(other.m_handle, nullptr)), m_idle(std::move(other.m_idle)) {
    other.m_idle.clear();
}

Database::~Database() {
    for (const auto& [sql, statements] : m_idle) {
        for (sqlite3_stmt* statement : statements) {
            sqlite3_finalize(statement);
        }
    }
    sqlite3_close_v2(m_handle);
}

void Database::execute(const std::string& sql) {
    const int code = sqlite3_exec(m_handle, sql.c_str(), nullptr, nullptr, nullptr);
    if (code != SQLITE_OK) {
        fail(code);
    }
}

void Database::fail(int code) const {
    const int extended = sqlite3_extended_errcode(m_handle);
    throw SqlFailure((extended & 0xff) == (code & 0xff) ? extended : code, sqlite3_errmsg(m_handle));
}

sqlite3_stmt* Database::take(const char* sql) {
    auto& idle = m_idle[sql];
    if (!idle.empty()) {
        sqlite3_stmt* statement = idle.back();
        idle.pop_back();
        return statement;
    }
    idle.reserve(4); // so that giving back needs no memory
    sqlite3_stmt* statement = nullptr;
    const int code = sqlite3_prepare_v3(m_handle, sql, -1, SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
    if (code != SQLITE_OK) {
        fail(code);
    }
    return statement;
}

void Database::giveBack(const char* sql, sqlite3_stmt* statement) {
    auto& idle = m_idle[sql];
    if (idle.size() == idle.capacity()) {
        sqlite3_finalize(statement);
        return;
    }
    sqlite3_reset(statement);
    sqlite3_clear_bindings(statement);
    idle.push_back(statement);
}

Query::Taken Query::prepared(Database& database, const std::string& sql) {
    Taken taken{nullptr};
    const int code = sqlite3_prepare_v2(database.m_handle, sql.c_str(), -1, &taken.statement, nullptr);
    if (code != SQLITE_OK) {
        database.fail(code);
    }
    return taken;
}

Query::Query(Database& database, const std::string& sql, const std::vector<std::string>& texts,
             const std::vector<std::int64_t>& integers)
    : Query(prepared(database, sql), database, nullptr) {
    expect(static_cast<int>(texts.size() + integers.size()));
    int place = 0;
    for (const std::string& text : texts) {
        bindText(++place, text, SQLITE_TRANSIENT);
    }
    for (const std::int64_t number : integers) {
        bindInteger(++place, number);
    }
}

Query::~Query() {
    if (m_sql == nullptr) {
        sqlite3_finalize(m_statement);
    } else {
        m_database.giveBack(m_sql, m_statement);
    }
}

bool Query::step() {
    const int code = sqlite3_step(m_statement);
    if (code == SQLITE_ROW) {
        return true;
    }
    if (code != SQLITE_DONE) {
        m_database.fail(code);
    }
    return false;
}

bool Query::isNull(int column) const {
    return sqlite3_column_type(m_statement, column) == SQLITE_NULL;
}

std::string_view Query::view(int column) const {
    const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(m_statement, column));
    if (text == nullptr) {
        if (sqlite3_errcode(m_database.m_handle) == SQLITE_NOMEM) {
            throw SqlFailure(SQLITE_NOMEM, "no memory for a text");
        }
        return {};
    }
    return {text, static_cast<std::size_t>(sqlite3_column_bytes(m_statement, column))};
}

std::string_view Query::bytes(int column) const {
    const auto* bytes = static_cast<const char*>(sqlite3_column_blob(m_statement, column));
    if (bytes == nullptr) {
        if (sqlite3_errcode(m_database.m_handle) == SQLITE_NOMEM) {
            throw SqlFailure(SQLITE_NOMEM, "no memory for the bytes of a file");
        }
        return {};
    }
    return {bytes, static_cast<std::size_t>(sqlite3_column_bytes(m_statement, column))};
}

void Query::expect(int values) const {
    if (values != sqlite3_bind_parameter_count(m_statement)) {
        throw SqlFailure(SQLITE_MISUSE, "a statement got the wrong number of values");
    }
}

void Query::bindText(int place, std::string_view text, sqlite3_destructor_type keeping) {
    const int code = sqlite3_bind_text64(m_statement, place, text.data() == nullptr ? "" : text.data(),
                                         text.size(), keeping, SQLITE_UTF8);
    if (code != SQLITE_OK) {
        m_database.fail(code);
    }
}

void Query::bindBytes(int place, std::string_view bytes, sqlite3_destructor_type keeping) {
    const int code = sqlite3_bind_blob64(m_statement, place, bytes.data(), bytes.size(), keeping);
    if (code != SQLITE_OK) {
        m_database.fail(code);
    }
}

void Query::bindInteger(int place, std::int64_t value) {
    if (const int code = sqlite3_bind_int64(m_statement, place, value); code != SQLITE_OK) {
        m_database.fail(code);
    }
}

void Query::bindNull(int place) {
    if (const int code = sqlite3_bind_null(m_statement, place); code != SQLITE_OK) {
        m_database.fail(code);
    }
}

ReadTransaction::ReadTransaction(Database& database)
    : m_database(database), m_own(!database.inTransaction()) {
    if (m_own) {
        run(m_database, kBegin);
    }
}

ReadTransaction::~ReadTransaction() {
    if (m_own && m_database.inTransaction()) {
        sqlite3_exec(m_database.handle(), kRollback, nullptr, nullptr, nullptr);
    }
}

WriteTransaction::WriteTransaction(Database& database) : m_database(database) {
    run(m_database, kBeginImmediate);
}

WriteTransaction::~WriteTransaction() {
    if (m_database.inTransaction()) {
        sqlite3_exec(m_database.handle(), kRollback, nullptr, nullptr, nullptr);
    }
}

void WriteTransaction::commit() {
    run(m_database, kCommit);
}

} // namespace tarebook
