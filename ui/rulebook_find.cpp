#include "core/rules/rule_names.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/rulebook_window.h"

#include <QComboBox>
#include <QLineEdit>
#include <QListWidget>
#include <QTableWidget>

namespace tarebook {

bool RulebookWindow::choose(const std::function<bool(const RuleRow&)>& meant) {
    for (int place = 0; m_book && place < m_tables->count(); ++place) {
        const RuleTable* table = m_book->table(utf8(m_tables->item(place)->data(Qt::UserRole).toString()));
        for (std::size_t row = 0; table != nullptr && row < table->rows.size(); ++row) {
            if (meant(table->rows[row])) {
                m_find->clear(); // a row that is filtered away could not be seen
                m_tables->setCurrentRow(place);
                m_rows->setCurrentCell(static_cast<int>(row), 0);
                return true;
            }
        }
    }
    return false;
}

bool RulebookWindow::showRule(const QString& rule) {
    const auto found = m_book ? ruleMeaning(m_desk.shop().environment().resourceFolder, *m_book, utf8(rule))
                              : Result<std::optional<RuleMeaning>>(Error{});
    if (!found || !found.value()) {
        return false;
    }
    const RuleMeaning& meaning = *found.value();
    if (!meaning.rows.empty()) {
        const RowPlace& first = meaning.rows.front();
        (void)choose([&](const RuleRow& row) { return &row == &first.table->rows[first.row]; });
    } else {
        m_rows->setCurrentCell(-1, -1); // no row of a table is meant
        showRow();
        m_rowTitle->setText(rule);
    }
    if (!meaning.says.empty()) {
        m_rowText->setText(tr("<p><b>%1</b><br>%2<br>%3</p>")
                               .arg(qt(meaning.says).toHtmlEscaped(),
                                    tr("Rests on: %1").arg(qt(meaning.restsOn)).toHtmlEscaped(),
                                    tr("Read on: %1").arg(qt(meaning.place)).toHtmlEscaped()) +
                           m_rowText->text());
    }
    return true;
}

bool RulebookWindow::showFinding(const Finding& finding) {
    const int which = m_which->findData(qt(finding.edition.substr(0, finding.edition.find(' '))));
    m_which->setCurrentIndex(which < 0 ? m_which->currentIndex() : which);
    return choose([&](const RuleRow& row) { return row.place == finding.row; }) ||
           showRule(qt(finding.rule)) ||
           choose([&](const RuleRow& row) { return row.section == finding.citation; });
}

void RulebookWindow::openAt(Desk& desk, QWidget& beside, const Finding& finding) {
    auto* window = beside.findChild<RulebookWindow*>();
    if (window == nullptr) {
        window = new RulebookWindow(desk, &beside);
        window->setAttribute(Qt::WA_DeleteOnClose);
    }
    window->show();
    window->raise();
    window->activateWindow();
    (void)window->showFinding(finding);
    window->m_rows->setFocus();
}

} // namespace tarebook
