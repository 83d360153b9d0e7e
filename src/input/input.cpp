#include "input/input.h"

#include <fmt/format.h>

#include "input/catalogue_reader.h"
#include "input/declared.h"
#include "input/faults.h"
#include "input/files.h"
#include "input/form.h"
#include "input/guards.h"
#include "input/holds_together.h"
#include "input/instruments.h"
#include "input/job.h"
#include "input/phases.h"
#include "input/walls.h"
#include "input/wiring.h"

namespace ohmfolio {
namespace {

using toml_text::Table;

/// The catalogue files together, and whether all of them could be read.
struct Catalogues {
    Catalogue catalogue;
    bool complete = true;
};

/// What is written of equipment and catalogue, checked and joined. Nothing when a fault is fatal.
std::optional<System> assemble(const Form& description, Catalogues catalogues, Findings& findings) {
    System system;
    read_job(description, system, findings);
    system.catalogue = std::move(catalogues.catalogue);
    std::vector<Declared> all =
        declare_equipment(description, {system.catalogue, catalogues.complete}, findings);
    check_ids(all, findings);
    resolve_neighbours(all, findings);
    for (const Declared& one : all) {
        system.equipment.push_back(one.equipment);
    }
    system.relate();
    add_guards(description, {system.catalogue, catalogues.complete}, system, findings);
    read_walls(description, system, findings);
    if (check_tree(all, findings)) {
        check_terminals(system, all, findings);
        check_phases(system, all, findings);
    }
    if (has(findings, Severity::error)) {
        return std::nullopt;
    }
    wire(system, all);
    system.relate();
    place_service(system, all);
    place_instruments(system);
    return system;
}

void add_catalogue(std::optional<int> file, const SourceFiles& sources, Catalogues& catalogues,
                   Findings& findings) {
    const auto root = file ? toml_text::parse(*file, sources, findings) : std::nullopt;
    catalogues.complete &= root.has_value();
    if (root) {
        read_records(read_form(*root, catalogue_shape(), "record", findings), catalogues.catalogue,
                     findings);
    }
}

/// The description as a form; nothing when it cannot be parsed or says nothing.
std::optional<Form> read_description(int file, const SourceFiles& sources, Findings& findings) {
    const auto root = toml_text::parse(file, sources, findings);
    if (!root) {
        return std::nullopt;
    }
    if (root->as<Table>()->entries.empty()) {
        findings.push_back(input_fault("input.empty", Span{file, {1, 1}, {1, 1}}, "",
                                       "the description is empty",
                                       {"keys such as code = \"NEC 2023\"", ""}));
        return std::nullopt;
    }
    return read_form(*root, description_shape(), "equipment", findings);
}

} // namespace

std::optional<System> read_system(const std::filesystem::path& path, SourceFiles& sources,
                                  Findings& findings) {
    Findings ours; // what the caller found before does not stop us
    std::optional<System> system;
    const auto file = read_source(path, path.string(), {}, sources, ours);
    if (const auto form = file ? read_description(*file, sources, ours) : std::nullopt) {
        Catalogues catalogues{{}, !form->items("catalogue").empty()};
        for (const Item& item : form->items("catalogue")) {
            const auto& name = std::get<std::string>(item.value);
            const auto catalogue_file =
                read_source(path.parent_path() / name, name, item.span, sources, ours);
            add_catalogue(catalogue_file, sources, catalogues, ours);
        }
        system = assemble(*form, std::move(catalogues), ours);
    }
    findings.insert(findings.end(), ours.begin(), ours.end());
    return system;
}

std::optional<System> read_system_text(std::string text, std::string catalogue_text,
                                       SourceFiles& sources, Findings& findings,
                                       std::optional<Edition> edition) {
    Findings ours;
    std::optional<System> system;
    const int file = sources.add("description.toml", std::move(text));
    if (const auto form = read_description(file, sources, ours)) {
        Catalogues catalogues;
        const int catalogue_file = sources.add("catalogue.toml", std::move(catalogue_text));
        add_catalogue(catalogue_file, sources, catalogues, ours);
        system = assemble(*form, std::move(catalogues), ours);
    }
    if (system && edition) {
        system->edition = *edition;
    }
    findings.insert(findings.end(), ours.begin(), ours.end());
    return system;
}

} // namespace ohmfolio
