// What a person may type wrong in the arguments of a verb: the message names the argument or the thing, says
// what would be right, nothing is written, and the exit code is that of docs/command-line.md: 1 for a refused
// value, 2 for a call that is wrong in itself.
#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

struct BadCall {
    const char* arguments;
    const char* where; // the argument, field or thing that the message names
    const char* right; // a part of what it says would be right
};

class BadArgumentTest : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init s --zone America/Chicago");
        good("person s 'MORGAN VALE' --certificate 'Type II' --expires 2028-03-31");
        good("system s HARBOR/DOCK-1 --customer 'Ansel Harbor' --refrigerant R-22 --charge '60 lb'");
        good("register s A1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' "
             "--manufactured 2024-01 --evacuated");
        good("checkin s A1 --gross '37 lb' --from system:HARBOR/DOCK-1");
        m_head = head();
    }
    [[nodiscard]] std::string head() const { return good("verify s --json").json()["head"]; }

    void expectRefused(const std::vector<BadCall>& calls) {
        for (const BadCall& call : calls) {
            expectRefused(call.arguments, call.where, call.right);
        }
        EXPECT_EQ(head(), m_head);
    }
    void expectRefused(const std::string& arguments, const std::string& where, const std::string& right) {
        const Answer answer = run(arguments);
        const std::string shown = arguments.substr(0, 160) + "\n" + answer.err.substr(0, 400);
        EXPECT_EQ(answer.code, 1) << shown;
        EXPECT_NE(answer.err.find(where), std::string::npos) << shown;
        const std::size_t wrong = answer.err.find("; ");
        EXPECT_NE(wrong, std::string::npos) << shown;
        EXPECT_NE(answer.err.find(right, wrong == std::string::npos ? 0 : wrong), std::string::npos) << shown;
        EXPECT_LT(answer.err.size(), 2'000U) << shown; // a long text is not thrown back at the person
    }

    std::string m_head;
};

constexpr const char* kMarks = " --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' "
                               "--manufactured 2024-01";

} // namespace

TEST_F(BadArgumentTest, Register) {
    expectRefused({
        {"register s N1 --specification DOT-4BX400 --water-capacity '47.7 lb' --tare '27 lb' --manufactured "
         "2024-01",
         "--specification: 'DOT-4BX400'", "DOT-4B"},
        {"register s N1 --specification DOT-4BA400 --water-capacity '0 lb' --tare '27 lb' --manufactured "
         "2024-01",
         "--water-capacity: ", "47.7 lb"},
        {"register s N1 --specification DOT-4BA400 --water-capacity=-47.7lb --tare '27 lb' --manufactured "
         "2024-01",
         "--water-capacity: '-47.7lb' is negative", "above zero"},
        {"register s N1 --specification DOT-4BA400 --water-capacity '1000000000000 lb' --tare '27 lb' "
         "--manufactured 2024-01",
         "--water-capacity: ", "at most 3000 lb"},
        {"register s N1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '1000000000000 lb' "
         "--manufactured 2024-01",
         "--tare: '1000000000000 lb' has too many digits", "at most 12 before"},
        {"register s N1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '' --manufactured "
         "2024-01",
         "tare is missing", "27.0 lb"},
        {"register s N1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' --manufactured "
         "2024-13",
         "--manufactured: ", "as 2024-03"},
        {"register s N1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' --manufactured "
         "2199-01",
         "2199-01", ""},
        {"register s N1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' --manufactured "
         "2024-01 --last-test 2023-01",
         "2023-01", ""},
        {"register s N1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' --manufactured "
         "2024-01 --owner 'lent: me'",
         "--owner: 'lent: me'", "own, rented, customer or reclaimer"},
        {"register s A1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' --manufactured "
         "2024-01",
         "A1 is registered already", "Look at its card"},
    });
    expectRefused("register s " + std::string(10'000, 'A') + kMarks, "the serial 'AAAA", "at most 40");
    expectRefused(std::string("register s ''") + kMarks, "serial is blank", "stamped on the collar");
}

TEST_F(BadArgumentTest, WeightsAndDaysAtTheCounter) {
    expectRefused({
        {"checkin s A1 --gross=-5lb", "--gross: '-5lb' is negative", "a mass is zero or more"},
        {"checkin s A1 --gross heavy", "--gross: 'heavy'", "47.7 lb"},
        {"checkin s A1 --gross '47,7 lb'", "--gross: '47,7 lb' has a comma", "behind a point"},
        {"checkin s A1 --gross '1000000000000 lb'", "--gross: ", "at most 12 before"},
        {"checkin s A1 --gross '999999999999 lb'", "--gross: ", "check the number and its unit"},
        {"checkin s A1 --gross '5001 kg'", "is no weight of a cylinder", "mind the unit"},
        {"checkin s A1 --gross '26 lb'", "below the tare of 27.0 lb", "restate the tare"},
        {"checkin s A1 --gross-before '26 lb' --gross '30 lb'", "gross before of 26.0 lb is below the tare",
         "weigh it again"},
        {"checkin s A1 --gross '40 lb' --from system:NO/SUCH", "there is no system 'NO/SUCH'", "SITE/TAG"},
        {"checkin s A1 --gross '40 lb' --from nonsense", "nonsense", "system:SITE/TAG"},
        {"checkin s A1 --gross '40 lb' --from opening --to atmosphere", "not both", "two check-ins"},
        {"checkin s A1 --gross '36 lb' --from system:HARBOR/DOCK-1", "nothing went in",
         "exchange the two weights"},
        {"checkin s A1 --gross '40 lb' --from system:HARBOR/DOCK-1 --occurred '2031-01-01 10:00'",
         "cannot have happened after now", "check the day"},
        {"checkin s A1 --gross '40 lb' --from system:HARBOR/DOCK-1 --occurred '2026-02-30 10:00'",
         "--occurred: ", "as 2026-09-14"},
        {"checkin s A1 --gross '40 lb' --from opening --refrigerant R-99", "'R-99'", ""},
        {"checkin s A2 --gross '30 lb'", "'A2'", "A1"},
        {"weigh s A1 feather", "GROSS: 'feather'", "47.7 lb"},
        {"decant s A1 A1 '3 lb'", "A1 cannot be decanted into itself", "name another"},
        {"decant s A1 A9 '3 lb'", "'A9'", "A1"},
        {"decant s A1 A9 '0 lb'", "A9", ""},
        {"checkout s --person 'MORGAN VALE' --job J-1 --expected lots A1", "--expected: 'lots'", "47.7 lb"},
        {"checkout s --person 'MORGAN WALE' --job J-1 A1", "MORGAN WALE", "MORGAN VALE"},
        {"plan s --system HARBOR/DOCK-1 --expected '0 lb'", "must be above zero", "32 lb"},
        {"plan s --system HARBOR/DOCK-1 --expected '3 lb' --back 2026-02-30", "--back: ", "2026-09-14"},
        {"handover s A1 --person 'MORGAN VALE'", "A1 is in the shop", "check it out"},
    });
}

TEST_F(BadArgumentTest, RegistersAndSettings) {
    expectRefused({
        {"person s JULES --expires 2026-02-30", "--expires: ", "2026-09-14"},
        {"system s DOCK-1 --refrigerant R-22", "DOCK-1 is no SITE/TAG", "HARBOR/DOCK-1"},
        {"system s A/B --refrigerant R-99", "--refrigerant: 'R-99'", ""},
        {"system s A/B --refrigerant R-22 --charge=-3lb", "--charge: '-3lb' is negative", "zero or more"},
        {"test s A1 2026-13", "MONTH: ", "as 2024-03"},
        {"test s A1 2031-01", "lies in the future", "read the new mark again"},
        {"test s A1 2023-01", "before it was made", "read the new mark again"},
        {"tare s A1 '0 lb' 'worn'", "a tare must be above zero", "27.0 lb"},
        {"tare s A1 light 'worn'", "TARE: 'light'", "47.7 lb"},
        {"inspect s A1 fine", "'fine' is no result", "one of sound, damaged, leaking"},
        {"retire s A1 'old'", "A1 still holds 10.0 lb", "empty it"},
        {"overrule s A1 no.such 'so be it'", "'no.such' is no open finding", "card"},
        {"reverse s 999 'wrong'", "999", ""},
        {"setting s out_days -- -5", "", ""},
        {"setting s out_days soon", "", ""},
        {"setting s colour red", "there is no setting 'colour'", "out_days"},
        {"setting s zone Mars/Base", "Mars/Base", ""},
        {"setting s rulebook mars", "'mars'", "us"},
    });
    expectRefused("person s '" + std::string(10'000, 'N') + "'", "name", "");
    expectRefused("condemn s A1 '" + std::string(100'000, 'x') + "'", "reason", "");
}

TEST_F(BadArgumentTest, BatchesAndBooks) {
    good("batch prepare s 'Cape Reclaim' A1 --name B-1");
    good("batch ship s B-1");
    m_head = head();
    expectRefused({
        {"batch receive s B-1 --line 'A1'", "--line: 'A1' is no line of a receipt", "A102,49.1 lb,28.1 lb"},
        {"batch receive s B-1 --line 'A1,heavy,27 lb'", "--line: gross: 'heavy'", "47.7 lb"},
        {"batch receive s B-1 --line 'A1,,27 lb'", "has no gross", "A102,49.1 lb,28.1 lb"},
        {"batch receive s B-1 --line 'A9,30 lb,27 lb'", "'A9' was not in batch B-1", "receipt"},
        {"batch receive s B-1 --line 'A1,26 lb,27 lb'", "gross 26.0 lb is below tare 27.0 lb", "receipt"},
        {"batch ship s B-9", "'B-9'", ""},
        {"batch show s B-9", "there is no batch 'B-9'", "list of batches"},
        {"manifest s B-9", "there is no batch 'B-9'", "list of batches"},
        {"shipping-paper s B-9", "there is no batch 'B-9'", "list of batches"},
        {"slip s NOBODY", "there is no person 'NOBODY'", "list of people"},
        {"trace s --entry 1", "no refrigerant came into the shop with entry 1",
         "bought, recovered or opened"},
        {"trace s --entry 999999", "999999", ""},
        {"trace s --cylinder A9", "'A9'", "A1"},
        {"trace s --cylinder A1 --at yesterday", "--at: ", "2026-09-14"},
        {"trace s --cylinder A1 --as-of 2020-01-01", "nothing was recorded by then", "later day"},
        {"trace s --cylinder A1 --as-of 2026-02-30", "--as-of: ", "2026-09-14"},
        {"balance s --from 2026-09-30 --to 2026-09-01", "ends 2026-09-01 before it begins", "exchange"},
        {"balance s --from September --to 2026-09-01", "--from: 'September'", "2026-09-14"},
        {"alerts s --on 2026-02-30", "--on: ", "2026-09-14"},
        {"leaks s HARBOR/DOCK-2", "there is no system 'HARBOR/DOCK-2'", "SITE/TAG"},
        {"card s A9", "'A9'", "did you mean A1"},
    });
}

TEST_F(BadArgumentTest, QuestionsToARulebook) {
    expectRefused({
        {"duties R-99", "'R-99'", ""},
        {"duties R-22 --on 2026-02-30", "--on: ", "2026-09-14"},
        {"evacuation R-22 --charge 5", "--charge: '5' has no unit", "5 lb or 5 kg"},
        {"evacuation R-22 --charge '5 lb' --reached '5 bar'", "--reached: '5 bar' is no reading", "10 inHg"},
        {"evacuation R-22 --charge '5 lb' --reached '90 %'", "90 % cannot be held against", "10 inHg"},
        {"evacuation R-22 --charge '5 lb' --machine-made soon", "--machine-made: ", "2026-09-14"},
        {"evacuation R-22 --charge '5 lb' --work compressor-works", "no level for a high appliance", "small"},
        {"evacuation R-22 --charge '5 lb' --rulebook au", "the rulebook au 2007-01 says nothing",
         "your edition"},
        {"co2e R-410A light", "MASS: 'light'", "47.7 lb"},
        {"co2e R-22 '2 kg'", "no global warming potential for R-22", "your edition"},
        {"co2e R-410A '0 kg'", "the charge is not above zero", "full charge"},
        {"shipping R-22 --emptied --left much", "--left: 'much'", "47.7 lb"},
        {"shipping R-22 --emptied --water-capacity '0 lb'", "--water-capacity: ", "47.7 lb"},
        {"shipping R-22 --emptied --measured hissing", "--measured: ", ""},
        {"shipping R-22 --check 'Chlorodifluoromethane, 2.2, UN1018'", "--check: ", "number, name, class"},
        {"load --cylinder 'R-22,40 lb'", "--cylinder: 'R-22,40 lb' is no CONTENTS,GROSS,TARE", "67.6 lb"},
        {"load --cylinder 'R-22,20 lb,27 lb'", "a gross below its tare", "exchange"},
        {"load --cylinder 'R-22,40,27 lb'", "--cylinder: '40' has no unit", "40 lb"},
        {"van s --with A9", "'A9'", "A1"},
        {"disposals s --month 2026-13", "--month: ", "2024-03"},
        {"checkin s A1 --gross '40 lb' --from opening --disposal", "only what is recovered from a system",
         "from which system"},
        {"checkin s A1 --gross '40 lb' --from opening --machine RM-1", "a recovery machine belongs to",
         "from which system"},
        {"checkin s A1 --gross '40 lb' --from system:X/Y --machine RM-9", "no recovery machine 'RM-9'",
         "enter the machine first"},
        {"checkin s A1 --gross '40 lb' --from system:X/Y --reached '5 bar'",
         "--reached: '5 bar' is no reading", "10 inHg"},
        {"machine s RM-1 --made soon", "--made: ", "2026-09-14"},
        {"machine s RM-1 --certified-for tall", "--certified-for: 'tall' is no kind of appliance",
         "very-high"},
    });
}

TEST_F(BadArgumentTest, FilesAndNames) {
    expectRefused({
        {"init s", "'s' exists already", "choose a new name"},
        {"init t --zone Mars/Base", "Mars/Base", ""},
        {"init nowhere/t", "nowhere/t", ""},
        {"sample s", "s", "new name"},
        {"sample t --cylinders 5", "5", "20"},
        {"sample t --until 2026-02-30", "--until: ", "2026-09-14"},
        {"fleet nosuchshop", "there is no file 'nosuchshop'", "check the name"},
        {"import s cylinders nosuchfile.csv", "nosuchfile.csv", "name a CSV file"},
        {"backup s s", "'s' exists already", "choose a new name"},
        {"restore nosuchbackup s", "there is no file 'nosuchbackup'", "check the name"},
        {"mass heavy", "'heavy' does not begin with a number", "47.7 lb"},
        {"refrigerant R-99", "'R-99'", ""},
        {"limits --csv nosuchfile.csv", "nosuchfile.csv", "check that the file is there"},
    });
    EXPECT_FALSE(std::filesystem::exists(file("t")));
}

TEST_F(BadArgumentTest, WrongCallsExitWith2AndSayHow) {
    for (const char* call :
         {"", "nosuchverb", "trace s", "trace s --entry 1 --cylinder A1", "import s nosuchkind x.csv", "card",
          "checkout s A1", "batch", "batch nosuchstep s", "fleet s --nosuchoption", "trace s --entry many",
          "limits", "sample t --cylinders many", "fleet s --now yesterday"}) {
        const Answer answer = run(call);
        EXPECT_EQ(answer.code, 2) << call << answer.err;
        EXPECT_FALSE(answer.err.empty()) << call;
    }
    EXPECT_EQ(head(), m_head);
    EXPECT_EQ(run("--help").code, 0);
    EXPECT_EQ(run("card --help").code, 0);
}
