#include <utility>

#include "core/store/appending.h"
#include "core/store/operator_table.h"
#include "core/store/passphrase.h"

namespace tarebook {

Result<std::vector<Operator>> Store::operators() {
    return m_inside->ask(operatorsOf);
}

Result<SignedIn> Store::signIn(const std::string& name, const std::string& passphrase, Instant now) {
    const bool before = m_inside->file->readOnly();
    m_inside->file->setReadOnly(false); // an auditor's file counts the tries of others, too
    const bool counts = !m_inside->file->readOnly();
    auto asked =
        m_inside->ask([&](Database& database) { return signInto(database, name, passphrase, now, counts); });
    auto answer = asked ? std::move(asked).value() : Result<SignedIn>(asked.error());
    if (answer) {
        m_inside->signedIn = answer.value();
    }
    m_inside->file->setReadOnly(answer ? answer.value().role == Role::auditor : before);
    return answer;
}

void Store::signOut() {
    m_inside->signedIn.reset();
    m_inside->file->setReadOnly(false);
}

std::optional<SignedIn> Store::signedIn() {
    if (!m_inside->signedIn) {
        return std::nullopt;
    }
    const auto now =
        m_inside->ask([&](Database& database) { return stillSignedIn(database, *m_inside->signedIn); });
    return now ? now.value() : std::nullopt;
}

bool Store::needsSignIn() {
    const auto any = m_inside->ask(anyOperator);
    return any && any.value() && !signedIn();
}

AppendAnswer Store::appendOperator(const Draft& draft, const std::string& passphrase) {
    std::string verifier;
    if (!passphrase.empty()) {
        auto made = verifierOf(passphrase);
        if (!made) {
            AppendAnswer answer;
            answer.error = made.error();
            return answer;
        }
        verifier = std::move(made).value();
    }
    auto answer = appendDrafts(*m_inside, {draft}, {}, verifier);
    auto& own = m_inside->signedIn;
    if (answer.outcome == Outcome::recorded && !passphrase.empty() && own &&
        own->name == draft.body.value("name", std::string())) {
        own->since = answer.entries.front(); // who changes their own stays signed in
    }
    return answer;
}

} // namespace tarebook
