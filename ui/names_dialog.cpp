#include "ui/names_dialog.h"

#include "core/shop/moments.h"
#include "core/shop/port_marks.h"
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

#include <algorithm>

namespace tarebook {
namespace {

constexpr int kWorksHere = 4; // column of the people's list that is a tick
constexpr int kInUse = 6;     // the same of the machines'
constexpr int kTookLast = 7;  // of the machines

/// `yes`, `no` or blank. Error: anything else.
Result<std::optional<bool>> readYesNo(const QString& text) {
    const QString word = text.toLower();
    if (word.isEmpty() || word == QStringLiteral("yes") || word == QStringLiteral("no")) {
        return word.isEmpty() ? std::optional<bool>() : std::optional<bool>(word == QStringLiteral("yes"));
    }
    return Error{utf8(QObject::tr("rated for flammable gas: '%1' is neither yes nor no").arg(text)),
                 utf8(QObject::tr("write yes or no, or leave it blank where nothing is on record"))};
}

} // namespace

NamesDialog::NamesDialog(Desk& desk, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_tabs(new QTabWidget(this)) {
    setObjectName(QStringLiteral("namesDialog"));
    setWindowTitle(tr("People, systems, machines, parties"));
    m_people = addList(tr("&People"), "namesPeople",
                       {tr("Name"), tr("Role"), tr("Certificate"), tr("Until"), tr("Works here")});
    m_systems = addList(tr("&Systems"), "namesSystems",
                        {tr("Site/Tag"), tr("Customer"), tr("Refrigerant"), tr("Full charge"),
                         tr("Equipment"), tr("Between the ports"), tr("Address of the site")});
    m_systems->horizontalHeaderItem(5)->setToolTip(
        tr("What is between the service ports: heat pump, reversing valve, accumulator; with no before it "
           "where there is none of it, or none; blank where it is not known"));
    m_suppliers = addList(tr("S&uppliers"), "namesSuppliers", {tr("Name"), tr("Address"), tr("Number")});
    m_reclaimers = addList(tr("&Reclaimers"), "namesReclaimers", {tr("Name"), tr("Address"), tr("Number")});
    m_destroyers = addList(tr("&Destroyers"), "namesDestroyers", {tr("Name"), tr("Address"), tr("Number")});
    m_machines = addList(tr("Recovery &machines"), "namesMachines",
                         {tr("Number"), tr("Maker's serial"), tr("Made"), tr("Rated for flammable"),
                          tr("Certified for"), tr("Certification label"), tr("In use"), tr("Took last")});
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    auto* enter = buttons->addButton(tr("Enter what was typed"), QDialogButtonBox::ActionRole);
    enter->setObjectName(QStringLiteral("namesEnter"));
    kit::makePrimary(enter);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(enter, &QPushButton::clicked, this, &NamesDialog::enter);
    auto* column = new QVBoxLayout(this);
    column->addWidget(kit::hint(
        tr("Change a line where it stands, or type a new one into the empty line below. A name stays as it "
           "was entered, and nothing is deleted: who has left, or is out of use, is unticked and stays in "
           "the "
           "books. A machine is certified for any of low, medium, high, very-high and small appliances. Once "
           "it "
           "was cleared, empty what it took last."),
        this));
    column->addWidget(m_tabs, 1);
    column->addWidget(buttons);
    const int line = fontMetrics().height();
    resize(line * 56, line * 30);
    refresh();
}

QTableWidget* NamesDialog::addList(const QString& title, const char* name, const QStringList& columns) {
    auto* list = kit::table(QLatin1String(name), columns, this);
    list->setEditTriggers(QAbstractItemView::AllEditTriggers);
    m_tabs->addTab(list, title);
    return list;
}

void NamesDialog::fill(QTableWidget* list, const std::vector<QStringList>& rows) {
    list->setRowCount(0);
    const auto add = [&](const QStringList& cells, bool known) {
        const int row = list->rowCount();
        list->insertRow(row);
        for (int column = 0; column < list->columnCount(); ++column) {
            auto* item = new QTableWidgetItem(cells.value(column));
            item->setToolTip(cells.value(column));
            if (known && column == 0) {
                item->setFlags(Qt::ItemIsSelectable | Qt::ItemIsEnabled);
            }
            if (column == tickOf(list)) {
                item->setText({});
                item->setFlags(Qt::ItemIsSelectable | Qt::ItemIsEnabled | Qt::ItemIsUserCheckable);
                item->setCheckState(cells.value(column) == QStringLiteral("no") ? Qt::Unchecked
                                                                                : Qt::Checked);
            }
            list->setItem(row, column, item);
        }
    };
    for (const QStringList& row : rows) {
        add(row, true);
    }
    add({}, false);
    m_before[list] = rows;
    kit::fitColumns(list, list->columnCount() > 4 ? 1 : 0);
    list->scrollToBottom();
}

int NamesDialog::tickOf(const QTableWidget* list) const {
    return list == m_people ? kWorksHere : list == m_machines ? kInUse : -1;
}

void NamesDialog::refresh() {
    Shop& shop = m_desk.shop();
    std::vector<QStringList> rows;
    for (const Person& one : people(shop)) {
        rows.push_back({qt(one.name), qt(one.role), qt(one.certificate),
                        one.certificateExpires ? qt(one.certificateExpires->text()) : QString(),
                        one.active ? QStringLiteral("yes") : QStringLiteral("no")});
    }
    fill(m_people, rows);
    rows.clear();
    for (const System& one : systems(shop)) {
        rows.push_back({qt(one.key()), qt(one.customer), qt(one.refrigerant),
                        one.nominalCharge ? qt(shop.display().mass(*one.nominalCharge)) : QString(),
                        qt(one.equipment), qt(portMarksText(one)), qt(one.address)});
    }
    fill(m_systems, rows);
    rows.clear();
    for (const Machine& one : machines(shop)) {
        const auto last = lastThrough(shop, one.name, shop.now());
        QStringList kinds;
        for (const std::string& kind : one.certifiedFor) {
            kinds.append(qt(kind));
        }
        rows.push_back({qt(one.name), qt(one.makerSerial), one.made ? qt(one.made->text()) : QString(),
                        !one.flammableRated   ? QString()
                        : *one.flammableRated ? QStringLiteral("yes")
                                              : QStringLiteral("no"),
                        kinds.join(QStringLiteral(", ")), qt(one.certification),
                        one.active ? QStringLiteral("yes") : QStringLiteral("no"),
                        last ? qt(last.value()) : QString()});
    }
    fill(m_machines, rows);
    for (const auto& [list, kind] : {std::pair<QTableWidget*, const char*>{m_suppliers, "supplier"},
                                     {m_reclaimers, "reclaimer"},
                                     {m_destroyers, "destroyer"}}) {
        rows.clear();
        for (const Party& one : parties(shop, kind)) {
            rows.push_back({qt(one.name), qt(one.address), qt(one.number)});
        }
        fill(list, rows);
    }
}

QStringList NamesDialog::cellsOf(const QTableWidget* list, int row) {
    QStringList cells;
    for (int column = 0; column < list->columnCount(); ++column) {
        const QTableWidgetItem* item = list->item(row, column);
        cells.append(!item->data(Qt::CheckStateRole).isValid() ? item->text().trimmed()
                     : item->checkState() == Qt::Checked       ? QStringLiteral("yes")
                                                               : QStringLiteral("no"));
    }
    return cells;
}

Result<NamesDialog::Typed> NamesDialog::typed() const {
    Typed typed;
    SystemChanges systemChanges(m_desk.shop());
    for (const auto& [list, before] : m_before) {
        for (int row = 0; row < list->rowCount(); ++row) {
            const QStringList cells = cellsOf(list, row);
            const auto place = static_cast<std::size_t>(row);
            const bool known = place < before.size();
            if (known && cells == before[place]) {
                continue;
            }
            if (!known && std::all_of(cells.begin(), cells.end(), [](const QString& cell) {
                    return cell.isEmpty() || cell == QStringLiteral("yes");
                })) {
                continue; // the empty line
            }
            const QString name = cells.front();
            if (name.isEmpty()) {
                return Error{utf8(tr("the last line has no name")), utf8(tr("type it into its first cell"))};
            }
            if (!known && std::any_of(before.begin(), before.end(), [&](const QStringList& other) {
                    return other.front().compare(name, Qt::CaseInsensitive) == 0;
                })) {
                return Error{utf8(tr("%1 is in the list already").arg(name)),
                             utf8(tr("change that line, and clear the last one"))};
            }
            const QStringList was = known ? before[place] : QStringList();
            auto its = draftsOfLine(list, cells);
            if (list == m_people) {
                const auto change = personIn(cells, was);
                its = change ? Result<std::vector<Draft>>({draftOf(m_desk.shop(), change.value())})
                             : change.error();
            }
            if (list == m_systems) {
                const auto change = systemIn(cells, was);
                const std::string notice = change ? systemChanges.notice(change.value()) : std::string();
                if (!notice.empty()) {
                    typed.notices.append(qt(notice));
                }
                its =
                    change ? Result<std::vector<Draft>>(systemChanges.take(change.value())) : change.error();
            }
            if (!its) {
                return Error{utf8(name) + ": " + its.error().wrong, its.error().right};
            }
            typed.drafts.insert(typed.drafts.end(), its.value().begin(), its.value().end());
        }
    }
    return typed;
}

Result<Machine> NamesDialog::machineIn(const QStringList& cells) const {
    Machine machine;
    machine.name = utf8(cells[0]);
    machine.makerSerial = utf8(cells[1]);
    if (!cells[2].isEmpty()) {
        const auto day = readDate(utf8(cells[2]), dateOrderOf(m_desk.shop().settings()));
        if (!day) {
            return day.error();
        }
        machine.made = day.value();
    }
    const auto rated = readYesNo(cells[3]);
    auto appliances = readAppliances(utf8(cells[4]));
    if (!rated || !appliances) {
        return rated ? appliances.error() : rated.error();
    }
    machine.flammableRated = rated.value();
    machine.certifiedFor = std::move(appliances).value();
    machine.certification = utf8(cells[5]);
    machine.active = cells[kInUse] == QStringLiteral("yes");
    const auto last = lastThrough(m_desk.shop(), machine.name, m_desk.shop().now());
    const QString before = last ? qt(last.value()) : QString();
    if (!cells[kTookLast].isEmpty() && cells[kTookLast] != before) {
        return Error{utf8(tr("what it took last is known from the books")),
                     utf8(tr("empty that cell once the machine was cleared"))};
    }
    machine.cleared = cells[kTookLast].isEmpty() && !before.isEmpty();
    return machine;
}

Result<std::vector<Draft>> NamesDialog::draftsOfLine(const QTableWidget* list,
                                                     const QStringList& cells) const {
    Shop& shop = m_desk.shop();
    const auto text = [&](int column) { return utf8(cells[column]); };
    if (list == m_suppliers || list == m_reclaimers || list == m_destroyers) {
        const char* kind = list == m_suppliers    ? "supplier"
                           : list == m_reclaimers ? "reclaimer"
                                                  : "destroyer";
        return std::vector<Draft>{draftOf(shop, Party{kind, text(0), text(1), text(2)})};
    }
    if (list == m_machines) {
        const auto machine = machineIn(cells);
        return machine ? Result<std::vector<Draft>>({draftOf(shop, machine.value())}) : machine.error();
    }
    return std::vector<Draft>();
}

Result<PersonChange> NamesDialog::personIn(const QStringList& cells, const QStringList& was) const {
    PersonChange change{utf8(cells[0])};
    if (!cells[1].isEmpty()) {
        change.role = utf8(cells[1]); // somebody without a role is a technician
    } else if (!was.value(1).isEmpty()) {
        change.role = Person().role;
    }
    change.certificate = utf8(cells[2]);
    change.active = cells[kWorksHere] == QStringLiteral("yes");
    if (cells[3] == was.value(3)) {
        return change;
    }
    change.certificateExpires.emplace(std::nullopt);
    if (!cells[3].isEmpty()) {
        const auto day = readDate(utf8(cells[3]), dateOrderOf(m_desk.shop().settings()));
        if (!day) {
            return day.error();
        }
        change.certificateExpires = day.value();
    }
    return change;
}

Result<SystemChange> NamesDialog::systemIn(const QStringList& cells, const QStringList& was) const {
    const auto stroke = cells[0].indexOf(QLatin1Char('/'));
    if (stroke <= 0 || stroke + 1 == cells[0].size()) {
        return Error{utf8(tr("a system needs a site and a tag")), utf8(tr("write it as SITE/TAG"))};
    }
    SystemChange change{utf8(cells[0].left(stroke)), utf8(cells[0].mid(stroke + 1))};
    const auto saidIn = [&](int column) {
        return cells[column] == was.value(column) ? std::optional<std::string>()
                                                  : std::optional<std::string>(utf8(cells[column]));
    };
    change.customer = saidIn(1);
    change.equipment = saidIn(4);
    change.address = saidIn(6);
    if (const auto said = saidIn(5)) {
        const auto marks = readPortMarks(*said);
        if (!marks) {
            return marks.error();
        }
        change.portMarks = marks.value();
    }
    Shop& shop = m_desk.shop();
    const auto refrigerant = shop.catalogue().designation(utf8(cells[2]));
    if (!refrigerant) {
        return refrigerant.error();
    }
    change.refrigerant = refrigerant.value();
    if (!saidIn(3)) {
        return change; // what the books have to the milligram is not read from what is shown of it
    }
    change.nominalCharge.emplace(std::nullopt);
    if (!cells[3].isEmpty()) {
        const auto nominal = shop.display().readMass(utf8(cells[3]));
        if (!nominal) {
            return nominal.error();
        }
        change.nominalCharge = nominal.value();
    }
    return change;
}

void NamesDialog::enter() {
    const auto lines = typed();
    if (!lines || lines.value().drafts.empty()) {
        questions::tell(this, tr("Not yet"),
                        lines ? tr("Nothing was typed or changed.") : qt(lines.error().text()));
        return;
    }
    const QStringList& notices = lines.value().notices;
    if (!notices.isEmpty() &&
        !questions::ask(this, tr("Another customer"), notices.join(QLatin1Char('\n')), tr("It is so"))) {
        return; // the lines stay as typed
    }
    const Recorded recorded = m_desk.shop().record(lines.value().drafts);
    m_desk.notifyRecorded(recorded);
    if (!recorded.ok()) {
        questions::tell(this, tr("Not entered"), kit::told(recorded, tr("Not entered")));
        return; // the lines stay as typed
    }
    m_desk.say(tr("Entries written: %1").arg(recorded.entries.size()));
    refresh();
}

} // namespace tarebook
