#include "ui/names_dialog.h"

#include "core/shop/register.h"
#include "ui/desk.h"
#include "ui/kit.h"
#include "ui/questions.h"

#include <QBoxLayout>
#include <QDialogButtonBox>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>

namespace tarebook {

NamesDialog::NamesDialog(Desk& desk, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_tabs(new QTabWidget(this)) {
    setObjectName(QStringLiteral("namesDialog"));
    setWindowTitle(tr("People, systems, parties"));
    m_people =
        addList(tr("&People"), "namesPeople", {tr("Name"), tr("Role"), tr("Certificate"), tr("Until")});
    m_systems =
        addList(tr("&Systems"), "namesSystems",
                {tr("Site/Tag"), tr("Customer"), tr("Refrigerant"), tr("Full charge"), tr("Equipment")});
    m_suppliers = addList(tr("S&uppliers"), "namesSuppliers", {tr("Name"), tr("Address"), tr("Number")});
    m_reclaimers = addList(tr("&Reclaimers"), "namesReclaimers", {tr("Name"), tr("Address"), tr("Number")});
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    auto* enter = buttons->addButton(tr("Enter the last line"), QDialogButtonBox::ActionRole);
    enter->setObjectName(QStringLiteral("namesEnter"));
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(enter, &QPushButton::clicked, this, &NamesDialog::add);
    auto* column = new QVBoxLayout(this);
    column->addWidget(
        kit::hint(tr("Type into the last line and enter it; a name that is there already is changed. Nothing "
                     "is deleted: who has left stays in the books."),
                  this));
    column->addWidget(m_tabs, 1);
    column->addWidget(buttons);
    const int line = fontMetrics().height();
    resize(line * 52, line * 28);
    refresh();
}

QTableWidget* NamesDialog::addList(const QString& title, const char* name, const QStringList& columns) {
    auto* list = kit::table(QLatin1String(name), columns, this);
    list->setEditTriggers(QAbstractItemView::AllEditTriggers);
    m_tabs->addTab(list, title);
    return list;
}

void NamesDialog::refresh() {
    const auto fill = [](QTableWidget* list, const std::vector<QStringList>& rows) {
        list->setRowCount(0);
        for (const QStringList& row : rows) {
            const int place = list->rowCount();
            list->insertRow(place);
            for (int column = 0; column < row.size(); ++column) {
                kit::cell(list, place, column, row[column]);
            }
        }
        const int last = list->rowCount();
        list->insertRow(last);
        for (int column = 0; column < list->columnCount(); ++column) {
            list->setItem(last, column, new QTableWidgetItem);
        }
        kit::fitColumns(list, list->columnCount() > 4 ? 1 : 0);
        list->scrollToBottom();
    };
    Shop& shop = m_desk.shop();
    std::vector<QStringList> rows;
    for (const Person& one : people(shop)) {
        rows.push_back({qt(one.name), qt(one.role), qt(one.certificate),
                        one.certificateExpires ? qt(one.certificateExpires->text()) : QString()});
    }
    fill(m_people, rows);
    rows.clear();
    for (const System& one : systems(shop)) {
        rows.push_back({qt(one.key()), qt(one.customer), qt(one.refrigerant),
                        one.nominalCharge ? qt(shop.display().mass(*one.nominalCharge)) : QString(),
                        qt(one.equipment)});
    }
    fill(m_systems, rows);
    for (const auto& [list, kind] :
         {std::pair<QTableWidget*, const char*>{m_suppliers, "supplier"}, {m_reclaimers, "reclaimer"}}) {
        rows.clear();
        for (const Party& one : parties(shop, kind)) {
            rows.push_back({qt(one.name), qt(one.address), qt(one.number)});
        }
        fill(list, rows);
    }
}

void NamesDialog::add() {
    auto* list = qobject_cast<QTableWidget*>(m_tabs->currentWidget());
    QStringList cells;
    for (int column = 0; column < list->columnCount(); ++column) {
        cells.append(list->item(list->rowCount() - 1, column)->text().trimmed());
    }
    if (cells.front().isEmpty()) {
        questions::tell(this, tr("Not yet"), tr("The last line has no name."));
        return;
    }
    if (list == m_people) {
        addPerson(cells);
    } else if (list == m_systems) {
        addSystem(cells);
    } else {
        addParty(list == m_suppliers ? QStringLiteral("supplier") : QStringLiteral("reclaimer"), cells);
    }
}

void NamesDialog::addPerson(const QStringList& cells) {
    Person person;
    person.name = utf8(cells[0]);
    person.role = cells[1].isEmpty() ? person.role : utf8(cells[1]);
    person.certificate = utf8(cells[2]);
    if (!cells[3].isEmpty()) {
        const auto day = Date::parse(utf8(cells[3]));
        if (!day) {
            questions::tell(this, tr("Not yet"), qt(day.error().text()));
            return;
        }
        person.certificateExpires = day.value();
    }
    const Recorded recorded = m_desk.shop().record({draftOf(m_desk.shop(), person)});
    m_desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        questions::tell(this, tr("Not entered"), kit::told(recorded, tr("Not entered")));
        return; // the line stays as typed
    }
    refresh();
}

void NamesDialog::addSystem(const QStringList& cells) {
    System system;
    const auto stroke = cells[0].indexOf(QLatin1Char('/'));
    const auto refrigerant = m_desk.shop().catalogue().designation(utf8(cells[2]));
    const auto nominal = m_desk.shop().display().readMass(utf8(cells[3]));
    if (stroke <= 0 || !refrigerant || (!cells[3].isEmpty() && !nominal)) {
        questions::tell(this, tr("Not yet"),
                        stroke <= 0    ? tr("Write the system as SITE/TAG.")
                        : !refrigerant ? qt(refrigerant.error().text())
                                       : qt(nominal.error().text()));
        return;
    }
    system.site = utf8(cells[0].left(stroke));
    system.tag = utf8(cells[0].mid(stroke + 1));
    system.customer = utf8(cells[1]);
    system.refrigerant = refrigerant.value();
    if (!cells[3].isEmpty()) {
        system.nominalCharge = nominal.value();
    }
    system.equipment = utf8(cells[4]);
    const Recorded recorded = m_desk.shop().record(draftsOf(m_desk.shop(), system));
    m_desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        questions::tell(this, tr("Not entered"), kit::told(recorded, tr("Not entered")));
    }
    refresh();
}

void NamesDialog::addParty(const QString& kind, const QStringList& cells) {
    const Recorded recorded = m_desk.shop().record(
        {draftOf(m_desk.shop(), Party{utf8(kind), utf8(cells[0]), utf8(cells[1]), utf8(cells[2])})});
    m_desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        questions::tell(this, tr("Not entered"), kit::told(recorded, tr("Not entered")));
    }
    refresh();
}

} // namespace tarebook
