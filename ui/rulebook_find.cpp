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
    return choose([name = utf8(rule)](const RuleRow& row) { return row.cell("rule") == name; });
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
