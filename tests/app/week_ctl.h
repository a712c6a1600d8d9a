#pragma once

#include <map>

#include "tests/app/ctl.h"

namespace tarebook::tests {

inline constexpr const char* kSheet = "serial,specification,water_capacity,tare,manufactured,refrigerant\n"
                                      "A101,DOT-4BA400,47.7 lb,27.0 lb,2021-03,\n"
                                      "A102,DOT-4BW400,47.7 lb,28.1 lb,2023-06,\n"
                                      "A103,{},26.2 lb,17.0 lb,2024-10,\n"
                                      "A104,DOT-4BA350,47.7 lb,26.0 lb,2022-05,\n"
                                      "A105,DOT-4BA400,47.7 lb,{},2022-10,\n"
                                      "A107,DOT-4BA400,26.2 lb,16.8 lb,2025-02,\n"
                                      "D001,DOT-39,26.2 lb,6.1 lb,2026-05,\n";
inline constexpr const char* kSystems =
    "site,tag,customer,refrigerant,nominal_charge,kind\n"
    "ST-ALDER,RTU-3,St. Alder Schools,R-410A,34 lb,comfort cooling\n"
    "ST-ALDER,GYM-1,St. Alder Schools,R-410A,18 lb,comfort cooling\n"
    "BRIGHTWATER,STORE-2,Brightwater Grocers,R-410A,22 lb,comfort cooling\n"
    "HARBOR,DOCK-1,Ansel Harbor Cold Storage,R-22,60 lb,commercial refrigeration\n";
inline constexpr const char* kPeople = "name,certificate,certificate_expires,role\n"
                                       "MORGAN VALE,Type II,2028-03-31,technician\n"
                                       "JULES ARBOR,Universal,2026-10-31,technician\n";
inline constexpr double kKilogramsAPound = 0.45359237;

inline double pounds(const nlohmann::json& kilograms) {
    return kilograms.get<double>() / kKilogramsAPound;
}
/// Cut to a tenth, as limits are printed; the microgram bridges what a kilogram with six decimals cuts.
inline double flooredPounds(const nlohmann::json& kilograms) {
    return std::floor(pounds(kilograms) * 10 + 1e-5) / 10;
}
inline bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// The week at the counter, day by day.
class AWeekAtTheCommandLine : public CtlTest {
protected:
    void begin() {
        good("init s --name 'Larkspur Mechanical' --address 'Port Ansel' --zone America/Chicago");
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
    void playMonday() {
        good(
            "checkout s --person 'MORGAN VALE' --job J-2231 --system ST-ALDER/RTU-3 --expected '32 lb' A102");
        m_now = "2026-09-14T15:00:00-05:00";
        m_in = good("checkin s A102 --gross-before '28.1 lb' --gross '59.6 lb' --from system:ST-ALDER/RTU-3 "
                    "--json")
                   .json();
        m_monday = m_in["entries"][0].get<int>();
    }
    void playTuesday() {
        m_now = "2026-09-15T09:00:00-05:00";
        good("checkin s A105 --gross-before '47.9 lb' --gross '51.9 lb' --from system:HARBOR/DOCK-1");
        good("checkin s A103 --gross-before '31.6 lb' --gross '45.0 lb' --from system:HARBOR/DOCK-1");
        good("decant s A103 A107 '3.2 lb'");
        good("checkin s A101 --gross-before '27.0 lb' --gross '39.0 lb' --from system:BRIGHTWATER/STORE-2 "
             "--person 'JULES ARBOR'");
    }
    void playWednesday() {
        m_now = "2026-09-16T09:00:00-05:00";
        good("checkin s D001 --gross-before '31.1 lb' --gross '24.6 lb' --to system:BRIGHTWATER/STORE-2");
        good("checkin s A102 --gross '51.6 lb' --to system:ST-ALDER/GYM-1");
        good(fmt::format("reverse s {} 'the gross was 59.9'", m_monday));
        m_again = good("checkin s A102 --gross-before '28.1 lb' --gross '59.9 lb' --from "
                       "system:ST-ALDER/RTU-3 --occurred '2026-09-14 15:00' --json")
                      .json()["entries"][0]
                      .get<int>();
    }
    void playLostTicket() {
        good("checkin s A102 --gross-before '59.9 lb' --gross '57.9 lb' --to system:ST-ALDER/GYM-1 "
             "--occurred '2026-09-15 14:00'");
    }
    void playThursday() {
        m_now = "2026-09-17T09:00:00-05:00";
        good("batch prepare s 'Cape Reclaim' A102 A103 A105 A107 --name B-1");
    }
    void playReceipt() {
        m_now = "2026-09-21T09:00:00-05:00";
        good(
            "batch receive s B-1 --reference CR-8841 --line 'A102,49.1 lb,28.1 lb' --line "
            "'A103,41.8 lb,17.0 lb' --line 'A105,51.9 lb,27.9 lb,17.2 % R-22' --line 'A107,20.0 lb,16.8 lb'");
    }
    [[nodiscard]] nlohmann::json card(const std::string& serial) const {
        return good("card s " + serial + " --json").json();
    }
    [[nodiscard]] double net(const std::string& serial) const {
        return std::round(pounds(card(serial)["net_kg"]) * 1e4) / 1e4;
    }
    /// The finding of that rule; null when it is not open.
    [[nodiscard]] nlohmann::json finding(const std::string& serial, const std::string& rule) const {
        const auto its = card(serial);
        for (const auto& one : its["findings"]) {
            if (one["rule"] == rule) {
                return one;
            }
        }
        return {};
    }
    [[nodiscard]] static std::map<std::string, double> poundsBy(const nlohmann::json& parts,
                                                                const char* key) {
        std::map<std::string, double> sums;
        for (const auto& part : parts) {
            sums[part[key]] += std::round(pounds(part["mass_kg"]) * 1e4) / 1e4;
        }
        return sums;
    }

    nlohmann::json m_in;
    int m_monday = 0;
    int m_again = 0;
};

} // namespace tarebook::tests
