#include "ui/register_contents.h"

#include "core/base/written_date.h"
#include "core/shop/moments.h"
#include "core/shop/names.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/mass_edit.h"

#include <fmt/format.h>

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace tarebook {

RegisterContents::RegisterContents(Desk& desk, QWidget* parent)
    : QWidget(parent), m_desk(desk),
      m_gross(new MassEdit(desk, QStringLiteral("registerGross"), tr("Gross weight"), this)),
      m_state(new QComboBox(this)), m_form(new QFormLayout) {
    setObjectName(QStringLiteral("registerContents"));
    auto* column = new QVBoxLayout(this);
    column->addWidget(kit::hint(tr("For a cylinder that comes with something in it: weigh it, or type what a "
                                   "paper says that it holds. Leave it all blank for an empty one."),
                                this));
    m_gross->offerScale();
    m_form->addRow(tr("&Gross on the scale"), m_gross);
    addField(*m_form, "holds", tr("or it &holds"), tr("20.0 lb, where it cannot be weighed"));
    addField(*m_form, "gas", tr("&What it is"), tr("R-22; unknown when in doubt"));
    m_state->setObjectName(QStringLiteral("registerGasState"));
    m_state->addItem(tr("recovered"), QStringLiteral("recovered"));
    m_state->addItem(tr("new, never used"), QStringLiteral("new"));
    m_form->addRow(tr("&Used or new"), m_state);
    addField(*m_form, "gasOwner", tr("Whose gas it &is"), tr("blank for the shop's own"));
    addField(*m_form, "filled", tr("&Last filled on"), tr("day, where it is known"));
    column->addLayout(m_form);
    column->addStretch(1);
    connect(m_gross, &MassEdit::edited, this, &RegisterContents::edited);
    connect(m_state, &QComboBox::currentIndexChanged, this, &RegisterContents::edited);
    kit::roomyLabels(this);
}

void RegisterContents::addField(QFormLayout& form, const char* name, const QString& caption,
                                const QString& placeholder) {
    m_fields[name] = ReadField::in(form, this, QStringLiteral("register"), name, caption, placeholder);
    connect(m_fields[name].line, &QLineEdit::textChanged, this, &RegisterContents::edited);
}

bool RegisterContents::allBlank() const {
    return m_gross->blank() && text("holds").empty() && text("gas").empty() && text("gasOwner").empty() &&
           text("filled").empty();
}

Result<Mass> RegisterContents::massInside(std::optional<Mass> tare) const {
    const Display display = m_desk.shop().display();
    const std::string typed = text("holds");
    if (!typed.empty() && !m_gross->blank()) {
        return Error{"the gross says what it holds", "leave one of them blank"};
    }
    if (!typed.empty()) {
        auto mass = display.readMass(typed);
        if (mass && mass.value() <= Mass()) {
            return Error{"it holds nothing", "leave all of this blank for an empty one"};
        }
        return mass;
    }
    if (!m_gross->mass()) {
        return Error{"how much it holds is missing", "weigh it, or type what a paper says"};
    }
    if (!tare) {
        return Error{"its tare is missing", "type the tare among the marks"};
    }
    if (*m_gross->mass() <= *tare) {
        return Error{fmt::format("the gross is not above the tare, {}", display.mass(*tare)),
                     "weigh it again, or leave all of this blank for an empty one"};
    }
    return Mass::fromMilligrams(m_gross->mass()->milligrams() - tare->milligrams());
}

bool RegisterContents::readGas(NewCylinder& cylinder) {
    const ReadField& field = m_fields.at("gas");
    const std::string typed = field.text();
    const auto known =
        typed.empty()
            ? Result<std::string>(Error{"what is inside is missing", "as R-22; unknown when in doubt"})
            : designationOf(m_desk.shop(), typed);
    field.tell(known ? known.value() : "", known ? nullptr : &known.error(), true);
    if (known) {
        cylinder.refrigerant = known.value();
    }
    return known.ok();
}

bool RegisterContents::readFilled(NewCylinder& cylinder) {
    const ReadField& field = m_fields.at("filled");
    if (field.text().empty()) {
        field.tell("", nullptr);
        return true;
    }
    auto day = readDate(field.text(), dateOrderOf(m_desk.shop().settings()));
    if (day && day.value() > m_desk.shop().today()) {
        day = Error{"that day is yet to come", "the day on which anything was last put in"};
    }
    field.tell(day ? day.value().text() : "", day ? nullptr : &day.error());
    if (day) {
        cylinder.filled = day.value();
    }
    return day.ok();
}

bool RegisterContents::readInto(NewCylinder& cylinder, std::optional<Mass> tare) {
    if (allBlank()) {
        for (const auto& [name, field] : m_fields) {
            field.tell("", nullptr);
        }
        return true;
    }
    const auto mass = massInside(tare);
    const std::string inside = mass ? m_desk.shop().display().mass(mass.value()) + " inside" : "";
    const Error emptied{"it holds gas: it is no clean, evacuated empty", "take that back among the marks"};
    const Error* wrong = !mass ? &mass.error() : cylinder.evacuated ? &emptied : nullptr;
    m_fields.at("holds").tell(inside, wrong, true);
    m_fields.at("gasOwner").tell("", nullptr);
    const bool gas = readGas(cylinder);
    const bool filled = readFilled(cylinder);
    if (mass) {
        cylinder.content = mass.value();
    }
    cylinder.contentOwner = text("gasOwner");
    const QString state = m_state->currentData().toString();
    cylinder.contentState = state == QStringLiteral("new")         ? GasState::unused
                            : state == QStringLiteral("reclaimed") ? GasState::reclaimed
                                                                   : GasState::recovered;
    return wrong == nullptr && gas && filled;
}

QWidget* RegisterContents::lastField() const {
    return m_form->isRowVisible(m_form->rowCount() - 1) ? m_fields.at("filled").line
                                                        : m_fields.at("gasOwner").line;
}

void RegisterContents::takeOnlyBought() {
    m_form->setRowVisible(m_form->rowCount() - 1, false); // when it was filled they know
    const QSignalBlocker once(m_state);
    m_state->clear();
    m_state->addItem(tr("new, never used"), QStringLiteral("new"));
    m_state->addItem(tr("reclaimed"), QStringLiteral("reclaimed"));
    m_form->labelForField(m_state)->setProperty("text", tr("&New or reclaimed"));
}

} // namespace tarebook
