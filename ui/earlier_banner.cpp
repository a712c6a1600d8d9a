// Of the window: that it shows the books as they stood earlier, and the way back.
#include "ui/kit.h"
#include "ui/main_window.h"

#include <QAction>
#include <QBoxLayout>
#include <QLabel>
#include <QPushButton>

namespace tarebook {

QWidget* MainWindow::buildEarlier() {
    m_earlier->setObjectName(QStringLiteral("earlierBanner"));
    m_earlier->setFrameShape(QFrame::StyledPanel);
    m_earlier->setAutoFillBackground(true);
    m_earlier->setBackgroundRole(QPalette::ToolTipBase);
    m_earlier->setForegroundRole(QPalette::ToolTipText);
    auto* row = new QHBoxLayout(m_earlier);
    auto* words = new QLabel(m_earlier);
    words->setObjectName(QStringLiteral("earlierBannerWords"));
    words->setForegroundRole(QPalette::ToolTipText);
    words->setWordWrap(true);
    row->addWidget(words, 1);
    auto* back = new QPushButton(tr("Bac&k to today's books"), m_earlier);
    back->setObjectName(QStringLiteral("earlierBack"));
    connect(back, &QPushButton::clicked, this, &MainWindow::presentAsked);
    row->addWidget(back);
    m_earlier->hide();
    return m_earlier;
}

void MainWindow::showEarlier(Sequence head, Instant recorded) {
    m_earlier->findChild<QLabel*>(QStringLiteral("earlierBannerWords"))
        ->setText(
            tr("The books as they stood when entry %1 was the newest, recorded %2. For reading only; what "
               "the rules say is that day's.")
                .arg(head)
                .arg(qt(m_desk.shop().zone().localText(recorded))));
    m_earlier->show();
    // These are of the shop file, which this is not.
    for (const char* name :
         {"actionImport", "actionCopies", "actionEarlier", "actionSettings", "actionRegister"}) {
        findChild<QAction*>(QLatin1String(name))->setEnabled(false);
    }
}

} // namespace tarebook
