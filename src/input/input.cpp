#include "input/input.h"

#include <algorithm>
#include <set>
#include <system_error>
#include <utility>

#include <fmt/format.h>

#include "base/text.h"
#include "input/appendix.h"
#include "input/catalogue_reader.h"
#include "input/declared.h"
#include "input/extended_records.h"
#include "input/faults.h"
#include "input/files.h"
#include "input/form.h"
#include "input/guards.h"
#include "input/holds_together.h"
#include "input/instruments.h"
#include "input/job.h"
#include "input/named_records.h"
#include "input/phases.h"
#include "input/roofs.h"
#include "input/site_plan.h"
#include "input/walls.h"
#include "input/wiring.h"
#include "toml/laid_over.h"

namespace ohmfolio {
namespace {

namespace fs = std::filesystem;
using toml_text::Table;

/// The catalogue files together, and whether all of them could be read.
struct Catalogues {
    Catalogue catalogue;
    bool complete = true;
};

/// What is written of equipment and catalogue, checked and joined. Nothing when a fault is fatal.
/// Files that go with the set are read where there are `sources` to read them into.
std::optional<System> assemble(const Form& description, Catalogues catalogues, SourceFiles* sources,
                               Findings& findings) {
    System system;
    read_job(description, system, findings);
    system.catalogue = std::move(catalogues.catalogue);
    if (catalogues.complete) {
        check_named_records(system.catalogue, findings);
    }
    std::vector<Declared> all =
        declare_equipment(description, {system.catalogue, catalogues.complete}, findings);
    check_ids(all, findings);
    resolve_neighbours(all, findings);
    for (const Declared& one : all) {
        system.equipment.push_back(one.equipment);
    }
    system.relate();
    add_guards(description, {system.catalogue, catalogues.complete}, system, findings);
    read_appendix(description, system, sources, findings);
    read_walls(description, system, findings);
    read_site_plan(description, system, findings);
    read_roofs(description, system, findings);
    read_routes(description, system, findings);
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
    check_route_lengths(system, findings);
    if (has(findings, Severity::error)) {
        return std::nullopt;
    }
    return system;
}

/// The trees of catalogue files, and whether all of them could be read.
struct Trees {
    std::vector<toml_text::Node> roots;
    bool complete = true;
};

/// Every file is parsed before the first is read: a record may extend one of a later file.
Trees read_trees(const std::vector<std::optional<int>>& files, const SourceFiles& sources,
                 Findings& findings) {
    Trees trees;
    for (const std::optional<int> file : files) {
        auto root = file ? toml_text::parse(*file, sources, findings) : std::nullopt;
        trees.complete &= root.has_value();
        if (root) {
            trees.roots.push_back(std::move(*root));
        }
    }
    Findings broken;
    trees.roots = extended_records(trees.roots, trees.complete, broken);
    trees.complete &= broken.empty(); // what refers to a record that was left out is not at fault
    findings.insert(findings.end(), broken.begin(), broken.end());
    return trees;
}

Catalogues read_catalogues(const Trees& trees, Findings& findings) {
    Catalogues catalogues{{}, trees.complete};
    for (const toml_text::Node& root : trees.roots) {
        read_records(read_form(root, catalogue_shape(), "record", findings), catalogues.catalogue,
                     findings);
    }
    return catalogues;
}

/// The description as a form; nothing when it cannot be parsed or says nothing.
std::optional<Form> read_description(int file, const std::optional<toml_text::Node>& defaults,
                                     const SourceFiles& sources, Findings& findings) {
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
    return read_form(defaults ? toml_text::laid_over(*defaults, *root) : *root, description_shape(),
                     "equipment", findings);
}

/// What the office states of itself, in a job that names no other designer.
void join_house(System& system, const House& house) {
    Project& project = system.project;
    const Company& company = house.company;
    system.house = house;
    if (!project.designer.empty() && project.designer != company.name) {
        system.house.logo.reset();
        return;
    }
    const auto take = [](std::string& of_job, const std::string& of_house) {
        if (of_job.empty()) {
            of_job = of_house;
        }
    };
    take(project.designer, company.name);
    take(project.designer_address, join(company.address, "\n"));
    take(project.designer_phone, company.phone);
    take(project.designer_web, company.web);
    take(project.licence, company.licence);
}

struct CatalogueFile {
    fs::path path;
    std::string as_written;
    Span span;
};

/// The catalogues in `folder`, by name, since folders list in no particular order.
std::vector<fs::path> catalogues_in(const fs::path& folder) {
    std::vector<fs::path> files;
    std::error_code failed;
    for (fs::directory_iterator entry(folder, failed), end; !failed && entry != end;
         entry.increment(failed)) {
        if (entry->path().extension() == ".toml") {
            files.push_back(entry->path());
        }
    }
    std::ranges::sort(files);
    return files;
}

/// The files of an entry of the house: itself, or those of the folder that it names.
std::vector<fs::path> catalogues_at(const fs::path& path) {
    std::error_code ignored;
    return fs::is_directory(path, ignored) ? catalogues_in(path) : std::vector<fs::path>{path};
}

/// Where the catalogue that a job calls `name` is: beside the job, in the house, among those of the
/// program; beside the job when it is nowhere.
fs::path found_catalogue(const std::string& name, const fs::path& beside, const Office& office) {
    std::vector<fs::path> candidates{beside / name};
    for (const auto& [path, span] : office.house.catalogues) {
        std::error_code ignored;
        if (fs::is_directory(path, ignored)) {
            candidates.push_back(path / name);
        } else if (path.filename() == name) {
            candidates.push_back(path);
        }
    }
    if (!office.catalogues.empty()) {
        candidates.push_back(office.catalogues / name);
    }
    const auto found = std::ranges::find_if(candidates, [](const fs::path& path) {
        std::error_code ignored;
        return fs::exists(path, ignored);
    });
    return found == candidates.end() ? candidates.front() : *found;
}

/// The catalogues of a job that is `file`; all of the house's when the job names none.
std::vector<CatalogueFile> catalogue_files(const Form& description, const fs::path& beside,
                                           const Office& office, int file) {
    std::vector<CatalogueFile> files;
    for (const Item& item : description.items("catalogue")) {
        if (item.span.file == file) {
            const auto& name = std::get<std::string>(item.value);
            files.push_back({found_catalogue(name, beside, office), name, item.span});
        }
    }
    if (!files.empty()) {
        return files;
    }
    for (const auto& [path, span] : office.house.catalogues) {
        for (const fs::path& each : catalogues_at(path)) {
            files.push_back({each, each.filename().string(), span});
        }
    }
    return files;
}

/// A catalogue may be shared by jobs and lie beside their folders, or a link may lead to it. What
/// is no TOML file by its name is not opened: a description that came from elsewhere cannot have
/// other files of this machine read.
std::optional<int> read_catalogue(const CatalogueFile& file, SourceFiles& sources,
                                  Findings& findings) {
    std::error_code failed;
    const fs::path end = fs::weakly_canonical(file.path, failed);
    if (!failed && (end.extension() != ".toml" || file.path.extension() != ".toml")) {
        findings.push_back(input_fault("input.path", file.span, "",
                                       fmt::format("\"{}\" is no catalogue", file.as_written),
                                       {"a file that ends in .toml", ""}));
        return std::nullopt;
    }
    return read_source(file.path, file.as_written, file.span, sources, findings);
}

/// What stands in the house file has been told when that was read.
void append_new(Findings& findings, const Findings& more) {
    std::set<std::pair<std::string, Span>> told;
    for (const Finding& known : findings) {
        told.emplace(known.rule, known.span);
    }
    for (const Finding& finding : more) {
        if (!finding.span.known() || !told.contains({finding.rule, finding.span})) {
            findings.push_back(finding);
        }
    }
}

} // namespace

std::optional<System> read_system(const std::filesystem::path& path, SourceFiles& sources,
                                  Findings& findings) {
    return read_system(path, Office{}, sources, findings);
}

std::optional<System> read_system(const std::filesystem::path& path, const Office& office,
                                  SourceFiles& sources, Findings& findings) {
    Findings ours; // what the caller found before does not stop us
    std::optional<System> system;
    const auto file = read_source(path, path.string(), {}, sources, ours);
    if (const auto form =
            file ? read_description(*file, office.house.defaults, sources, ours) : std::nullopt) {
        std::vector<std::optional<int>> files;
        for (const CatalogueFile& each :
             catalogue_files(*form, path.parent_path(), office, *file)) {
            files.push_back(read_catalogue(each, sources, ours));
        }
        Catalogues catalogues = read_catalogues(read_trees(files, sources, ours), ours);
        catalogues.complete &= !form->items("catalogue").empty();
        system = assemble(*form, std::move(catalogues), &sources, ours);
    }
    if (system) {
        join_house(*system, office.house.house);
    }
    append_new(findings, ours);
    return system;
}

std::vector<toml_text::Node> read_catalogue_trees(const std::vector<fs::path>& named,
                                                  const Office& office, SourceFiles& sources,
                                                  Findings& findings) {
    std::vector<fs::path> paths = named;
    if (paths.empty()) {
        for (const auto& [path, span] : office.house.catalogues) {
            const auto more = catalogues_at(path);
            paths.insert(paths.end(), more.begin(), more.end());
        }
        const auto shipped = catalogues_in(office.catalogues);
        paths.insert(paths.end(), shipped.begin(), shipped.end());
    }
    std::vector<std::optional<int>> files;
    for (const fs::path& path : paths) {
        files.push_back(read_source(path, path.string(), {}, sources, findings));
    }
    Trees trees = read_trees(files, sources, findings);
    read_catalogues(trees, findings); // for what it finds
    return std::move(trees.roots);
}

std::optional<System> read_system_text(std::string text, std::string catalogue_text,
                                       SourceFiles& sources, Findings& findings,
                                       std::optional<Edition> edition) {
    Findings ours;
    std::optional<System> system;
    const int file = sources.add("description.toml", std::move(text));
    if (const auto form = read_description(file, {}, sources, ours)) {
        const int catalogue_file = sources.add("catalogue.toml", std::move(catalogue_text));
        Catalogues catalogues = read_catalogues(read_trees({catalogue_file}, sources, ours), ours);
        system = assemble(*form, std::move(catalogues), nullptr, ours);
    }
    if (system && edition) {
        system->edition = *edition;
    }
    findings.insert(findings.end(), ours.begin(), ours.end());
    return system;
}

} // namespace ohmfolio
