#include "core/store/earlier_books.h"

#include <filesystem>
#include <utility>

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/store/attachment_table.h"
#include "core/store/journal_table.h"
#include "core/store/leg_orders.h"
#include "core/store/operator_table.h"
#include "core/store/schema_v1.h"
#include "core/store/shop_file.h"
#include "core/store/view_writer.h"

namespace tarebook {

namespace {

constexpr std::int64_t kProgressStep = 256;
constexpr const char* kWhoSignsIn = "SELECT name, role, verifier, wrong_tries, last_try FROM operator";
constexpr const char* kPutOperator =
    "INSERT INTO operator(name, role, verifier, since, wrong_tries, last_try) VALUES(?1, ?2, ?3, ?4, ?5, ?6)";

Result<bool> writeEntries(Database& source, Sequence head, Database& made,
                          const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    made.execute(kDropLegOrdersV1);
    ViewWriter views(made);
    Result<bool> done = true;
    visitPrepared(source, 1, head, [&](PreparedEntry& prepared, std::string_view body) {
        const Entry& entry = prepared.entry;
        insertEntry(made, entry, body);
        const auto added = views.add(entry, prepared.facts);
        if (!added) {
            done = Error{fmt::format("entry {}: {}", entry.seq, added.error().wrong), added.error().right};
        } else if (progress && entry.seq % kProgressStep == 0 && !progress(entry.seq, head)) {
            done = Error{"stopped before the end", "start again"};
        }
        return done.ok();
    });
    if (done) {
        views.writeHeld();
        if (!makeLegOrders(made, head, progress)) {
            done = Error{"stopped before the end", "start again"};
        }
    }
    if (done) {
        views.finish({});
    }
    return done;
}

/// So that the books of then are not open to more people than those of now.
void writeOperators(Database& source, Sequence head, Database& made) {
    if (!anyOperator(source)) {
        return;
    }
    Query query(source, kWhoSignsIn);
    while (query.step()) {
        run(made, kPutOperator, query.view(0), query.view(1), query.view(2), head, query.integer(3),
            query.integer(4));
    }
}

Result<bool> write(const std::string& path, Sequence head, const std::string& destination, const Clock& clock,
                   const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    const auto opened = Store::open(path, clock, true);
    if (!opened.store) {
        return opened.error;
    }
    const Sequence last = opened.store->headSeq();
    if (head < 1 || head > last) {
        return Error{fmt::format("there is no entry {}", head),
                     last == 0 ? std::string("nothing has been entered yet")
                               : fmt::format("name an entry from 1 to {}", last)};
    }
    auto created = ShopFile::create(destination, clock.now());
    if (!created.file) {
        return created.error;
    }
    Database source(path, Database::Mode::readOnly);
    Database& made = created.file->database();
    made.execute("BEGIN");
    auto written = writeEntries(source, head, made, progress);
    if (written) {
        writeOperators(source, head, made);
        copyFiles(source, made);
        made.execute("COMMIT");
    }
    return written;
}

} // namespace

Result<bool> writeEarlierBooks(const std::string& path, Sequence head, const std::string& destination,
                               const Clock& clock,
                               const std::function<bool(std::int64_t, std::int64_t)>& progress) {
    std::error_code problem;
    if (std::filesystem::exists(destination, problem)) {
        return Error{tarebook::quoted(destination) + " exists already", "choose a new name"};
    }
    Result<bool> done = true;
    try {
        done = write(path, head, destination, clock, progress);
    } catch (const SqlFailure& failure) {
        done = errorOf(failure);
    }
    if (!done) {
        std::filesystem::remove(destination, problem);
        std::filesystem::remove(destination + "-journal", problem);
    }
    return done;
}

} // namespace tarebook
