#include "ui/register_dialog.h"

#include "core/base/text.h"
#include "core/ledger/exchange_terms.h"
#include "core/shop/usual_tare.h"
#include "ui/desk.h"
#include "ui/finding_view.h"
#include "ui/kit.h"
#include "ui/questions.h"
#include "ui/register_contents.h"
#include "ui/scroll_side.h"
#include "ui/tare_question.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScreen>
#include <QStyle>
#include <QTabWidget>

#include <algorithm>

namespace tarebook {

RegisterDialog::RegisterDialog(Desk& desk, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_pages(new QTabWidget(this)), m_hint(kit::hint({}, this)),
      m_judge([&desk](const NewCylinder& cylinder) {
          const Review reviewed = review(desk.shop(), cylinder);
          return Judged{reviewed.findings, !reviewed.refused()};
      }),
      m_enter([this](const NewCylinder& cylinder) { return registerIt(cylinder); }), m_unread(),
      m_sensor(new QCheckBox(tr("has an o&verfill sensor"), this)),
      m_evacuated(new QCheckBox(tr("is a &clean, evacuated empty"), this)),
      m_burnOut(new QCheckBox(tr("kept for gas from &burn-outs"), this)),
      m_clean(new QCheckBox(tr("kept for clean &gas only, coated outside"), this)),
      m_flammable(new QComboBox(this)), m_owner(new QComboBox(this)),
      m_contents(new RegisterContents(desk, this)), m_inside(kit::hint({}, this)),
      m_findings(new FindingView(desk, this)) {
    setObjectName(QStringLiteral("registerDialog"));
    setWindowTitle(tr("Register a cylinder"));
    auto* column = new QVBoxLayout(this);
    m_pages->setObjectName(QStringLiteral("registerPages"));
    m_pages->setAccessibleName(tr("Marks and contents"));
    auto* marks = new ScrollSide(this); // for a screen that is lower than all the marks
    QVBoxLayout* markColumn = &marks->column();
    const int margin = fontMetrics().height() / 3;
    markColumn->setContentsMargins(margin, margin, margin, 0);
    m_hint->setText(tr("Read the marks on the collar and type them as they are stamped."));
    markColumn->addWidget(m_hint);
    auto* form = new QFormLayout;
    addField(*form, "serial", tr("&Serial"), tr("as stamped"));
    addField(*form, "specification", tr("S&pecification"), tr("DOT-4BA400, TC-4BAM28 …"));
    addField(*form, "capacity", tr("&Water capacity"), tr("47.7 lb, 21.6 l"));
    addField(*form, "tare", tr("&Tare"), tr("27.0 lb"));
    addField(*form, "made", tr("&Made"), tr("2021-03, 3/21"));
    addField(*form, "tested", tr("&Last test"), tr("blank when there was none"));
    addField(*form, "suffix", tr("Mark be&hind it"), tr("E, S, star … or blank"));
    addField(*form, "method", tr("Test m&ethod"), tr("volumetric, proof, visual …"));
    addField(*form, "requalifier", tr("Re&qualifier's number"), {});
    addField(*form, "life", tr("Serv&ice life to"), tr("month, where it is limited; or blank"));
    m_owner->setObjectName(QStringLiteral("registerOwnerKind"));
    m_owner->addItem(tr("the shop's own"), QStringLiteral("own"));
    m_owner->addItem(tr("rented from"), QStringLiteral("rented"));
    m_owner->addItem(tr("a customer's"), QStringLiteral("customer"));
    m_owner->addItem(tr("a reclaimer's"), QStringLiteral("reclaimer"));
    form->addRow(tr("&Owner"), m_owner);
    addField(*form, "owner", tr("Owner's &name"), tr("blank for the shop's own"));
    addField(*form, "refrigerant", tr("&Kept for"), tr("R-410A; mixed for mixed only; or blank"));
    addField(*form, "place", tr("Pl&ace"), tr("rack, van …"));
    m_flammable->setObjectName(QStringLiteral("registerFlammable"));
    m_flammable->addItem(tr("nothing on record"), QString());
    m_flammable->addItem(tr("yes"), QStringLiteral("yes"));
    m_flammable->addItem(tr("no"), QStringLiteral("no"));
    form->addRow(tr("Rated for &flammable gas"), m_flammable);
    form->addRow(QString(), m_burnOut);
    form->addRow(QString(), m_clean);
    form->addRow(QString(), m_sensor);
    form->addRow(QString(), m_evacuated);
    m_burnOut->setObjectName(QStringLiteral("registerBurnOut"));
    m_clean->setObjectName(QStringLiteral("registerClean"));
    m_clean->setToolTip(
        tr("New or reclaimed gas, noncorrosive and free of corroding components: only then a longer "
           "interval counts. One use for recovery ends it."));
    m_sensor->setObjectName(QStringLiteral("registerSensor"));
    m_evacuated->setObjectName(QStringLiteral("registerEvacuated"));
    markColumn->addLayout(form);
    markColumn->addStretch(1);
    m_pages->addTab(marks, tr("Ma&rks"));
    m_pages->addTab(m_contents, tr("What is insi&de"));
    column->addWidget(m_pages, 1);
    m_inside->setObjectName(QStringLiteral("registerInside"));
    column->addWidget(m_inside);
    column->addWidget(m_findings);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel, this);
    m_record = buttons->addButton(tr("Register"), QDialogButtonBox::ActionRole);
    m_record->setObjectName(QStringLiteral("registerRecord"));
    kit::makePrimary(m_record);
    column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_record, &QPushButton::clicked, this, &RegisterDialog::record);
    connect(m_contents, &RegisterContents::edited, this, &RegisterDialog::follow);
    for (QComboBox* box : {m_owner, m_flammable}) {
        connect(box, &QComboBox::currentIndexChanged, this, &RegisterDialog::follow);
    }
    for (QCheckBox* box : {m_sensor, m_evacuated, m_burnOut, m_clean}) {
        connect(box, &QCheckBox::toggled, this, &RegisterDialog::follow);
    }
    // As the form reads, not as its parts were made.
    QWidget* before = m_fields.at("serial").line;
    for (const char* name :
         {"specification", "capacity", "tare", "made", "tested", "suffix", "method", "requalifier", "life"}) {
        setTabOrder(before, m_fields.at(name).line);
        before = m_fields.at(name).line;
    }
    for (QWidget* next : std::initializer_list<QWidget*>{
             m_owner, m_fields.at("owner").line, m_fields.at("refrigerant").line, m_fields.at("place").line,
             m_flammable, m_burnOut, m_clean, m_sensor, m_evacuated}) {
        setTabOrder(before, next);
        before = next;
    }
    setTabOrder(m_contents->lastField(), m_record);
    m_fields.at("serial").line->setFocus();
    kit::roomyLabels(this);
    const int bar = style()->pixelMetric(QStyle::PM_ScrollBarExtent);
    marks->setMinimumWidth(marks->inside()->minimumSizeHint().width() + bar);
    const int told = 2 * fontMetrics().height(); // what appears below the fields while one types
    const int wanted =
        sizeHint().height() - marks->sizeHint().height() + marks->inside()->sizeHint().height() + told;
    resize(fontMetrics().height() * 36, std::min(wanted, screen()->availableGeometry().height()));
    follow();
}

void RegisterDialog::addField(QFormLayout& form, const char* name, const QString& caption,
                              const QString& placeholder) {
    const ReadField field = ReadField::in(form, this, QStringLiteral("register"), name, caption, placeholder);
    connect(field.line, &QLineEdit::textChanged, this, &RegisterDialog::follow);
    m_fields[name] = field;
}

std::string RegisterDialog::text(const char* name) const {
    return m_fields.at(name).text();
}

bool RegisterDialog::tell(const char* name, const std::string& understood, const Error* error) {
    // A blank field is not told off, but for the owner's name, which the choice above it asks for.
    const bool evenBlank = error != nullptr && std::string_view(name) == "owner";
    m_fields.at(name).tell(understood, error, evenBlank);
    return error == nullptr;
}

std::optional<NewCylinder> RegisterDialog::readAll() {
    NewCylinder cylinder;
    Nameplate& plate = cylinder.plate;
    const Display display = m_desk.shop().display();
    bool good = true;
    const auto take = [&](const char* name, const auto& result, auto understood, auto use) {
        if (result) {
            use(result.value());
            tell(name, understood(result.value()), nullptr);
        } else {
            good = tell(name, {}, &result.error()) && good;
        }
    };
    plate.serial = text("serial");
    take(
        "specification", Specification::parse(text("specification")),
        [](const Specification& mark) { return mark.text(); },
        [&](const Specification& mark) { plate.specification = mark; });
    take(
        "capacity", WaterCapacity::parse(text("capacity")),
        [&](WaterCapacity capacity) { return display.mass(capacity.water()) + " of water"; },
        [&](WaterCapacity capacity) { plate.waterCapacity = capacity; });
    take(
        "tare", display.readMass(text("tare")), [&](Mass tare) { return display.mass(tare); },
        [&](Mass tare) { plate.tare = tare; });
    take(
        "made", MonthYear::parse(text("made")), [](MonthYear month) { return month.text(); },
        [&](MonthYear month) { plate.manufactured = month; });
    if (!text("tested").empty()) {
        take(
            "tested", MonthYear::parse(text("tested")), [](MonthYear month) { return month.text(); },
            [&](MonthYear month) { plate.lastTest = month; });
    }
    if (!text("life").empty()) {
        take(
            "life", MonthYear::parse(text("life")), [](MonthYear month) { return month.text(); },
            [&](MonthYear month) { plate.serviceUntil = month; });
    }
    plate.markSuffix = text("suffix");
    plate.testMethod = text("method");
    plate.requalifier = text("requalifier");
    const std::string kind = utf8(m_owner->currentData().toString());
    take(
        "owner", Owner::parse(kind == "own" ? kind : kind + ": " + text("owner")),
        [](const Owner&) { return std::string(); }, [&](const Owner& owner) { plate.owner = owner; });
    const std::string refrigerant = text("refrigerant");
    if (lowered(refrigerant) == "mixed" || refrigerant.empty()) {
        plate.refrigerant = lowered(refrigerant);
        tell("refrigerant", plate.refrigerant, nullptr);
    } else {
        take(
            "refrigerant", m_desk.shop().catalogue().designation(refrigerant),
            [](const std::string& designation) { return designation; },
            [&](const std::string& designation) { plate.refrigerant = designation; });
    }
    if (const QString rated = m_flammable->currentData().toString(); !rated.isEmpty()) {
        plate.flammableRated = rated == QStringLiteral("yes");
    }
    plate.burnOut = m_burnOut->isChecked();
    plate.cleanService = m_clean->isChecked();
    plate.overfillSensor = m_sensor->isChecked();
    cylinder.evacuated = m_evacuated->isChecked();
    cylinder.place = text("place");
    const auto tare = display.readMass(text("tare"));
    const bool inside = m_contents->readInto(cylinder, tare ? std::optional(tare.value()) : std::nullopt);
    m_inside->setText(
        !inside ? tr("What is inside is not right yet: see the page beside the marks.")
        : cylinder.content.milligrams() > 0
            ? tr("It holds %1 of %2.").arg(qt(display.mass(cylinder.content)), qt(cylinder.refrigerant))
            : QString());
    good = inside && good;
    return good && !plate.serial.empty() ? std::optional<NewCylinder>(cylinder) : std::nullopt;
}

void RegisterDialog::follow() {
    m_fields.at("owner").line->setEnabled(m_owner->currentIndex() != 0);
    const auto cylinder = readAll();
    if (!cylinder) {
        if (m_unread) {
            m_unread();
        }
        m_findings->setFindings({});
        m_record->setEnabled(false);
        return;
    }
    const Judged judged = m_judge(*cylinder);
    m_findings->setFindings(judged.findings);
    m_record->setEnabled(judged.possible);
}

void RegisterDialog::become(const Task& task) {
    setWindowTitle(task.title);
    m_record->setText(task.button);
    m_hint->setText(task.hint);
    m_judge = task.judge;
    m_enter = task.enter;
    m_unread = task.unread;
    m_evacuated->hide(); // it is, where nothing is bought in it
    m_contents->takeOnlyBought();
    m_owner->setCurrentIndex(m_owner->findData(qt(std::string(ownerKindWord(task.owner.kind)))));
    m_fields.at("owner").line->setText(qt(task.owner.name));
    setTabOrder(m_contents->lastField(), m_record);
    follow();
}

void RegisterDialog::addPage(QWidget* page, const QString& caption) {
    m_pages->addTab(page, caption);
}

void RegisterDialog::record() {
    const auto cylinder = readAll();
    if (!cylinder || !tareConfirmed(this, tareQuestion(m_desk.shop(), cylinder->plate))) {
        return;
    }
    if (m_enter(*cylinder)) {
        accept();
    }
}

bool RegisterDialog::registerIt(const NewCylinder& cylinder) {
    const Recorded recorded = registerCylinder(m_desk.shop(), cylinder);
    m_desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        questions::tell(this, tr("Not registered"), kit::told(recorded, tr("Not registered")));
        return false;
    }
    m_desk.say(tr("%1 is registered").arg(qt(cylinder.plate.serial)));
    emit m_desk.showCylinder(qt(cylinder.plate.serial));
    return true;
}

} // namespace tarebook
