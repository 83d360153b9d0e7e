/// The schedules as CSV, read back by a reader of their own grammar (RFC 4180) and held against the
/// report, which is made without them.
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

using Record = std::vector<std::string>;

/// Records of a whole file; every one ends with CR LF.
std::vector<Record> parsed(const std::string& text) {
    std::vector<Record> records;
    Record record;
    std::string field;
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted) {
            const bool doubled = c == '"' && i + 1 < text.size() && text[i + 1] == '"';
            if (c == '"' && !doubled)
                quoted = false;
            else
                field += c;
            i += doubled ? 1 : 0;
        } else if (c == '"') {
            REQUIRE(field.empty());
            quoted = true;
        } else if (c == ',' || c == '\r') {
            record.push_back(std::exchange(field, {}));
            if (c == '\r') {
                REQUIRE(text.substr(i, 2) == "\r\n");
                records.push_back(std::exchange(record, {}));
                ++i;
            }
        } else {
            REQUIRE(c != '\n');
            field += c;
        }
    }
    REQUIRE(!quoted);
    REQUIRE(field.empty());
    return records;
}

std::vector<Record> table(const std::string& name) {
    return parsed(read_file(example_packet().folder() / ("ashgrove-" + name + ".csv")));
}

/// The field under `heading` of the record whose field under `key` is `value`.
std::string field_of(const std::vector<Record>& records, const std::string& key,
                     const std::string& value, const std::string& heading) {
    const auto column = [&](const std::string& wanted) {
        const auto& head = records.front();
        const auto found = std::find(head.begin(), head.end(), wanted);
        REQUIRE(found != head.end());
        return static_cast<std::size_t>(found - head.begin());
    };
    for (const Record& record : records)
        if (record.at(column(key)) == value)
            return record.at(column(heading));
    FAIL("no record " << value);
    return {};
}

} // namespace

TEST_CASE("every record of every schedule has as many fields as its heading") {
    for (const char* name : {"material", "conductors", "raceways", "overcurrent", "disconnects",
                             "equipment", "panels", "metering"}) {
        CAPTURE(name);
        const auto records = table(name);
        REQUIRE(records.size() > 1);
        for (const Record& record : records)
            CHECK(record.size() == records.front().size());
    }
}

TEST_CASE("the schedules hold the numbers of the description, in words as written") {
    const auto material = table("material");
    // 8 + 8 + 6 + 6 modules; one microinverter more, as [material] asks.
    CHECK(field_of(material, "Description", "PV module", "Order") == "28");
    CHECK(field_of(material, "Description", "Microinverter", "Order") == "29");
    CHECK(field_of(material, "Description", "Microinverter", "Model") == "WM-340");
    // Two circuits of 46 ft and two of 34 ft have a black conductor each: 160 ft, 10 % more: 176
    // ft.
    CHECK(field_of(material, "Description", "Wire, 12 AWG CU THWN-2, black", "Order") == "176");
    CHECK(field_of(material, "Description", "1/2\" EMT", "Group") == "Raceway");
    CHECK(field_of(table("conductors"), "Tag", "C5", "Length ft") == "46");
    CHECK(field_of(table("panels"), "Circuit", "bus of MSP", "Group") == "MSP");
}

TEST_CASE("schedules of an earlier issue do not stay behind, files of others do") {
    const TemporaryFolder folder;
    const auto out = folder.path() / "packet";
    write_file(out / "ashgrove-shedding.csv", "an older issue");
    write_file(out / "ashgrove-prices.csv", "the office's own");
    REQUIRE(run_ohmfolio({"draw", ashgrove().string(), "--out", out.string()}).exit_code == 0);
    CHECK_FALSE(std::filesystem::exists(out / "ashgrove-shedding.csv"));
    CHECK(std::filesystem::exists(out / "ashgrove-prices.csv"));
}
