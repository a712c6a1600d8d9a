#include "tests/faults/injector.h"

#include <stdexcept>

namespace tarebook::tests {

namespace {

sqlite3_mem_methods g_memory;
Injector* g_scarce = nullptr; // who decides about allocations

void* allocate(int size) {
    return g_scarce != nullptr && g_scarce->strikes() ? nullptr : g_memory.xMalloc(size);
}
void* reallocate(void* block, int size) {
    return g_scarce != nullptr && g_scarce->strikes() ? nullptr : g_memory.xRealloc(block, size);
}

bool canMeet(Fault fault, DiskCall::Kind kind) {
    switch (fault) {
    case Fault::diskBefore:
        return true;
    case Fault::diskAfter:
        return kind == DiskCall::Kind::write || kind == DiskCall::Kind::truncate ||
               kind == DiskCall::Kind::sync || kind == DiskCall::Kind::remove;
    case Fault::diskHalf:
        return kind == DiskCall::Kind::write;
    case Fault::diskFull:
        return kind == DiskCall::Kind::write || kind == DiskCall::Kind::sync;
    case Fault::memory:
        return false;
    }
    return false;
}

/// What SQLite's own file system would answer (sqlite.org/rescode.html).
int codeOf(Fault fault, DiskCall::Kind kind) {
    if (fault == Fault::diskFull) {
        return SQLITE_FULL;
    }
    switch (kind) {
    case DiskCall::Kind::create:
    case DiskCall::Kind::open:
        return SQLITE_CANTOPEN;
    case DiskCall::Kind::access:
        return SQLITE_IOERR_ACCESS;
    case DiskCall::Kind::read:
        return SQLITE_IOERR_READ;
    case DiskCall::Kind::size:
        return SQLITE_IOERR_FSTAT;
    case DiskCall::Kind::lock:
        return SQLITE_IOERR_LOCK;
    case DiskCall::Kind::truncate:
        return SQLITE_IOERR_TRUNCATE;
    case DiskCall::Kind::sync:
        return SQLITE_IOERR_FSYNC;
    case DiskCall::Kind::remove:
        return fault == Fault::diskAfter ? SQLITE_IOERR_DIR_FSYNC : SQLITE_IOERR_DELETE;
    default:
        return SQLITE_IOERR_WRITE;
    }
}

} // namespace

const char* faultName(Fault fault) {
    switch (fault) {
    case Fault::diskBefore:
        return "disk, before";
    case Fault::diskAfter:
        return "disk, after";
    case Fault::diskHalf:
        return "half a write";
    case Fault::diskFull:
        return "disk full";
    case Fault::memory:
        return "no memory";
    }
    return "";
}

void watchMemory() {
    sqlite3_mem_methods watched;
    const bool set = sqlite3_config(SQLITE_CONFIG_GETMALLOC, &g_memory) == SQLITE_OK &&
                     (watched = g_memory, watched.xMalloc = allocate, watched.xRealloc = reallocate,
                      sqlite3_config(SQLITE_CONFIG_MALLOC, &watched) == SQLITE_OK);
    if (!set || sqlite3_initialize() != SQLITE_OK) {
        throw std::runtime_error("the memory of SQLite cannot be watched");
    }
}

Injector::Injector()
    : m_disk([this](const DiskCall& call, const std::function<int()>& go) { return called(call, go); },
             WatchedDisk::Calls::all) {}

void Injector::start(Fault fault, std::int64_t at, bool stays, const std::string& path, PowerLoss& disk) {
    m_fault = fault;
    m_at = at;
    m_stays = stays;
    m_path = path;
    m_model = &disk;
    m_calls = 0;
    m_struck = 0;
    m_stopped = false;
    g_scarce = fault == Fault::memory ? this : nullptr;
}

void Injector::stop() {
    m_stopped = true;
    g_scarce = nullptr;
}

bool Injector::strikes() {
    if (m_stopped) {
        return false;
    }
    const std::int64_t number = m_calls++;
    const bool now = m_at >= 0 && (m_stays ? number >= m_at : number == m_at);
    m_struck += now ? 1 : 0;
    return now;
}

int Injector::called(const DiskCall& call, const std::function<int()>& go) {
    if (m_stopped) {
        return go();
    }
    if (canMeet(m_fault, call.kind) && strikes()) {
        return failed(call, go);
    }
    const int code = go();
    if (code == SQLITE_OK) {
        tell(call);
    }
    return code;
}

int Injector::failed(const DiskCall& call, const std::function<int()>& go) {
    const bool ours = call.file.starts_with(m_path);
    if (m_fault == Fault::diskAfter) {
        go();
        if (ours && call.kind == DiskCall::Kind::remove) {
            m_model->removeForNow(call.file);
        } else if (call.kind != DiskCall::Kind::sync) {
            tell(call);
        }
    } else if (m_fault == Fault::diskHalf && call.half) {
        call.half();
        DiskCall part = call;
        part.bytes.resize(part.bytes.size() / 2);
        tell(part);
    }
    if (ours && call.kind == DiskCall::Kind::sync) {
        m_model->forget(call.file);
    }
    return codeOf(m_fault, call.kind);
}

void Injector::tell(const DiskCall& call) {
    if (call.changes() && call.file.starts_with(m_path)) {
        m_model->follow(call);
    }
}

} // namespace tarebook::tests
