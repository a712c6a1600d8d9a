#pragma once

#include <QString>
#include <QStringList>

#include <functional>
#include <map>
#include <optional>
#include <vector>

class QWidget;

namespace tarebook {

/// One thing that an errand asks the person.
struct Fact {
    enum class Kind { line, choice, check, secret }; // secret: typed unseen, kept as it is
    QString name;                                    // object name of its field is `fact:NAME`
    QString caption;                                 // with its underlined letter
    QString placeholder;
    Kind kind = Kind::line;
    /// What a choice offers: what is shown and its key, by turns.
    std::vector<std::pair<QString, QString>> choices = {};
    QString value = {}; // to begin with; a check is `yes` or `no`
};
/// By name; of a choice its key, of a check `yes` or `no`. Lines are trimmed.
using Facts = std::map<QString, QString>;

/// What the errand is, what it asks, and how to tell whether it can be entered.
struct FactsAsked {
    QString title;
    QString explanation;
    std::vector<Fact> facts;
    QString yes; // verb on the button
    /// Said below the fields while the person types: what is still wrong; blank when it can be entered.
    std::function<QString(const Facts&)> problem;
};

namespace questions {

/// Asks several things at once; nothing when the person thought better of it. A queued answer is `NAME=VALUE`
/// a line, or a single value for the first fact; the others keep what they begin with.
[[nodiscard]] std::optional<Facts> askFacts(QWidget* parent, const FactsAsked& asked);

} // namespace questions
} // namespace tarebook
