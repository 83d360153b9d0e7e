/// Tables of equipment data become records of a catalogue.
#include "catch.h"

#include <algorithm>

#include "input/csv_text.h"
#include "input/import_map.h"
#include "input/record_import.h"

using namespace ohmfolio;

namespace {

struct Imported {
    SourceFiles sources;
    Findings findings;
    ImportedRecords records;

    Imported(const std::string& table, const std::string& map) {
        const int first = sources.add("table.csv", table);
        const int second = sources.add("map.toml", map);
        records = import_records(first, second, sources, findings);
    }
    std::string told() const {
        std::string text;
        for (const Finding& finding : findings) {
            text += print(finding, sources, false);
        }
        return text;
    }
};

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

const std::string heading = "Maker,Model,W,Voc,Vmp,Isc,Imp,bVoc,bVmp,Fuse,Sort\n";
const std::string good_row = "Solvane,SV-420,420,38.1,32.0,13.95,13.13,-0.25,-0.30,25,Mono\n";
const std::string map = R"(kind = "module"
key = "{Maker} {Model}"
[columns]
maker = "Maker"
model = "Model"
power = "W"
voc = "Voc"
vmp = "Vmp"
isc = "Isc"
imp = "Imp"
voc_temperature = "bVoc"
vmp_temperature = "bVmp"
series_fuse = "Fuse"
[units]
power = "W"
voc = "V"
vmp = "V"
isc = "A"
imp = "A"
voc_temperature = "%/C"
vmp_temperature = "%/C"
series_fuse = "A"
[fixed]
listing = "UL 61730"
[only]
Sort = ["Mono", "Multi"]
)";

std::string replaced(std::string text, const std::string& what, const std::string& with) {
    const auto at = text.find(what);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), with);
}

CsvTable csv(const std::string& text, Findings& findings) {
    SourceFiles sources;
    const auto table = read_csv(sources.add("t.csv", text), sources, findings);
    return table.value_or(CsvTable{});
}

} // namespace

// Quoting, doubled quotes, line breaks in cells: RFC 4180, section 2.
TEST_CASE("csv: cells as RFC 4180 has them, and as spreadsheets write them") {
    Findings findings;
    const CsvTable table =
        csv("a,b,c\r\n1,\"two, \"\"2\"\"\",\"3\n4\"\r\n\r\n x ,,\"\"\n", findings);
    CHECK(findings.empty());
    CHECK(table.headings == std::vector<std::string>{"a", "b", "c"});
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[0].cells == std::vector<std::string>{"1", "two, \"2\"", "3\n4"});
    CHECK(table.rows[0].line == 2);
    CHECK(table.rows[1].cells == std::vector<std::string>{"x", "", ""});
    CHECK(table.rows[1].line == 5);
    CHECK(csv("\xEF\xBB\xBF"
              "a;b\n1,5;2\n",
              findings)
              .rows[0]
              .cells[0] == "1,5");
    CHECK(csv("a\tb\n1\t2", findings).rows[0].cells[1] == "2");
    CHECK(findings.empty());
}

TEST_CASE("csv: what is no table is told, with its line") {
    for (const char* text : {"", "\n\n", "a,b\n"}) {
        Findings findings;
        CHECK(csv(text, findings).rows.empty());
        REQUIRE(findings.size() == 1);
        CHECK(findings[0].message == "the table has no rows");
    }
    Findings findings;
    csv("a,b\n1,2\n3,\"4\n5,6\n", findings);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].rule == "csv.quote");
    CHECK(findings[0].span.begin.line == 3);
    findings.clear();
    CHECK(csv("a,b\n1,2\n3\n4,5,6\n", findings).rows.size() == 1);
    REQUIRE(findings.size() == 2);
    CHECK(findings[1].message == "the row has 3 cells under 2 headings, and is left out");
    CHECK(findings[1].span.begin.line == 4);
}

TEST_CASE("import: a row becomes a record, rows that are not wanted do not") {
    const Imported imported(
        heading + good_row + "Kestrel,T-9,90,88,68.5,1.74,1.31,-0.28,-0.3,3,Film\n", map);
    CHECK(imported.told() == "");
    CHECK(imported.records.written == 1);
    CHECK(imported.records.passed_over == 1);
    CHECK(imported.records.text == R"([module.solvane-sv-420]
maker = "Solvane"
model = "SV-420"
power = "420 W"
voc = "38.1 V"
vmp = "32.0 V"
isc = "13.95 A"
imp = "13.13 A"
voc_temperature = "-0.25 %/C"
vmp_temperature = "-0.30 %/C"
series_fuse = "25 A"
listing = "UL 61730"
)");
}

TEST_CASE("import: rows that the catalogue would refuse are told at their lines and left out") {
    const Imported imported(
        heading + good_row +
            "Solvane,SV-1,420,38.1,32.0,about 14,13.13,-0.25,-0.30,25,Mono\n" // no number
            "Solvane,SV-2,420,,32.0,13.95,13.13,-0.25,-0.30,25,Mono\n"        // no Voc
            "Solvane,SV-3,420,31.1,32.0,13.95,13.13,-0.25,-0.30,25,Mono\n"    // Vmp above Voc
            "Solvane,sv 420,420,38.1,32.0,13.95,13.13,-0.25,-0.30,25,Mono\n"  // the same key
            ",,420,38.1,32.0,13.95,13.13,-0.25,-0.30,25,Mono\n",              // no key
        map);
    const std::string told = imported.told();
    INFO(told);
    CHECK(imported.records.written == 1);
    CHECK(imported.records.left_out == 5);
    CHECK(says(told, "table.csv:3:1"));
    CHECK(says(told, "module.solvane-sv-1.isc: \"about 14\" is"));
    CHECK(says(told, "solvane-sv-3: vmp (32) is not below"));
    CHECK(says(told, "table.csv:4:1"));
    CHECK(says(told, ".voc is missing"));
    CHECK(says(told, "table.csv:5:1"));
    CHECK(says(told, "\"solvane-sv-420\" is the key of line 2 already"));
    CHECK(says(told, "the row has no name that could be a key"));
    CHECK(std::ranges::count(imported.records.text, '[') == 1);
}

TEST_CASE("import: a map that does not fit is told, and nothing is made") {
    struct Case {
        const char *what, *with, *told;
    };
    const Case cases[] = {
        {"kind = \"module\"", "kind = \"modules\"", "did you mean \"module\"?"},
        {"kind = \"module\"", "", "does not say which kind"},
        {"{Maker} {Model}", "{Maker} {Modl}", "no column \"Modl\""},
        {"{Maker} {Model}", "{Maker", "what the records are to be called"},
        {"{Maker} {Model}", "Maker", "what the records are to be called"},
        {"voc = \"Voc\"", "voc = 3", "\"voc\" is a whole number"},
        {"voc = \"Voc\"", "voc = \"VOC\"", "the table has no column \"VOC\""},
        {"voc = \"Voc\"", "voltage = \"Voc\"", "has no key \"voltage\""},
        {"voc = \"Voc\"", "voc = 3", "\"voc\" is a whole number"},
        {"power = \"W\"\nvoc = \"V\"", "power = \"V\"", "\"V\" is no unit of \"power\""},
        {"[units]", "[units]\nwidth = \"mm\"", "\"width\" has a unit, but no column"},
        {"listing = ", "listings = ", "did you mean \"listing\"?"},
        {"Sort = [", "Art = [", "the table has no column \"Art\""},
        {"[only]", "[onyl]", "did you mean \"only\"?"},
        {"[columns]", "columns = 3\n[others]", "\"columns\" is a whole number"},
    };
    for (const auto& [what, with, told] : cases) {
        const Imported imported(heading + good_row, replaced(map, what, with));
        CAPTURE(with, imported.told());
        CHECK(says(imported.told(), told));
        CHECK(says(imported.told(), "map.toml:"));
        CHECK(imported.records.text.empty());
    }
}

TEST_CASE("import: several columns make a list, words make a flag, whole numbers stay numbers") {
    const Imported imported("Name,Low,High,Out,Volts,Amps,Max V,Max A,Breaker,Inputs,Gateway\n"
                            "Inv \"A\\B\",22,48,340 VA,240,1.42,60,20,20,4,yes\n",
                            R"(kind = "microinverter"
key = "{Name}"
[columns]
maker = "Name"
model = "Name"
tracking = ["Low", "High"]
output = "Out"
output_voltage = "Volts"
output_current = "Amps"
input_limit = "Max V"
input_current_limit = "Max A"
branch_breaker_limit = "Breaker"
[units]
tracking = "V"
output_voltage = "V"
output_current = "A"
input_limit = "V"
input_current_limit = "A"
branch_breaker_limit = "A"
[fixed]
trunk_size = "12 AWG"
trunk_ampacity = "20 A"
drop_spacing_portrait = "4.3 ft"
drop_spacing_landscape = "6 ft"
)");
    INFO(imported.told());
    CHECK(imported.records.written == 1);
    CHECK(says(imported.records.text, "tracking = [\"22 V\", \"48 V\"]\n"));
    CHECK(says(imported.records.text, "output = \"340 VA\"\n"));
    CHECK(says(imported.records.text, "maker = \"Inv \\\"A\\\\B\\\"\"\n"));
    CHECK(says(imported.records.text, "[microinverter.inv-a-b]\n"));
}
