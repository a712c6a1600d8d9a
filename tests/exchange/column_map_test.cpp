#include "core/exchange/column_map.h"

#include <gtest/gtest.h>

#include "core/exchange/column_names.h"

using namespace tarebook;

namespace {

Sheet sheetOf(std::string_view text) {
    auto sheet = readSheet(text);
    EXPECT_TRUE(sheet);
    return sheet ? std::move(sheet).value() : Sheet{};
}

bool remarked(const ColumnMap& map, std::string_view text) {
    for (const std::string& remark : map.remarks) {
        if (remark.find(text) != std::string::npos) {
            return true;
        }
    }
    return false;
}

} // namespace

// The contract of the command line: these columns are what scripts write.
TEST(ColumnMap, TheContractsNamesAlwaysMatch) {
    const std::vector<std::pair<SheetKind, std::string>> contract = {
        {SheetKind::cylinders,
         "serial,specification,water_capacity,tare,manufactured,last_test,test_method,owner,"
         "overfill_sensor,refrigerant"},
        {SheetKind::movements, "occurred,kind,from,to,mass,refrigerant,job,person,note"},
        {SheetKind::people, "name,certificate,certificate_expires,role"},
        {SheetKind::systems, "site,tag,customer,refrigerant,nominal_charge,kind,address"},
        {SheetKind::stocktake, "serial,gross,remark"},
        {SheetKind::jobs, "technician,job,owner,direction,refrigerant,mass,method,system,machine,hour,"
                          "burn_out"},
        {SheetKind::receipt, "serial,gross,tare,oil,moisture,other,analysis,result,certificate,exchange"}};
    for (const auto& [kind, header] : contract) {
        const Sheet sheet = sheetOf(header + "\n");
        const ColumnMap map = guessColumns(sheet, kind, {});
        for (std::size_t place = 0; place < sheet.header.size(); ++place) {
            ASSERT_NE(map.find(sheet.header[place]), nullptr) << sheet.header[place];
            EXPECT_EQ(map.find(sheet.header[place])->place, static_cast<int>(place)) << sheet.header[place];
        }
        EXPECT_TRUE(map.missing().empty());
        EXPECT_TRUE(map.remarks.empty());
    }
}

TEST(ColumnMap, KnowsWhatShopsWrite) {
    const Sheet sheet =
        sheetOf("S/N,DOT Spec.,WC (lb),Tare wt [kg],Mfg date,Retest,Colour\nA1,DOT-39,26.2,2.8,1/24,,grey\n");
    const ColumnMap map = guessColumns(sheet, SheetKind::cylinders, {});
    const std::vector<std::string_view> fields = {"serial", "specification", "water_capacity",
                                                  "tare",   "manufactured",  "last_test"};
    for (std::size_t place = 0; place < fields.size(); ++place) {
        EXPECT_EQ(map.find(fields[place])->place, static_cast<int>(place)) << fields[place];
    }
    EXPECT_EQ(cellOf(sheet, sheet.rows[0], map, "water_capacity"), "26.2 lb");
    EXPECT_EQ(cellOf(sheet, sheet.rows[0], map, "tare"), "2.8 kg");
    EXPECT_TRUE(remarked(map, "Colour: this column is not read"));
    EXPECT_FALSE(remarked(map, "without a unit"));
    for (const char* header : {"Serial No", "Cyl #", "SERIAL NUMBER", "ser. no."}) {
        EXPECT_EQ(fieldCalled(SheetKind::cylinders, headerWords(header).words), "serial") << header;
    }
}

TEST(ColumnMap, AHabitIsShownNeverSilent) {
    const Sheet sheet = sheetOf("serial;specification;water_capacity;tare;manufactured\n"
                                "A1;DOT-4BA400;47,7;27,0;2021-03\nA2;DOT-4BA400;47.7 lb;12,5 kg;2021-03\n");
    const ColumnMap american = guessColumns(sheet, SheetKind::cylinders, {});
    EXPECT_EQ(cellOf(sheet, sheet.rows[0], american, "tare"), "27.0 lb");
    EXPECT_EQ(cellOf(sheet, sheet.rows[1], american, "tare"), "12.5 kg");
    EXPECT_TRUE(remarked(american, "tare: 1 number without a unit is taken as lb"));
    EXPECT_TRUE(remarked(american, "comma is taken as the decimal mark"));
    const ColumnMap metric = guessColumns(sheet, SheetKind::cylinders, {"kg", "l", DateOrder::dayFirst});
    EXPECT_EQ(cellOf(sheet, sheet.rows[0], metric, "water_capacity"), "47.7 l");
    EXPECT_TRUE(remarked(metric, "is taken as kg"));
}

TEST(ColumnMap, TheContractWinsAndAPersonMayChooseAnother) {
    const Sheet sheet = sheetOf("Cylinder,serial,tare\nx,A1,27 lb\n");
    ColumnMap map = guessColumns(sheet, SheetKind::cylinders, {});
    EXPECT_EQ(map.find("serial")->place, 1);
    EXPECT_EQ(map.missing(), (std::vector<std::string>{"specification", "water_capacity", "manufactured"}));
    map.assign("serial", 0, sheet, {});
    EXPECT_EQ(cellOf(sheet, sheet.rows[0], map, "serial"), "x");
    map.assign("serial", 99, sheet, {});
    EXPECT_EQ(cellOf(sheet, sheet.rows[0], map, "serial"), "");
}
