#include "ui/books_page.h"

#include "core/shop/card.h"
#include "ui/desk.h"
#include "ui/flow_drawing.h"
#include "ui/kit.h"
#include "ui/pickers.h"

#include <QComboBox>
#include <QDateEdit>
#include <QLabel>
#include <QLineEdit>
#include <QProgressDialog>
#include <QTableWidget>

#include <algorithm>

namespace tarebook {
namespace {

Date dateOf(const QDate& date) {
    return Date::fromDayNumber(static_cast<int>(date.toJulianDay() - QDate(1970, 1, 1).toJulianDay()));
}

QString accountText(const Account& account) {
    return qt(accountWords(account));
}

/// Of the books at this head; 0: as they stand now.
std::string digestAt(Store& store, Sequence head) {
    if (head == 0) {
        return store.headDigest();
    }
    const auto entry = store.entry(head);
    return entry ? entry.value().digest : std::string();
}

/// The gravest come first; the rest is told by the command line.
QString problemsText(const std::vector<std::string>& problems) {
    constexpr std::size_t kMostTold = 6;
    QStringList told;
    for (std::size_t place = 0; place < std::min(problems.size(), kMostTold); ++place) {
        told.append(qt(problems[place]));
    }
    return problems.size() > kMostTold ? BooksPage::tr("%1; and %2 more")
                                             .arg(told.join(QStringLiteral("; ")))
                                             .arg(problems.size() - kMostTold)
                                       : told.join(QStringLiteral("; "));
}

} // namespace

void BooksPage::askCharge(Sequence head) {
    bool numbered = false;
    const Sequence entry = chosenIn(*m_lot).toLongLong(&numbered);
    if (!numbered) {
        fail({utf8(chosenIn(*m_lot).isEmpty() ? tr("No charge is chosen")
                                              : tr("“%1” is no charge of the list").arg(chosenIn(*m_lot))),
              utf8(tr("choose one from the list, or type the number of its entry"))});
        return;
    }
    const auto its = traceEntry(m_desk.shop(), entry, head);
    if (!its) {
        fail(its.error());
        return;
    }
    answer(its.value());
    const Display display = m_desk.shop().display();
    setColumns({tr("Mass"), tr("Is in"), tr("Refrigerant"), tr("State"), tr("Owner")}, 1);
    for (const ForwardPart& part : its.value().forward->parts) {
        addRow({qt(display.mass(part.mass)), accountText(part.account), qt(part.gas.refrigerant),
                qt(gasStateWord(part.gas.state)),
                part.gas.owner.empty() ? tr("the shop") : qt(part.gas.owner)},
               1);
    }
}

void BooksPage::askContents(Sequence head) {
    const auto its = traceCylinder(m_desk.shop(), utf8(m_cylinder->text().trimmed()), {}, head);
    if (!its) {
        fail(its.error());
        return;
    }
    answer(its.value());
    const Display display = m_desk.shop().display();
    setColumns({tr("Mass"), tr("Came from"), tr("Refrigerant"), tr("State"), tr("Owner"), tr("Entry")}, 1);
    for (const BackwardPart& part : its.value().backward->parts) {
        addRow({qt(display.mass(part.mass)), accountText(part.lot.source), qt(part.gas.refrigerant),
                qt(gasStateWord(part.gas.state)),
                part.gas.owner.empty() ? tr("the shop") : qt(part.gas.owner),
                QString::number(part.lot.entry)},
               1);
    }
}

void BooksPage::askCustody(Sequence head) {
    const auto its = card(m_desk.shop(), utf8(m_cylinder->text().trimmed()), head);
    if (!its) {
        fail(its.error());
        return;
    }
    const Zone& zone = m_desk.shop().zone();
    TraceAnswer told;
    const std::size_t times = its.value().custody.size();
    told.sentence =
        its.value().state.plate.serial + (times == 0   ? " never left the shop."
                                          : times == 1 ? " was out once."
                                                       : " was out " + std::to_string(times) + " times.");
    if (times > 0 && !its.value().custody.back().until) {
        told.sentence += " " + its.value().custody.back().person + " has it now.";
    }
    told.head = digestAt(m_desk.shop().store(), head);
    told.entries = its.value().history;
    answer(told);
    m_flowArea->hide();
    m_drawn->setEnabled(false);
    setColumns({tr("Who"), tr("Job"), tr("From"), tr("Until"), tr("Entry")}, 0);
    for (const Custody& custody : its.value().custody) {
        addRow({qt(custody.person), qt(custody.job), qt(zone.localText(custody.from)),
                custody.until ? qt(zone.localText(*custody.until)) : tr("still"),
                QString::number(custody.entry)},
               0);
    }
}

void BooksPage::askBalance(Sequence head) {
    const auto sums = balance(m_desk.shop(), dateOf(m_from->date()), dateOf(m_to->date()), head);
    if (!sums) {
        fail(sums.error());
        return;
    }
    TraceAnswer told;
    told.head = digestAt(m_desk.shop().store(), head);
    told.sentence =
        "Per refrigerant, in kilograms to the milligram: opening + bought + recovered - charged - returned "
        "- released + variance = closing.";
    answer(told);
    m_flowArea->hide();
    m_drawn->setEnabled(false);
    setColumns({tr("Refrigerant"), tr("Opening"), tr("Bought"), tr("Recovered"), tr("Charged"),
                tr("Returned"), tr("Released"), tr("Variance"), tr("Closing")},
               0);
    const auto shown = [](std::int64_t milligrams) {
        return qt(Mass::fromMilligrams(milligrams).kilogramsText()).chopped(3);
    };
    for (const PeriodSum& sum : sums.value()) {
        addRow({qt(sum.refrigerant), shown(sum.opening + sum.opened), shown(sum.bought), shown(sum.recovered),
                shown(sum.charged), shown(sum.returned), shown(sum.released), shown(sum.variance),
                shown(sum.closing)},
               0);
        for (int column = 1; column < m_table->columnCount(); ++column) {
            m_table->item(m_table->rowCount() - 1, column)
                ->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
        }
    }
}

void BooksPage::verify() {
    QProgressDialog progress(tr("Reading every entry again…"), tr("Stop"), 0, 0, this);
    progress.setObjectName(QStringLiteral("verifyProgress"));
    progress.setWindowModality(Qt::WindowModal);
    progress.setMinimumDuration(500);
    bool stopped = false;
    const auto verified =
        m_desk.shop().store().verify([&progress, &stopped](std::int64_t done, std::int64_t total) {
            progress.setMaximum(static_cast<int>(std::max<std::int64_t>(1, total)));
            progress.setValue(static_cast<int>(done));
            stopped = progress.wasCanceled();
            return !stopped;
        });
    if (stopped) {
        m_sentence->setText(tr("Stopped: nothing is known about the rest of the journal."));
        return;
    }
    if (!verified) {
        fail(verified.error());
        return;
    }
    const Verification& told = verified.value();
    m_sentence->setText(told.problems.empty()
                            ? tr("%1 entries: chain, balances, views and file are sound.").arg(told.entries)
                            : tr("Not sound: %1").arg(problemsText(told.problems)));
    m_head->setText(tr("Books at %1").arg(qt(told.head)));
}

} // namespace tarebook
