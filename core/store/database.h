#pragma once

#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <type_traits>
#include <unordered_map>
#include <utility>
#include <vector>

#include <sqlite3.h>

#include "core/base/result.h"

namespace tarebook {

/// SQLite said no. Thrown inside core/store only; its public functions turn it into an Error.
class SqlFailure : public std::runtime_error {
public:
    SqlFailure(int code, const std::string& message) : std::runtime_error(message), m_code(code) {}
    [[nodiscard]] int code() const { return m_code; } // extended result code
    [[nodiscard]] int primary() const { return m_code & 0xff; }

private:
    int m_code;
};

/// What a person reads about a failure of SQLite.
[[nodiscard]] Error errorOf(const SqlFailure& failure);

/// One connection to an SQLite database, closed with the object. Every statement is prepared once.
class Database {
public:
    enum class Mode { readOnly, readWrite, create };

    /// Throws SqlFailure. The path is made absolute, so that it is never read as a URI.
    Database(const std::string& path, Mode mode);
    /// A database in memory, for a second making of the views.
    [[nodiscard]] static Database inMemory();
    Database(Database&& other) noexcept;
    Database& operator=(Database&&) = delete;
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;
    ~Database();

    /// Runs one or more statements whose rows nobody needs.
    void execute(const std::string& sql);
    [[nodiscard]] sqlite3* handle() const { return m_handle; }
    [[nodiscard]] bool inTransaction() const { return sqlite3_get_autocommit(m_handle) == 0; }
    [[nodiscard]] std::int64_t changes() const { return sqlite3_changes64(m_handle); }
    /// Throws what the connection says went wrong last.
    [[noreturn]] void fail(int code) const;

private:
    friend class Query;
    explicit Database(sqlite3* handle) : m_handle(handle) {}
    [[nodiscard]] sqlite3_stmt* take(const char* sql);
    void giveBack(const char* sql, sqlite3_stmt* statement);

    sqlite3* m_handle = nullptr;
    std::unordered_map<const void*, std::vector<sqlite3_stmt*>> m_idle; // by the address of the SQL constant
};

/// What is kept as it is, byte for byte.
struct Bytes {
    std::string_view bytes;
};

/// A statement in use. Values are bound by position; their number must fit. A constant's text is prepared
/// once and kept by its address: pass constants of this room, or a std::string for text made on the spot.
class Query {
public:
    template <typename... Values>
    explicit Query(Database& database, const char* sql, const Values&... values)
        : Query(Taken{database.take(sql)}, database, sql) {
        bindAll(SQLITE_TRANSIENT, values...);
    }
    /// For texts that outlive the query: they are not copied.
    struct Lasting {};
    template <typename... Values>
    Query(Lasting /*values*/, Database& database, const char* sql, const Values&... values)
        : Query(Taken{database.take(sql)}, database, sql) {
        bindAll(SQLITE_STATIC, values...);
    }
    Query(Database& database, const std::string& sql, const std::vector<std::string>& texts,
          const std::vector<std::int64_t>& integers = {});
    Query(const Query&) = delete;
    Query& operator=(const Query&) = delete;
    ~Query();

    /// True when there is a row; false at the end.
    bool step();
    /// To the end, for statements without rows.
    void run() {
        while (step()) {
        }
    }
    [[nodiscard]] bool isNull(int column) const;
    [[nodiscard]] std::int64_t integer(int column) const { return sqlite3_column_int64(m_statement, column); }
    /// Valid until the next step.
    [[nodiscard]] std::string_view view(int column) const;
    /// The same of bytes that were kept as they are.
    [[nodiscard]] std::string_view bytes(int column) const;
    [[nodiscard]] std::string text(int column) const { return std::string(view(column)); }
    [[nodiscard]] int columns() const { return sqlite3_column_count(m_statement); }

private:
    struct Taken {
        sqlite3_stmt* statement;
    };
    // Whole once this is done, so that the destructor gives the statement back when binding throws.
    Query(Taken taken, Database& database, const char* sql)
        : m_database(database), m_sql(sql), m_statement(taken.statement) {}
    [[nodiscard]] static Taken prepared(Database& database, const std::string& sql);
    template <typename... Values>
    void bindAll([[maybe_unused]] sqlite3_destructor_type keeping, const Values&... values) {
        expect(static_cast<int>(sizeof...(values)));
        int place = 0;
        (bind(++place, values, keeping), ...);
    }
    template <typename Value> void bind(int place, const Value& value, sqlite3_destructor_type keeping) {
        if constexpr (std::is_same_v<Value, std::nullptr_t>) {
            bindNull(place);
        } else if constexpr (std::is_same_v<Value, Bytes>) {
            bindBytes(place, value.bytes, keeping);
        } else if constexpr (std::is_convertible_v<Value, std::string_view>) {
            bindText(place, value, keeping);
        } else {
            static_assert(std::is_integral_v<Value>, "only texts, bytes, whole numbers and nothing are kept");
            bindInteger(place, static_cast<std::int64_t>(value));
        }
    }
    void expect(int values) const;
    void bindText(int place, std::string_view text, sqlite3_destructor_type keeping);
    void bindBytes(int place, std::string_view bytes, sqlite3_destructor_type keeping);
    void bindInteger(int place, std::int64_t value);
    void bindNull(int place);

    Database& m_database;
    const char* m_sql = nullptr; // null for text made on the spot
    sqlite3_stmt* m_statement = nullptr;
};

/// Runs a statement that gives no rows.
template <typename... Values> void run(Database& database, const char* sql, const Values&... values) {
    Query query(Query::Lasting(), database, sql, values...);
    query.run();
}

/// The whole number that a query gives in its first row, or `otherwise`.
template <typename... Values>
std::int64_t wholeNumber(Database& database, const char* sql, std::int64_t otherwise,
                         const Values&... values) {
    Query query(database, sql, values...);
    return query.step() && !query.isNull(0) ? query.integer(0) : otherwise;
}

/// Several reads that must see the same state; nothing inside a transaction that is open already.
class ReadTransaction {
public:
    explicit ReadTransaction(Database& database);
    ReadTransaction(const ReadTransaction&) = delete;
    ReadTransaction& operator=(const ReadTransaction&) = delete;
    ~ReadTransaction();

private:
    Database& m_database;
    bool m_own;
};

/// BEGIN IMMEDIATE; rolled back unless committed.
class WriteTransaction {
public:
    explicit WriteTransaction(Database& database);
    WriteTransaction(const WriteTransaction&) = delete;
    WriteTransaction& operator=(const WriteTransaction&) = delete;
    ~WriteTransaction();
    void commit();

private:
    Database& m_database;
};

} // namespace tarebook
