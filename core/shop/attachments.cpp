#include "core/shop/attachments.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/base/sha256.h"
#include "core/base/text.h"

namespace tarebook {
namespace {

Recorded notAttached(const Error& error) {
    Recorded refused;
    refused.error = error;
    return refused;
}

} // namespace

Recorded attach(Shop& shop, Sequence entry, const std::string& name, const std::string& bytes,
                const std::string& note) {
    const auto type = typeOfFile(bytes);
    if (!type) {
        return notAttached(type.error());
    }
    const auto to = shop.store().entry(entry);
    if (!to) {
        return notAttached({fmt::format("there is no entry {}", entry),
                            "name the number of an entry, as the history shows it"});
    }
    if (to.value().kind == EntryKind::attached || to.value().kind == EntryKind::entryReversed) {
        return notAttached({fmt::format("entry {} is itself about another entry", entry),
                            "attach the file to the entry it belongs to"});
    }
    AttachedFile file;
    file.entry = entry;
    file.name = plainFileName(name);
    file.type = type.value();
    file.size = bytes.size();
    file.sha256 = sha256Hex(bytes);
    file.note = std::string(trimmed(note));
    file.about = subjectsOf(to.value());
    if (file.name.empty()) {
        return notAttached({"the file has no name", "give it one, as collar.jpg"});
    }
    const auto before = attachmentsOf(shop, entry);
    if (!before) {
        return notAttached(before.error());
    }
    for (const Attachment& one : before.value()) {
        if (one.file.sha256 == file.sha256 && !one.withdrawnBy) {
            return notAttached(
                {fmt::format("the same file belongs to entry {} already, as {}", entry, one.file.name), ""});
        }
    }
    Draft draft = shop.draft(EntryKind::attached, file.body());
    draft.file = bytes;
    return shop.record({draft});
}

Result<std::vector<Attachment>> attachmentsOf(Shop& shop, Sequence entry) {
    const auto entries = shop.store().attachedEntries();
    if (!entries) {
        return entries.error();
    }
    std::vector<Attachment> attachments;
    for (const Entry& one : entries.value()) {
        auto file = AttachedFile::from(one.body);
        if (!file) {
            return file.error();
        }
        if (entry == 0 || file.value().entry == entry) {
            attachments.push_back({one.seq, std::move(file).value(), one.recorded, one.operatorName,
                                   shop.store().reversedBy(one.seq)});
        }
    }
    return attachments;
}

} // namespace tarebook
