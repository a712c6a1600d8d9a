#include "core/store/writer_check.h"

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/ledger/body_reader.h"
#include "core/store/cylinder_table.h"
#include "core/store/journal_table.h"
#include "core/store/operator_table.h"

namespace tarebook {

namespace {

constexpr std::string_view kCylinderPrefix = "cylinder:";

} // namespace

WriterCheck::WriterCheck(Database& database, const std::optional<SignedIn>& signedIn)
    : m_database(database), m_any(anyOperator(database)), m_named(signedIn.has_value()) {
    if (m_any && signedIn) {
        m_writer = stillSignedIn(database, *signedIn);
    }
}

Error WriterCheck::refusal(EntryKind kind) const {
    return {fmt::format("{}, {}, may not enter this ({})", m_writer->name, roleWord(m_writer->role),
                        entryKindWord(kind)),
            whoMay(kind)};
}

Result<bool> WriterCheck::mayFirst(const Draft& draft) const {
    if (draft.kind == EntryKind::operatorSet &&
        BodyReader(draft.body).optionalText("role") != roleWord(Role::manager)) {
        return Error{"the first who signs in to a shop must be a manager", "set up a manager first"};
    }
    return true;
}

Result<bool> WriterCheck::may(const Draft& draft) const {
    if (!m_any) {
        return mayFirst(draft);
    }
    if (!m_writer) {
        return m_named ? Error{"the passphrase or the role of who is signed in was taken away meanwhile",
                               "sign in again"}
                       : Error{"nobody is signed in, and every entry of this shop carries who made it",
                               "sign in first"};
    }
    if (draft.operatorName != m_writer->name) {
        return Error{fmt::format("the entry names {}, but {} is signed in",
                                 tarebook::quoted(draft.operatorName), m_writer->name),
                     "sign in as the one who makes it"};
    }
    switch (leaveOf(m_writer->role, draft.kind)) {
    case Leave::none:
        return refusal(draft.kind);
    case Leave::own:
        if (auto own = isOwn(draft); !own) {
            return own;
        }
        break;
    case Leave::all:
        break;
    }
    return draft.kind == EntryKind::entryReversed ? mayReverse(draft) : Result<bool>(true);
}

Result<bool> WriterCheck::mayReverse(const Draft& draft) const {
    const auto target = entryWith(m_database, draft.body.value("entry", Sequence{0}));
    if (!target) {
        return true; // the views say that there is none
    }
    const Leave leave = leaveOf(m_writer->role, target->kind);
    if (leave == Leave::none) {
        return refusal(target->kind);
    }
    if (leave == Leave::own && target->operatorName != m_writer->name) {
        return Error{fmt::format("entry {} was made by {}", target->seq,
                                 target->operatorName.empty() ? "somebody else" : target->operatorName),
                     "let them reverse it, or a storekeeper or a manager"};
    }
    return true;
}

Result<bool> WriterCheck::isOwn(const Draft& draft) const {
    BodyReader body(draft.body);
    if (draft.kind == EntryKind::operatorSet) {
        const bool passphraseOnly = body.has("passphrase") && body.optionalText("name") == m_writer->name &&
                                    body.optionalText("role") == roleWord(m_writer->role);
        return passphraseOnly ? Result<bool>(true) : refusal(draft.kind);
    }
    if (const std::string person = body.optionalText("person"); !person.empty() && person != m_writer->name) {
        return Error{fmt::format("{}, technician, may not enter this for {}", m_writer->name, person),
                     whoMay(draft.kind)};
    }
    for (const std::string& subject : subjectsOf(draft)) {
        if (!subject.starts_with(kCylinderPrefix)) {
            continue;
        }
        const auto state = keptCylinder(m_database, subject.substr(kCylinderPrefix.size()));
        if (state && !state->holder.empty() && state->holder != m_writer->name) {
            return Error{fmt::format("{} is with {}, not with {}", subject, state->holder, m_writer->name),
                         whoMay(draft.kind)};
        }
    }
    return true;
}

} // namespace tarebook
