#include "ui/rule_says_dialog.h"

#include "ui/finding_view.h"

#include <QBoxLayout>
#include <QDialogButtonBox>
#include <QScreen>
#include <QScrollArea>

namespace tarebook {

RuleSaysDialog::RuleSaysDialog(Desk& desk, const QString& title, const std::vector<Finding>& findings,
                               QWidget* parent)
    : QDialog(parent) {
    setObjectName(QStringLiteral("ruleSaysDialog"));
    setWindowTitle(title);
    auto* view = new FindingView(desk, this);
    view->setObjectName(QStringLiteral("ruleSaysFindings"));
    view->setEmptyText(tr("The rules say nothing of it."));
    view->setFindings(findings);
    auto* area = new QScrollArea(this);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setAccessibleName(tr("What the rules say"));
    area->setWidget(view);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* column = new QVBoxLayout(this);
    column->addWidget(area, 1);
    column->addWidget(buttons);
    const int line = fontMetrics().height();
    resize(QSize(line * 40, line * 26).boundedTo(screen()->availableSize()));
}

} // namespace tarebook
