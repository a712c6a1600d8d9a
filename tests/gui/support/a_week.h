// The days of the week at the counter, as a person plays them in the window.
#pragma once

#include "tests/gui/support/person.h"

namespace tarebook::tests {

class AWeekInTheWindow : public WeekWindow {
protected:
    void SetUp() override;

    // a_week_test.cpp
    /// A key in the window, brought to the front first: it is not by itself once a dialog has closed.
    void pressInFront(Qt::Key key, Qt::KeyboardModifiers with);
    /// Imports a file by the menu's keys and the dialog's buttons; kind 0 are cylinders, 3 movements. `act`
    /// is what is done once it is read; what is still open afterwards is cancelled.
    void importFile(const char* name, int kind, const std::function<void()>& act);
    void importTheSeven();
    void planAndCheckOut();
    void tuesday();
    void chargeStore2();
    void wednesday();

    // a_week_later_test.cpp
    void identity();
    void papers();
    void printManifest();
    void printShippingPaper();
    void receipt();
    void settle();
    void auditor();
    void balances();
    void evidence();
    /// Asks one of the auditor's questions, about one system or customer where a field is named.
    void askBooks(const char* question, const char* field = nullptr, const char* about = nullptr);

    Sequence m_monday = 0; // the check-in with the wrong gross
};

} // namespace tarebook::tests
