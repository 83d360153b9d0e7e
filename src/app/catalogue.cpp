/// The command `catalogue`.
#include <algorithm>
#include <ostream>

#include <fmt/format.h>

#include "app/catalogue_list.h"
#include "app/commands.h"
#include "app/house.h"
#include "app/stages.h"
#include "base/text.h"
#include "input/input.h"

namespace ohmfolio {
namespace {

void print_table(const std::vector<ListedRecord>& records, std::ostream& out) {
    std::size_t key_width = 0;
    std::size_t name_width = 0;
    for (const ListedRecord& record : records) {
        key_width = std::max(key_width, static_cast<std::size_t>(character_count(record.key)));
        name_width = std::max(
            name_width, static_cast<std::size_t>(character_count(record.maker + record.model)) + 1);
    }
    std::string kind;
    for (const ListedRecord& record : records) {
        if (record.kind != kind) {
            out << (kind.empty() ? "" : "\n") << record.kind << '\n';
            kind = record.kind;
        }
        const std::string line =
            fmt::format("  {:{}}  {:{}}  {}", record.key, key_width,
                        record.maker + " " + record.model, name_width, record.figures);
        out << line.substr(0, line.find_last_not_of(' ') + 1) << '\n';
    }
}

} // namespace

int list_catalogue(const CatalogueOptions& options, const Surroundings& where, std::ostream& out,
                   std::ostream& err) {
    ListWishes wishes{options.kind, options.text, {}};
    std::string faults;
    for (const std::string& text : options.conditions) {
        if (const auto condition = parse_condition(text)) {
            wishes.conditions.push_back(*condition);
        } else {
            faults += fmt::format("\"{}\" is no condition such as \"power >= 400 W\"\n", text);
        }
    }
    faults += faults_of(wishes);
    if (!faults.empty()) {
        err << faults;
        return exit_usage;
    }
    SourceFiles sources;
    Findings findings;
    const Office office{read_house_of({}, where, sources, findings), where.data / "catalogues"};
    const auto catalogues = read_catalogue_trees(options.files, office, sources, findings);
    if (!findings.empty()) {
        print_findings(findings, sources, where.colour, err);
    }
    const std::vector<ListedRecord> records = listed(catalogues, wishes);
    print_table(records, out);
    out << (records.empty() ? "" : "\n") << records.size()
        << (records.size() == 1 ? " record\n" : " records\n");
    return exit_code(findings);
}

} // namespace ohmfolio
