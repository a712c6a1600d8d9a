#include "ui/scroll_side.h"

#include <QVBoxLayout>

namespace tarebook {

ScrollSide::ScrollSide(QWidget* parent)
    : QScrollArea(parent), m_inside(new QWidget(this)), m_column(new QVBoxLayout(m_inside)) {
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::NoFocus); // what is inside scrolls into view when it gets the focus
    m_column->setContentsMargins(0, 0, fontMetrics().height() / 2, 0);
    setWidget(m_inside);
}

} // namespace tarebook
