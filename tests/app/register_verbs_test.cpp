// What the verbs of the register leave as it is on file. Whose recovered gas is: 40 CFR 82.154(d) in the
// shared reference.
#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

class RegisterVerbsTest : public CtlTest {
protected:
    void SetUp() override {
        CtlTest::SetUp();
        good("init s --zone America/Chicago");
        good("system s HARBOR/DOCK-1 --customer 'Ansel Harbor' --refrigerant R-22 --charge '60 lb'");
        good("register s A1 --specification DOT-4BA400 --water-capacity '47.7 lb' --tare '27 lb' "
             "--manufactured 2024-01 --evacuated");
    }
    [[nodiscard]] nlohmann::json of(const std::string& list, const char* key, const std::string& name) const {
        for (const auto& one : good(list + " s --json").json()) {
            if (one[key] == name) {
                return one;
            }
        }
        return {};
    }
};

} // namespace

TEST_F(RegisterVerbsTest, ASystemKeepsWhatIsNotGiven) {
    good("system s HARBOR/CHILLER-9 --refrigerant R-134a");
    good("system s HARBOR/DOCK-1 --equipment 'industrial process refrigeration'");
    good("system s HARBOR/DOCK-1 --customer '' --refrigerant '' --charge ''"); // a variable that was blank
    const auto dock = of("system", "system", "HARBOR/DOCK-1");
    EXPECT_EQ(dock["customer"], "Ansel Harbor");
    EXPECT_EQ(dock["refrigerant"], "R-22");
    EXPECT_EQ(dock["equipment"], "industrial process refrigeration");
    EXPECT_NEAR(dock["nominal_kg"].get<double>(), 60 * 0.45359237, 1e-3);
    good("checkin s A1 --gross '31 lb' --from system:HARBOR/CHILLER-9");
    const auto lots = good("trace s --cylinder A1 --json").out;
    EXPECT_NE(lots.find("Ansel Harbor"), std::string::npos) << lots;
    const Answer unnamed = run("system s HARBOR/CHILLER-10");
    EXPECT_EQ(unnamed.code, 1);
    EXPECT_NE(unnamed.err.find("--refrigerant: HARBOR/CHILLER-10 is not on file"), std::string::npos)
        << unnamed.err;
    const Answer other = good("system s HARBOR/DOCK-1 --customer 'Pier Foods'");
    EXPECT_NE(other.err.find("HARBOR was of Ansel Harbor until now, all its systems: the 4.0 lb of theirs"),
              std::string::npos)
        << other.err;
    good("system s HARBOR/DOCK-1 --address 'Quay 7'");
    EXPECT_EQ(of("system", "system", "HARBOR/DOCK-1")["address"], "Quay 7");
    good("system s HARBOR/DOCK-1 --customer - --charge - --address - --equipment -");
    EXPECT_EQ(of("system", "system", "HARBOR/DOCK-1")["address"], "");
    EXPECT_EQ(of("system", "system", "HARBOR/DOCK-1")["equipment"], "");
    EXPECT_EQ(of("system", "system", "HARBOR/DOCK-1")["customer"], "");
    EXPECT_TRUE(of("system", "system", "HARBOR/DOCK-1")["nominal_kg"].is_null());
}

TEST_F(RegisterVerbsTest, PeopleAndPartiesKeepWhatIsNotGiven) {
    good("person s 'FINN BECK' --role storekeeper --certificate 'Type II 71107' --expires 2027-03-31");
    good("person s 'FINN BECK' --left");
    good("person s 'FINN BECK' --expires 2030-01-01");
    auto finn = of("person", "name", "FINN BECK");
    EXPECT_EQ(finn["role"], "storekeeper");
    EXPECT_EQ(finn["certificate"], "Type II 71107");
    EXPECT_EQ(finn["certificate_expires"], "2030-01-01");
    EXPECT_EQ(finn["active"], false);
    good("person s 'FINN BECK' --works-here --expires -");
    finn = of("person", "name", "FINN BECK");
    EXPECT_EQ(finn["active"], true);
    EXPECT_EQ(finn["certificate_expires"], "");
    EXPECT_EQ(run("person s 'FINN BECK' --works-here --left").code, 2);
    good("party s reclaimer 'Cape Reclaim' --address 'Foundry Way 2' --number R-0417");
    good("party s reclaimer 'Cape Reclaim' --number X9");
    EXPECT_EQ(of("party", "name", "Cape Reclaim")["address"], "Foundry Way 2");
    EXPECT_EQ(of("party", "name", "Cape Reclaim")["number"], "X9");
}

// EPA-26 of the reference (40 CFR 82.156): the location of an appliance that was disposed of.
TEST_F(RegisterVerbsTest, TheAddressOfASiteStandsInTheRecordOfADisposal) {
    good("system s HARBOR/DOCK-1 --charge '34 lb'");
    good("checkin s A1 --gross '31 lb' --from system:HARBOR/DOCK-1 --disposal");
    EXPECT_NE(good("disposals s").out.find("[disposal.location]"), std::string::npos);
    good("system s HARBOR/DOCK-1 --address 'Quay 4, Port Ansel'");
    EXPECT_EQ(good("disposals s --json").json()["appliances"][0]["address"], "Quay 4, Port Ansel");
    EXPECT_EQ(good("disposals s").out.find("disposal.location"), std::string::npos);
    EXPECT_EQ(of("system", "system", "HARBOR/DOCK-1")["customer"], "Ansel Harbor");
}

// The weight at which filling stops follows the tare: one that is odd is entered only with a yes, at every
// verb that takes one. 27.9 lb is usual for 47.7 lb of water (common practice), ten times that is a lost
// point.
TEST_F(RegisterVerbsTest, AnUnusualTareWaitsForAYes) {
    const auto waits = [this](const std::string& verb, const std::string& option) {
        const Answer answer = run(verb);
        EXPECT_EQ(answer.code, 1) << verb;
        EXPECT_NE(answer.err.find(option + ": "), std::string::npos) << answer.err;
        EXPECT_NE(answer.err.find("a tare of 279.0 lb is unusual"), std::string::npos) << answer.err;
        EXPECT_NE(answer.err.find("27.9 lb looks right"), std::string::npos) << answer.err;
        EXPECT_NE(answer.err.find("say --confirm if it is so"), std::string::npos) << answer.err;
    };
    const std::string marks = "register s A2 --specification DOT-4BA400 --water-capacity '47.7 lb' "
                              "--manufactured 2024-01 --tare '279 lb'";
    waits(marks, "--tare");
    waits("tare s A1 '279 lb' restamped", "TARE");
    waits("test s A1 2025-01 --tare '279 lb'", "--tare");
    good("checkin s A1 --mass '10 lb' --from system:HARBOR/DOCK-1");
    good("batch prepare s 'Cape Reclaim' A1 --name B-1");
    good("batch ship s B-1");
    good("batch receive s B-1 --line 'A1,37 lb,27 lb'");
    waits("batch settle s B-1 --gone A1 --came 'A1,X9,DOT-4BA400,47.7 lb,279 lb,2024-05'", "--came");
    EXPECT_EQ(good("card s A1 --json").out.find("marks.tare-unusual"), std::string::npos);
    good(marks + " --confirm");
    EXPECT_NE(good("card s A2 --json").out.find("marks.tare-unusual"), std::string::npos);
    good("tare s A1 '279 lb' restamped --confirm");
    EXPECT_NE(good("alerts s").out.find("A tare of 279.0 lb is unusual"), std::string::npos);
    const Answer much = run("register s A3 --specification DOT-4BA400 --water-capacity '47.7 lb' "
                            "--manufactured 2024-01 --tare '27 lb' --holds '600 lb' --refrigerant R-22");
    EXPECT_EQ(much.code, 1);
    EXPECT_NE(much.err.find("600.0 lb does not go into A3"), std::string::npos) << much.err;
}
