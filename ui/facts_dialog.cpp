#include "ui/facts_dialog.h"

#include "ui/kit.h"
#include "ui/questions.h"
#include "ui/scroll_side.h"
#include "ui/theme.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDialog>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScreen>
#include <QScrollBar>
#include <QVBoxLayout>

namespace tarebook {
namespace {

constexpr int kWidthInLetters = 62;
constexpr int kWideInLetters = 84; // of a long explanation, which would stand high otherwise
constexpr int kLong = 400;         // letters

class FactsDialog : public QDialog {
public:
    FactsDialog(const FactsAsked& asked, QWidget* parent)
        : QDialog(parent), m_asked(asked), m_problem(kit::hint({}, this)) {
        setObjectName(QStringLiteral("factsDialog"));
        setWindowTitle(asked.title);
        auto* column = new QVBoxLayout(this);
        auto* area = new ScrollSide(this);
        auto* explanation = new QLabel(asked.explanation, area->inside());
        explanation->setWordWrap(true);
        const int letters = asked.explanation.size() > kLong ? kWideInLetters : kWidthInLetters;
        explanation->setMinimumWidth(std::min(fontMetrics().averageCharWidth() * letters,
                                              screen()->availableGeometry().width() * 4 / 5));
        explanation->setVisible(!asked.explanation.isEmpty());
        area->column().addWidget(explanation);
        auto* form = new QFormLayout;
        for (const Fact& fact : asked.facts) {
            addFact(*form, fact);
        }
        area->column().addLayout(form);
        area->column().addStretch(1);
        column->addWidget(area, 1);
        m_problem->setObjectName(QStringLiteral("factsProblem"));
        // Room for two lines, so that the buttons do not jump while one types.
        m_problem->setMinimumHeight(fontMetrics().height() * 2);
        m_problem->setAlignment(Qt::AlignTop);
        column->addWidget(m_problem);
        auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
        m_accept = buttons->addButton(asked.yes, QDialogButtonBox::AcceptRole);
        m_accept->setObjectName(QStringLiteral("factsEnter"));
        kit::makePrimary(m_accept);
        connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
        connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
        column->addWidget(buttons);
        kit::roomyLabels(this);
        makeRoom(*area);
        judge();
    }

    [[nodiscard]] Facts facts() const {
        Facts facts;
        for (const Fact& fact : m_asked.facts) {
            const QWidget* field = m_fields.at(fact.name);
            if (const auto* line = qobject_cast<const QLineEdit*>(field)) {
                facts[fact.name] = fact.kind == Fact::Kind::secret ? line->text() : line->text().trimmed();
            } else if (const auto* box = qobject_cast<const QComboBox*>(field)) {
                facts[fact.name] = box->currentData().toString();
            } else if (const auto* check = qobject_cast<const QCheckBox*>(field)) {
                facts[fact.name] = check->isChecked() ? QStringLiteral("yes") : QStringLiteral("no");
            }
        }
        return facts;
    }

private:
    /// All of it is seen at once where the screen has the room; large letters scroll.
    void makeRoom(ScrollSide& area) {
        constexpr double kOfTheScreen = 0.6;
        const QLayout& inside = *area.inside()->layout();
        const int wide = inside.totalSizeHint().width();
        const int high =
            inside.hasHeightForWidth() ? inside.totalHeightForWidth(wide) : inside.totalSizeHint().height();
        area.setMinimumWidth(wide + area.verticalScrollBar()->sizeHint().width());
        area.setMinimumHeight(
            std::min(high, static_cast<int>(screen()->availableGeometry().height() * kOfTheScreen)));
    }

    void addFact(QFormLayout& form, const Fact& fact) {
        QWidget* field = nullptr;
        if (fact.kind == Fact::Kind::line || fact.kind == Fact::Kind::secret) {
            auto* line = new QLineEdit(fact.value, this);
            line->setEchoMode(fact.kind == Fact::Kind::secret ? QLineEdit::Password : QLineEdit::Normal);
            line->setPlaceholderText(fact.placeholder);
            connect(line, &QLineEdit::textChanged, this, &FactsDialog::judge);
            field = line;
        } else if (fact.kind == Fact::Kind::choice) {
            auto* box = new QComboBox(this);
            for (const auto& [shown, key] : fact.choices) {
                box->addItem(shown, key);
            }
            box->setCurrentIndex(std::max(0, box->findData(fact.value)));
            connect(box, &QComboBox::currentIndexChanged, this, &FactsDialog::judge);
            field = box;
        } else {
            auto* check = new QCheckBox(fact.caption, this);
            check->setChecked(fact.value == QStringLiteral("yes"));
            connect(check, &QCheckBox::toggled, this, &FactsDialog::judge);
            field = check;
        }
        field->setObjectName(QStringLiteral("fact:") + fact.name);
        m_fields[fact.name] = field;
        if (fact.kind == Fact::Kind::check) {
            form.addRow(QString(), field);
            return;
        }
        auto* label = new QLabel(fact.caption, this);
        label->setBuddy(field);
        form.addRow(label, field);
    }

    void judge() {
        // Called while the fields are still being made, too.
        if (m_fields.size() != m_asked.facts.size() || m_accept == nullptr) {
            return;
        }
        const QString problem = m_asked.problem ? m_asked.problem(facts()) : QString();
        m_problem->setText(problem);
        m_accept->setEnabled(problem.isEmpty());
    }

    const FactsAsked& m_asked;
    std::map<QString, QWidget*> m_fields;
    QLabel* m_problem;
    QPushButton* m_accept = nullptr;
};

/// What a test queued, laid over what the facts begin with.
Facts queuedFacts(const FactsAsked& asked, const QString& answer) {
    Facts facts;
    for (const Fact& fact : asked.facts) {
        facts[fact.name] = fact.kind == Fact::Kind::choice && fact.value.isEmpty() && !fact.choices.empty()
                               ? fact.choices.front().second
                               : fact.value;
    }
    for (const QString& line : answer.split(QLatin1Char('\n'), Qt::SkipEmptyParts)) {
        const auto equals = line.indexOf(QLatin1Char('='));
        if (equals < 0) {
            facts[asked.facts.front().name] = line;
        } else {
            facts[line.left(equals)] = line.mid(equals + 1);
        }
    }
    return facts;
}

} // namespace

namespace questions {

std::optional<Facts> askFacts(QWidget* parent, const FactsAsked& asked) {
    if (const auto queued = takeQueued(asked.explanation)) {
        return *queued ? std::optional<Facts>(queuedFacts(asked, **queued)) : std::nullopt;
    }
    FactsDialog dialog(asked, parent);
    if (dialog.exec() != QDialog::Accepted) {
        return std::nullopt;
    }
    return dialog.facts();
}

} // namespace questions
} // namespace tarebook
