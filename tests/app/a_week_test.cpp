// The week at the counter, played from the command line. Sources of the figures: tests/shop/a_week_test.cpp.
#include "tests/app/ctl.h"

using namespace tarebook::tests;

namespace {

constexpr const char* kSheet = "serial,specification,water_capacity,tare,manufactured,refrigerant\n"
                               "A101,DOT-4BA400,47.7 lb,27.0 lb,2021-03,\n"
                               "A102,DOT-4BW400,47.7 lb,28.1 lb,2023-06,\n"
                               "A103,{},26.2 lb,17.0 lb,2024-10,\n"
                               "A104,DOT-4BA350,47.7 lb,26.0 lb,2022-05,\n"
                               "A105,DOT-4BA400,47.7 lb,{},2022-10,\n"
                               "A107,DOT-4BA400,26.2 lb,16.8 lb,2025-02,\n"
                               "D001,DOT-39,26.2 lb,6.1 lb,2026-05,\n";
constexpr const char* kSystems =
    "site,tag,customer,refrigerant,nominal_charge,kind\n"
    "ST-ALDER,RTU-3,St. Alder Schools,R-410A,34 lb,comfort cooling\n"
    "ST-ALDER,GYM-1,St. Alder Schools,R-410A,18 lb,comfort cooling\n"
    "BRIGHTWATER,STORE-2,Brightwater Grocers,R-410A,22 lb,comfort cooling\n"
    "HARBOR,DOCK-1,Ansel Harbor Cold Storage,R-22,60 lb,commercial refrigeration\n";
constexpr const char* kPeople = "name,certificate,certificate_expires,role\n"
                                "MORGAN VALE,Type II,2028-03-31,technician\n"
                                "JULES ARBOR,Universal,2026-10-31,technician\n";

class AWeekAtTheCommandLine : public CtlTest {
protected:
    void begin() {
        good("init s --name 'Larkspur Mechanical' --zone America/Chicago");
        write("people.csv", kPeople);
        write("systems.csv", kSystems);
        good("import s people people.csv");
        good("import s systems systems.csv");
        write("c.csv", fmt::format(fmt::runtime(kSheet), "DOT-4BA400", "27.9 lb"));
        good("import s cylinders c.csv");
        // What was inside when the books began: earlier jobs, and new gas.
        write("m.csv", "occurred,kind,from,to,mass,refrigerant\n"
                       "2026-09-01 10:00,recovered,system:HARBOR/DOCK-1,cylinder:A103,14.6 lb,R-22\n"
                       "2026-09-02 10:00,recovered,system:BRIGHTWATER/STORE-2,cylinder:A105,20.0 lb,R-410A\n"
                       "2026-09-03 10:00,bought,supplier:Estuary Supply,cylinder:D001,25.0 lb,R-410A\n");
        good("import s movements m.csv");
    }
    [[nodiscard]] double netPounds(const std::string& serial) const {
        return good("card s " + serial + " --json").json()["net_kg"].get<double>() / 0.45359237;
    }
    [[nodiscard]] std::vector<std::string> rulesOf(const std::string& serial) const {
        std::vector<std::string> rules;
        const auto findings = good("card s " + serial + " --json").json()["findings"];
        for (const auto& finding : findings) {
            rules.push_back(finding["rule"]);
        }
        return rules;
    }
    [[nodiscard]] bool has(const std::string& serial, const std::string& rule) const {
        const auto rules = rulesOf(serial);
        return std::find(rules.begin(), rules.end(), rule) != rules.end();
    }
};

} // namespace

TEST_F(AWeekAtTheCommandLine, ASheetWithTwoFaultsWritesNothing) {
    good("init s --zone America/Chicago");
    write("c.csv", fmt::format(fmt::runtime(kSheet), "DOT-4BX400", "279 lb"));
    const Answer refused = run("import s cylinders c.csv");
    EXPECT_EQ(refused.code, 1);
    EXPECT_NE(refused.err.find("c.csv:4: specification: "), std::string::npos) << refused.err;
    EXPECT_NE(refused.err.find("DOT-4BA"), std::string::npos) << refused.err;
    EXPECT_NE(refused.err.find("c.csv:6: tare: "), std::string::npos);
    EXPECT_EQ(good("fleet s --json").json().size(), 0U);
    // A row is left out, the other is said to be so.
    good("import s cylinders c.csv --leave-out 4 --confirm 6");
    EXPECT_EQ(good("fleet s --json").json().size(), 6U);
}

TEST_F(AWeekAtTheCommandLine, MondayToFriday) {
    begin();
    const auto alerts = good("alerts s --on 2026-09-14 --json").json()["alerts"];
    ASSERT_EQ(alerts.size(), 2U);
    EXPECT_EQ(alerts[0]["subject"], "cylinder:A101");
    EXPECT_EQ(alerts[0]["rule"], "retest.overdue");
    EXPECT_EQ(alerts[1]["subject"], "person:JULES ARBOR");

    // 3. Plan.
    const auto plan = good("plan s --system ST-ALDER/RTU-3 --expected '32 lb' --json").json();
    ASSERT_EQ(plan["chosen"].size(), 1U);
    EXPECT_EQ(plan["chosen"][0]["serial"], "A102");
    EXPECT_EQ(std::floor(plan["chosen"][0]["max_gross_kg"].get<double>() / 0.045359237), 686); // 68.6 lb
    EXPECT_EQ(plan["left_out"].size(), 6U);

    // 4. and 5. Out and in.
    good("checkout s --person 'MORGAN VALE' --job J-2231 --system ST-ALDER/RTU-3 --expected '32 lb' A102");
    const Answer second = run("checkout s --person 'JULES ARBOR' --job J-2232 A102");
    EXPECT_EQ(second.code, 1);
    EXPECT_NE(second.err.find("MORGAN VALE"), std::string::npos);
    m_now = "2026-09-14T15:00:00-05:00";
    const auto in =
        good("checkin s A102 --gross-before '28.1 lb' --gross '59.6 lb' --from system:ST-ALDER/RTU-3 --json")
            .json();
    const auto monday = in["entries"][0].get<int>();
    EXPECT_NEAR(in["net_kg"].get<double>() / 0.45359237, 31.5, 1e-5);
    EXPECT_EQ(std::floor(in["room_kg"].get<double>() / 0.045359237), 90); // 9.0 lb

    // 6. to 9. Tuesday.
    m_now = "2026-09-15T09:00:00-05:00";
    good("checkin s A105 --gross-before '47.9 lb' --gross '51.9 lb' --from system:HARBOR/DOCK-1");
    EXPECT_TRUE(has("A105", "contents.mixed"));
    good("checkin s A103 --gross-before '31.6 lb' --gross '45.0 lb' --from system:HARBOR/DOCK-1");
    EXPECT_TRUE(has("A103", "fill.overfilled"));
    good("decant s A103 A107 '3.2 lb'");
    EXPECT_FALSE(has("A103", "fill.overfilled"));
    EXPECT_NEAR(netPounds("A103"), 24.8, 1e-5);
    good("checkin s A101 --gross-before '27.0 lb' --gross '39.0 lb' --from system:BRIGHTWATER/STORE-2 "
         "--person "
         "'JULES ARBOR'");
    EXPECT_TRUE(has("A101", "retest.filled-late"));

    // 10., 12. and 13. Wednesday.
    m_now = "2026-09-16T09:00:00-05:00";
    good("checkin s D001 --gross-before '31.1 lb' --gross '24.6 lb' --to system:BRIGHTWATER/STORE-2");
    EXPECT_NEAR(netPounds("D001"), 18.5, 1e-5);
    const Answer foreign = run(
        "checkout s --purpose charge --person 'MORGAN VALE' --job J-2240 --system BRIGHTWATER/STORE-2 A102");
    EXPECT_EQ(foreign.code, 1);
    EXPECT_NE(foreign.err.find("St. Alder Schools"), std::string::npos) << foreign.err;
    good("checkin s A102 --gross '51.6 lb' --to system:ST-ALDER/GYM-1");
    good(fmt::format("reverse s {} 'the gross was 59.9'", monday));
    const auto again = good("checkin s A102 --gross-before '28.1 lb' --gross '59.9 lb' --from "
                            "system:ST-ALDER/RTU-3 --occurred '2026-09-14 15:00' --json")
                           .json()["entries"][0]
                           .get<int>();
    EXPECT_NEAR(netPounds("A102"), 23.8, 1e-5);
    good("checkin s A102 --gross-before '59.9 lb' --gross '57.9 lb' --to system:ST-ALDER/GYM-1 --occurred "
         "'2026-09-15 14:00'");
    EXPECT_NEAR(netPounds("A102"), 21.8, 1e-5);

    // 15. Thursday.
    m_now = "2026-09-17T09:00:00-05:00";
    EXPECT_EQ(run("batch prepare s 'Cape Reclaim' A101").code, 1);
    good("batch prepare s 'Cape Reclaim' A102 A103 A105 A107 --name B-1");
    const std::string paper = good("manifest s B-1").out;
    EXPECT_NE(paper.find("UN1018, Chlorodifluoromethane, 2.2"), std::string::npos) << paper;
    EXPECT_NE(paper.find("UN3163, Liquefied gas, n.o.s. (Difluoromethane, Pentafluoroethane), 2.2"),
              std::string::npos);
    EXPECT_NE(paper.find("gross 163.6 lb"), std::string::npos);
    good("batch ship s B-1 --carrier 'own van'");

    // 18. The auditor.
    const auto trace = good(fmt::format("trace s --entry {} --json", again)).json();
    EXPECT_NEAR(trace["mass_kg"].get<double>() / 0.45359237, 31.8, 1e-5);
    ASSERT_EQ(trace["parts"].size(), 2U);
    EXPECT_EQ(trace["parts"][0]["account"], "reclaimer:Cape Reclaim");
    EXPECT_NEAR(trace["parts"][0]["mass_kg"].get<double>() / 0.45359237, 21.8, 1e-5);
    EXPECT_EQ(trace["parts"][1]["account"], "system:ST-ALDER/GYM-1");
    EXPECT_NEAR(trace["parts"][1]["mass_kg"].get<double>() / 0.45359237, 10.0, 1e-5);
    const auto then = good(fmt::format("trace s --entry {} --as-of 2026-09-14 --json", monday)).json();
    ASSERT_EQ(then["parts"].size(), 1U);
    EXPECT_EQ(then["parts"][0]["account"], "cylinder:A102");
    EXPECT_NEAR(then["mass_kg"].get<double>() / 0.45359237, 31.5, 1e-5);
    const auto back = good("trace s --cylinder A105 --at '2026-09-16 20:00' --json").json();
    EXPECT_EQ(back["parts"].size(), 2U);

    // 17. and 19. The receipt; the books close to the milligram.
    m_now = "2026-09-21T09:00:00-05:00";
    good(
        "batch receive s B-1 --reference CR-8841 --line 'A102,49.1 lb,28.1 lb' --line 'A103,41.8 lb,17.0 lb' "
        "--line 'A105,51.9 lb,27.9 lb,17.2 % R-22' --line 'A107,20.0 lb,16.8 lb'");
    good("batch settle s B-1 --gone A105");
    const auto sums = good("balance s --from 2026-09-01 --to 2026-09-30 --json").json();
    ASSERT_EQ(sums.size(), 2U);
    for (const auto& sum : sums) {
        const auto milligrams = [&](const char* key) { return std::llround(sum[key].get<double>() * 1e6); };
        EXPECT_EQ(milligrams("opening") + milligrams("bought") + milligrams("recovered") -
                      milligrams("charged") - milligrams("returned") - milligrams("released") +
                      milligrams("variance"),
                  milligrams("closing"))
            << sum.dump();
    }
    EXPECT_TRUE(good("verify s --json").json()["ok"]);
}
