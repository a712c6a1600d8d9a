#include "core/store/row_supply.h"

#include <new>
#include <string>

#include <fmt/format.h>

namespace tarebook {

namespace {

// To SQLite the supply is a table of its own, by the virtual table interface of its C API
// (https://www.sqlite.org/vtab.html). SQLite calls these functions, so nothing may be thrown in them.

constexpr const char* kSupplyName = "row_supply";

struct Offer {
    RowSupply* supply;
    std::string declaration;
};

struct SupplyTable : sqlite3_vtab {
    RowSupply* supply = nullptr;
};

struct SupplyCursor : sqlite3_vtab_cursor {
    RowSupply* supply = nullptr;
    sqlite3_int64 row = 0;
    bool ended = false;
};

int connect(sqlite3* handle, void* offered, int /*count*/, const char* const* /*words*/, sqlite3_vtab** table,
            char** /*message*/) {
    const auto* offer = static_cast<const Offer*>(offered);
    if (const int code = sqlite3_declare_vtab(handle, offer->declaration.c_str()); code != SQLITE_OK) {
        return code;
    }
    auto* made = new (std::nothrow) SupplyTable();
    if (made == nullptr) {
        return SQLITE_NOMEM;
    }
    made->supply = offer->supply;
    *table = made;
    return SQLITE_OK;
}

int disconnect(sqlite3_vtab* table) {
    delete static_cast<SupplyTable*>(table);
    return SQLITE_OK;
}

int bestIndex(sqlite3_vtab* /*table*/, sqlite3_index_info* /*plan*/) {
    return SQLITE_OK;
}

int open(sqlite3_vtab* table, sqlite3_vtab_cursor** cursor) {
    auto* made = new (std::nothrow) SupplyCursor();
    if (made == nullptr) {
        return SQLITE_NOMEM;
    }
    made->supply = static_cast<SupplyTable*>(table)->supply;
    *cursor = made;
    return SQLITE_OK;
}

int close(sqlite3_vtab_cursor* cursor) {
    delete static_cast<SupplyCursor*>(cursor);
    return SQLITE_OK;
}

int next(sqlite3_vtab_cursor* cursor) {
    auto* its = static_cast<SupplyCursor*>(cursor);
    its->ended = !its->supply->next();
    ++its->row;
    return SQLITE_OK;
}

int filter(sqlite3_vtab_cursor* cursor, int /*plan*/, const char* /*words*/, int /*count*/,
           sqlite3_value** /*values*/) {
    return next(cursor);
}

int ended(sqlite3_vtab_cursor* cursor) {
    return static_cast<SupplyCursor*>(cursor)->ended ? 1 : 0;
}

int column(sqlite3_vtab_cursor* cursor, sqlite3_context* context, int number) {
    static_cast<SupplyCursor*>(cursor)->supply->give(context, number);
    return SQLITE_OK;
}

int rowId(sqlite3_vtab_cursor* cursor, sqlite3_int64* number) {
    *number = static_cast<SupplyCursor*>(cursor)->row;
    return SQLITE_OK;
}

sqlite3_module supplyModule() {
    sqlite3_module module{};
    module.xConnect = connect; // without xCreate: the table is there by its name
    module.xBestIndex = bestIndex;
    module.xDisconnect = disconnect;
    module.xOpen = open;
    module.xClose = close;
    module.xFilter = filter;
    module.xNext = next;
    module.xEof = ended;
    module.xColumn = column;
    module.xRowid = rowId;
    return module;
}

/// The supply is there by its name for as long as the object.
class Offered {
public:
    Offered(Database& database, Offer& offer) : m_database(database) {
        static const sqlite3_module kModule = supplyModule();
        const int code =
            sqlite3_create_module_v2(m_database.handle(), kSupplyName, &kModule, &offer, nullptr);
        if (code != SQLITE_OK) {
            m_database.fail(code);
        }
    }
    Offered(const Offered&) = delete;
    Offered& operator=(const Offered&) = delete;
    ~Offered() { sqlite3_create_module_v2(m_database.handle(), kSupplyName, nullptr, nullptr, nullptr); }

private:
    Database& m_database;
};

} // namespace

void insertRows(Database& database, const char* table, const char* columns, RowSupply& supply) {
    Offer offer{&supply, fmt::format("CREATE TABLE {}({})", kSupplyName, columns)};
    const Offered offered(database, offer);
    // FAIL needs no journal of its own to take back the rows of a statement that does not get to its end.
    Query insert(database,
                 fmt::format("INSERT OR FAIL INTO {0}({1}) SELECT {1} FROM {2}", table, columns, kSupplyName),
                 std::vector<std::string>{});
    insert.run();
}

} // namespace tarebook
