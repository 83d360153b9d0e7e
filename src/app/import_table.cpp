#include <fstream>
#include <ostream>

#include <fmt/format.h>

#include "app/commands.h"
#include "app/files.h"
#include "app/stages.h"
#include "input/files.h"
#include "input/record_import.h"

namespace ohmfolio {

int import_table(const ImportOptions& options, const Surroundings& where, std::ostream& out,
                 std::ostream& err) {
    namespace fs = std::filesystem;
    if (fs::exists(options.out)) {
        err << "ohmfolio: " << options.out.string()
            << " is there already, and is left as it is; name another file with --out\n";
        return exit_usage;
    }
    SourceFiles sources;
    Findings findings;
    const auto table = read_source(options.table, options.table.string(), {}, sources, findings,
                                   "the path of a table of comma-separated values");
    const auto map = read_source(options.map, options.map.string(), {}, sources, findings);
    ImportedRecords records;
    if (table && map) {
        records = import_records(*table, *map, sources, findings);
    }
    if (!findings.empty()) {
        print_findings(findings, sources, where.colour, err);
    }
    if (records.written == 0) {
        err << "Nothing was written.\n";
        return exit_usage;
    }
    const fs::path folder = options.out.has_parent_path() ? options.out.parent_path() : ".";
    write_all(folder, {{options.out.filename().string(), records.text}});
    out << fmt::format("{} records: {}", records.written, options.out.string());
    if (records.left_out > 0) {
        out << fmt::format("; {} rows left out for their faults", records.left_out);
    }
    if (records.passed_over > 0) {
        out << fmt::format("; {} rows passed over, as the map has it", records.passed_over);
    }
    out << '\n';
    return exit_code(findings) == exit_clean ? exit_clean : exit_violations;
}

} // namespace ohmfolio
