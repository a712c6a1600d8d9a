// Of the program: the books as they stood earlier, and back.
#include "core/shop/earlier.h"
#include "ui/earlier_dialog.h"
#include "ui/kit.h"
#include "ui/program.h"
#include "ui/questions.h"

#include <QProgressDialog>

namespace tarebook {

void Program::askEarlier() {
    Sequence head = 0;
    {
        // A child of the window that goes: it has to be gone by then.
        EarlierDialog dialog(*m_shop, m_window);
        head = dialog.exec() == QDialog::Accepted ? dialog.head() : 0;
    }
    if (head > 0) {
        (void)openEarlier(head);
    }
}

bool Program::openEarlier(Sequence head) {
    const QString present = qt(m_shop->store().path());
    auto made = [&] {
        QProgressDialog progress(tr("Making the books as they stood…"), tr("Cancel"), 0, 0, m_window);
        progress.setWindowModality(Qt::ApplicationModal);
        progress.setMinimumDuration(300);
        return EarlierBooks::make(*m_shop, head, nullptr, [&](std::int64_t done, std::int64_t total) {
            progress.setMaximum(static_cast<int>(total));
            progress.setValue(static_cast<int>(done));
            return !progress.wasCanceled();
        });
    }();
    if (!made) {
        questions::tell(m_window, tr("Not shown"), qt(made.error().text()));
        return false;
    }
    std::unique_ptr<EarlierBooks> books = std::move(made).value();
    if (!letIn(books->shop(), m_window)) {
        return false;
    }
    adopt(books->take());
    m_earlier = std::move(books);
    m_window->showEarlier(head, m_earlier->recorded());
    connect(
        m_window, &MainWindow::presentAsked, this, [this, present] { (void)openShop(present, m_window); },
        Qt::QueuedConnection);
    return true;
}

} // namespace tarebook
