#include "ui/evidence_dialog.h"

#include "core/papers/zip_file.h"
#include "ui/books_of.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/pickers.h"
#include "ui/qt_paper_printer.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QComboBox>
#include <QDateEdit>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QProgressDialog>
#include <QPushButton>

#include <algorithm>
#include <utility>

namespace tarebook {
namespace {

constexpr int kLettersOfAPath = 52; // as wide as the field at the least

enum About { everything, oneCustomer, oneCylinder };

Date dayIn(const QDateEdit& edit) {
    return Date::fromDayNumber(static_cast<int>(QDate(1970, 1, 1).daysTo(edit.date())));
}

} // namespace

EvidenceDialog::EvidenceDialog(Desk& desk, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_about(new QComboBox(this)),
      m_customer(searchBox(QStringLiteral("evidenceCustomer"), tr("Customer"), this)),
      m_cylinder(new QLineEdit(this)), m_from(new QDateEdit(this)), m_to(new QDateEdit(this)),
      m_books(new BooksOf(m_desk.shop(), this)),
      m_withoutOthers(new QCheckBox(tr("Leave out the entries of &others"), this)),
      m_folder(new QLineEdit(this)), m_zip(new QCheckBox(tr("As one &file (zip)"), this)),
      m_words(kit::hint({}, this)) {
    setObjectName(QStringLiteral("evidenceDialog"));
    setWindowTitle(tr("Evidence to hand over"));
    m_about->setObjectName(QStringLiteral("evidenceAbout"));
    m_about->addItems({tr("All refrigerant"), tr("One customer"), tr("One cylinder")});
    m_cylinder->setObjectName(QStringLiteral("evidenceCylinder"));
    m_cylinder->setPlaceholderText(tr("serial of the cylinder"));
    m_from->setObjectName(QStringLiteral("evidenceFrom"));
    m_to->setObjectName(QStringLiteral("evidenceTo"));
    for (QDateEdit* edit : {m_from, m_to}) {
        edit->setDisplayFormat(QStringLiteral("yyyy-MM-dd"));
        edit->setCalendarPopup(true);
    }
    m_withoutOthers->setObjectName(QStringLiteral("evidenceWithoutOthers"));
    m_withoutOthers->setToolTip(tr("Only the digests of the chain go along then: its place in the whole "
                                   "journal is no longer proved by the folder alone"));
    m_folder->setObjectName(QStringLiteral("evidenceFolder"));
    m_folder->setPlaceholderText(tr("a new folder, or NAME.zip"));
    m_zip->setObjectName(QStringLiteral("evidenceZip"));
    m_zip->setToolTip(tr("It unpacks to the same folder, with what checks it"));
    m_words->setObjectName(QStringLiteral("evidenceWords"));
    fillCustomers(*m_customer, m_desk);

    auto* column = new QVBoxLayout(this);
    column->setSpacing(fontMetrics().height() / 2);
    column->addWidget(kit::hint(
        tr("A folder, or a zip of it, with a report, tables, the entries behind them, and what proves "
           "their place in the journal: whoever gets it checks it without this "
           "program. Nothing is written to the books."),
        this));
    auto* form = new QFormLayout;
    form->addRow(tr("&About"), m_about);
    form->addRow(tr("&Customer"), m_customer);
    form->addRow(tr("C&ylinder"), m_cylinder);
    form->addRow(tr("F&irst day"), m_from);
    form->addRow(tr("&Last day"), m_to);
    auto* books = new QLabel(tr("&Books of"), this);
    books->setBuddy(m_books);
    form->addRow(books, m_books);
    column->addLayout(form);
    // A path is long: its row is as wide as the dialog.
    m_folder->setMinimumWidth(fontMetrics().averageCharWidth() * kLettersOfAPath);
    auto* place = new QHBoxLayout;
    auto* browse = new QPushButton(tr("Choo&se…"), this);
    browse->setObjectName(QStringLiteral("evidenceBrowse"));
    place->addWidget(m_folder, 1);
    place->addWidget(browse);
    auto* placeLabel = new QLabel(tr("Goes &to"), this);
    placeLabel->setBuddy(m_folder);
    column->addWidget(placeLabel);
    column->addLayout(place);
    column->addWidget(m_zip);
    column->addWidget(m_withoutOthers);
    column->addWidget(m_words);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    auto* makes = buttons->addButton(tr("&Make it"), QDialogButtonBox::ActionRole);
    makes->setObjectName(QStringLiteral("evidenceMake"));
    kit::makePrimary(makes);
    column->addWidget(buttons);
    connect(m_about, &QComboBox::currentIndexChanged, this, &EvidenceDialog::follow);
    connect(browse, &QPushButton::clicked, this, &EvidenceDialog::choosePlace);
    connect(m_folder, &QLineEdit::textChanged, this, &EvidenceDialog::followName);
    connect(m_zip, &QCheckBox::clicked, this, &EvidenceDialog::followZip);
    // What happened later is not in those books.
    connect(m_books, &BooksOf::changed, this,
            [this] { m_to->setDate(std::min(m_to->date(), m_books->day())); });
    connect(makes, &QPushButton::clicked, this, &EvidenceDialog::make);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    const QDate today = QDate(1970, 1, 1).addDays(m_desk.shop().today().dayNumber());
    setPeriod(QDate(today.year(), 1, 1), today);
    follow();
    kit::roomyLabels(this);
    const int wide = fontMetrics().averageCharWidth() * 70;
    // Room for two lines of what is wrong, and no row squeezed below its type.
    setMinimumSize(wide, column->heightForWidth(wide) + 2 * fontMetrics().height());
}

void EvidenceDialog::setPeriod(const QDate& from, const QDate& to) {
    m_from->setDate(from);
    m_to->setDate(to);
}

QString EvidenceDialog::target() const {
    return m_folder->text().trimmed();
}

void EvidenceDialog::follow() {
    m_customer->setEnabled(m_about->currentIndex() == oneCustomer);
    m_cylinder->setEnabled(m_about->currentIndex() == oneCylinder);
    m_withoutOthers->setEnabled(m_about->currentIndex() != everything);
}

void EvidenceDialog::choosePlace() {
    const QString path = m_zip->isChecked()
                             ? QFileDialog::getSaveFileName(this, tr("A new zip"),
                                                            QStringLiteral("evidence.zip"), tr("Zip (*.zip)"))
                             : QFileDialog::getExistingDirectory(this, tr("An empty folder"));
    if (!path.isEmpty()) {
        m_folder->setText(path);
        followZip();
    }
}

void EvidenceDialog::followName() {
    if (namesZip(utf8(target()))) {
        m_zip->setChecked(true);
    }
}

void EvidenceDialog::followZip() {
    const QString ending = QStringLiteral(".zip");
    const bool wanted = m_zip->isChecked();
    QString name = target();
    if (name.isEmpty() || namesZip(utf8(name)) == wanted) {
        return;
    }
    if (wanted) {
        name += ending;
    } else {
        name.chop(ending.size());
    }
    m_folder->setText(name);
}

Result<EvidencePack> EvidenceDialog::packed() {
    EvidenceQuestion question{dayIn(*m_from), dayIn(*m_to)};
    if (m_about->currentIndex() == oneCustomer) {
        question.customer = utf8(chosenIn(*m_customer));
    } else if (m_about->currentIndex() == oneCylinder) {
        question.serial = utf8(m_cylinder->text().trimmed());
    }
    if (m_about->currentIndex() != everything && question.customer.empty() && question.serial.empty()) {
        return Error{utf8(tr("Nobody and nothing is named")), utf8(tr("name the customer or the cylinder"))};
    }
    const Sequence head = m_books->head();
    if (head == 0) {
        return Error{utf8(tr("Nothing was recorded by then")), utf8(tr("choose the books of a later day"))};
    }
    QProgressDialog progress(tr("Making the books as they stood…"), tr("Cancel"), 0, 0, this);
    progress.setObjectName(QStringLiteral("evidenceProgress"));
    progress.setWindowModality(Qt::WindowModal);
    progress.setMinimumDuration(500);
    return evidencePack(m_desk.shop(), question, head,
                        m_withoutOthers->isEnabled() && m_withoutOthers->isChecked(),
                        [&progress](std::int64_t done, std::int64_t total) {
                            progress.setMaximum(static_cast<int>(total));
                            progress.setValue(static_cast<int>(done));
                            return !progress.wasCanceled();
                        });
}

void EvidenceDialog::make() {
    if (target().isEmpty()) {
        m_words->setText(tr("No place is named; name a new folder, one with nothing in it, or a new zip."));
        m_folder->setFocus();
        return;
    }
    followZip(); // the box may have been ticked before there was a name
    const bool zip = m_zip->isChecked();
    auto pack = packed();
    if (!pack) {
        m_words->setText(qt(pack.error().text()));
        return;
    }
    EvidencePack whole = std::move(pack).value();
    addReport(whole, QtPaperPrinter());
    const auto written = zip ? writeEvidenceZip(m_desk.shop(), whole, utf8(target()))
                             : writeEvidence(m_desk.shop(), whole, utf8(target()));
    if (!written) {
        m_words->setText(qt(written.error().text()));
        return;
    }
    accept();
}

} // namespace tarebook
