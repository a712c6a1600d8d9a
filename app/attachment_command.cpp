#include <filesystem>
#include <fstream>
#include <memory>

#include <fmt/format.h>

#include "app/file_bytes.h"
#include "app/output.h"
#include "app/shop_session.h"
#include "core/shop/attachments.h"

namespace tarebook {

namespace {

struct AttachOptions : ShopOptions {
    Sequence entry = 0;
    std::string file;
    std::string name;
    std::string note;
};

struct AttachedOptions : ShopOptions {
    Sequence entry = 0;
    std::string folder;
};

int attachVerb(Shop& shop, const AttachOptions& options, bool json) {
    const auto bytes = bytesOf(options.file);
    if (!bytes) {
        return refuse({bytes.error().wrong, "name a photo, a scan or a PDF"});
    }
    const Recorded recorded = attach(shop, options.entry, options.name.empty() ? options.file : options.name,
                                     bytes.value(), options.note);
    return report(recorded, shop, json);
}

/// `12-ticket.pdf`: the entry that attached it keeps names apart.
std::string savedName(const Attachment& attachment) {
    return fmt::format("{}-{}", attachment.seq, attachment.file.name);
}

Result<bool> saveInto(Shop& shop, const std::string& folder, const Attachment& attachment) {
    const auto bytes = shop.store().attachedFile(attachment.file.sha256);
    if (!bytes) {
        return Error{fmt::format("entry {}: {}", attachment.seq, bytes.error().wrong), bytes.error().right};
    }
    const std::filesystem::path path = std::filesystem::path(folder) / savedName(attachment);
    std::error_code problem;
    std::filesystem::create_directories(folder, problem);
    if (std::filesystem::exists(path, problem)) {
        return Error{path.string() + " exists already", "name a new folder"};
    }
    std::ofstream out(path, std::ios::binary);
    out.write(bytes.value().data(), static_cast<std::streamsize>(bytes.value().size()));
    out.close();
    if (!out) {
        return Error{path.string() + " cannot be written", "name a folder that can be written, with room"};
    }
    return true;
}

int attachedVerb(Shop& shop, const AttachedOptions& options, bool json) {
    const auto attachments = attachmentsOf(shop, options.entry);
    if (!attachments) {
        return refuse(attachments.error());
    }
    int code = kDone;
    nlohmann::json list = nlohmann::json::array();
    TextTable table({"entry", "belongs to", "name", "type", "bytes", "note"});
    for (const Attachment& one : attachments.value()) {
        nlohmann::json object = one.file.body();
        object["attached_by"] = one.seq;
        object["withdrawn_by"] = one.withdrawnBy ? nlohmann::json(*one.withdrawnBy) : nlohmann::json();
        if (!options.folder.empty()) {
            const auto saved = saveInto(shop, options.folder, one);
            if (!saved) {
                code = refuse(saved.error());
                continue;
            }
            object["saved"] = (std::filesystem::path(options.folder) / savedName(one)).string();
        }
        list.push_back(std::move(object));
        table.add({fmt::format("{}", one.seq), fmt::format("{}", one.file.entry),
                   one.withdrawnBy ? fmt::format("{} (withdrawn by {})", one.file.name, *one.withdrawnBy)
                                   : one.file.name,
                   one.file.type, fmt::format("{}", one.file.size), one.file.note});
    }
    if (json) {
        printJson(list);
    } else if (table.empty()) {
        fmt::print("no file is attached{}\n",
                   options.entry == 0 ? "" : fmt::format(" to entry {}", options.entry));
    } else {
        table.print();
    }
    return code;
}

} // namespace

void addAttachmentCommands(CLI::App& program, CommandContext& context) {
    CLI::App* attaching =
        program.add_subcommand("attach", "Keep a photo, a scanned ticket or a certificate with an entry");
    const auto attach = std::make_shared<AttachOptions>();
    addShopOptions(*attaching, attach, context);
    attaching->add_option("ENTRY", attach->entry, "number of the entry it belongs to")->required();
    attaching->add_option("FILE", attach->file, "PNG, JPEG or PDF of at most 10 MB; - reads standard input")
        ->required();
    attaching->add_option("--name", attach->name, "what it is called; by default as the file");
    attaching->add_option("--note", attach->note, "what is to be seen");
    shopVerb(*attaching, attach, context,
             [attach, &context](Shop& shop) { return attachVerb(shop, *attach, context.json); });

    CLI::App* listing = program.add_subcommand(
        "attached", "List the files that belong to entries, or write them to a folder");
    const auto attached = std::make_shared<AttachedOptions>();
    addShopOptions(*listing, attached, context);
    addEarlierOptions(*listing, attached);
    listing->add_option("ENTRY", attached->entry, "only those of this entry");
    listing->add_option("--save", attached->folder, "write the files there, each checked against its hash");
    shopVerb(*listing, attached, context,
             [attached, &context](Shop& shop) { return attachedVerb(shop, *attached, context.json); });
}

} // namespace tarebook
