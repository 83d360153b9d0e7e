#include <cstdlib>
#include <iostream>

#include <CLI/CLI.hpp>
#include <unistd.h>

#include "app/batch.h"
#include "app/commands.h"
#include "app/data_folder.h"
#include "app/desk_commands.h"
#include "base/edition.h"
#include "base/text.h"

namespace ohmfolio {

namespace {

/// Colour only for a person at a terminal who has not asked for none (no-color.org).
bool wants_colour(int stream) {
    const char* no_color = std::getenv("NO_COLOR");
    return ::isatty(stream) != 0 && (no_color == nullptr || *no_color == '\0');
}

std::string version_text() {
    std::string text = "ohmfolio " OHMFOLIO_VERSION "\ncode editions:";
    for (const Edition edition : all_editions) {
        text += " " + name(edition);
    }
    return text;
}

/// For the parser: what is wrong with the name of an edition; nothing when it is known.
std::string fault_of_edition(const std::string& text) {
    if (parse_edition(text))
        return {};
    std::vector<std::string> known;
    for (const Edition edition : all_editions) {
        known.push_back(name(edition));
    }
    return "the code book has no edition \"" + text + "\"; it has " + join(known, ", ");
}

void add_style(CLI::App& command, Style& style) {
    command.add_option("--symbols", style.symbols,
                       "Folder of your own symbols, one SVG each; one named as a shipped symbol "
                       "takes its place");
    command.add_option("--sheet", style.sheet,
                       "Format of the sheets, such as ansi-d; a file of layouts/ that states a "
                       "paper");
}

/// The parser's own reading of the environment would reach the commands that were not given as
/// well, and through them the one variable that all share.
std::filesystem::path house_of_environment() {
    const char* named = std::getenv("OHMFOLIO_HOUSE");
    return named == nullptr ? "" : named;
}

void add_house(CLI::App& command, std::filesystem::path& house) {
    command.add_option("--house", house,
                       "House style of the office; none: what OHMFOLIO_HOUSE names, or house.toml "
                       "in the folder of the system");
}

} // namespace

int run(int argc, const char* const argv[], std::ostream& out, std::ostream& err) {
    CLI::App app{
        "Draws the electrical permit set of a solar-plus-storage system from one TOML file.",
        "ohmfolio"};
    app.set_version_flag("--version", version_text());
    app.require_subcommand(1);
    app.footer(
        "Exit codes: 0 clean, 1 violations, 2 usage or unreadable input, 3 machine failure.\n"
        "Results are for review by a qualified person; the authority having jurisdiction "
        "decides.");
    std::string data;
    app.add_option("--data", data,
                   "Folder with symbols/, layouts/ and texts/ to use instead of "
                   "those that came with the program");

    std::filesystem::path house = house_of_environment();
    DrawOptions drawing;
    CLI::App* draw_command =
        app.add_subcommand("draw", "Write the packet: one PDF, one SVG a sheet, and report.json");
    std::vector<std::filesystem::path> systems;
    int at_once = 0;
    draw_command->add_option("SYSTEM.toml", systems, "The system, or several of them")->required();
    draw_command
        ->add_option("--jobs", at_once,
                     "Of several systems, how many are drawn at once; none: as many as "
                     "there are processors")
        ->check(CLI::PositiveNumber);
    draw_command
        ->add_option("--out", drawing.out,
                     "Folder to write into; each of several systems has its own in it")
        ->capture_default_str();
    draw_command->add_flag("--draft", drawing.draft,
                           "Draw in spite of violations; every sheet is marked as a draft");

    draw_command
        ->add_option("--since", drawing.since,
                     "PDF of the earlier set: what changed since is clouded, comments are answered")
        ->check(CLI::ExistingFile);
    std::string reissue = "all";
    draw_command->add_option("--reissue", reissue, "Sheets of a resubmittal that are handed in")
        ->check(CLI::IsMember({"all", "changed"}))
        ->capture_default_str();
    draw_command->add_flag("--replace", drawing.replace,
                           "Draw over an issued set that never left the office");
    draw_command->add_option("--record", drawing.record,
                             "File that lists the sets that were issued, with their digests");
    add_style(*draw_command, drawing.style);
    add_house(*draw_command, house);

    SymbolsOptions charting;
    CLI::App* symbols_command = app.add_subcommand(
        "symbols", "Write a chart of all graphic symbols: one PDF and one SVG a sheet");
    symbols_command->add_option("--out", charting.out, "Folder to write into")
        ->capture_default_str();
    add_style(*symbols_command, charting.style);
    add_house(*symbols_command, house);

    CompareOptions comparing;
    std::string comparison_format = "text";
    CLI::App* compare_command = app.add_subcommand(
        "compare", "Tell what changed between two issues, and what followed from it");
    compare_command
        ->add_option("OLD", comparing.older, "A description, an issued PDF, or a folder of them")
        ->required();
    compare_command->add_option("NEW", comparing.newer, "The same, later")->required();
    compare_command->add_option("--format", comparison_format, "How it is told")
        ->check(CLI::IsMember({"text", "json"}))
        ->capture_default_str();
    add_house(*compare_command, house);

    DeskCommands desk(app);
    CheckOptions checking;
    std::string findings_format = "text";
    CLI::App* check_command =
        app.add_subcommand("check", "Print findings: 0 clean, 1 violations, 2 unreadable");
    check_command->add_option("SYSTEM.toml", checking.system, "The system")->required();
    check_command->add_option("--format", findings_format, "How they are told")
        ->check(CLI::IsMember({"text", "json", "sarif"}))
        ->capture_default_str();
    add_house(*check_command, house);

    PreviewOptions previewing;
    CLI::App* preview_command = app.add_subcommand(
        "preview", "Show sheets and findings in a browser, anew whenever the file is saved");
    preview_command->add_option("SYSTEM.toml", previewing.system, "The system")->required();
    preview_command
        ->add_option("--port", previewing.port,
                     "Port of this machine to answer at; 0: any; none: the usual one")
        ->check(CLI::Range(0, 65535));
    add_style(*preview_command, previewing.style);
    add_house(*preview_command, house);

    std::filesystem::path explained;
    std::string id;
    CLI::App* explain_command = app.add_subcommand(
        "explain", "Print how a number came about, down to table rows and code sections");
    explain_command->add_option("SYSTEM.toml", explained, "The system")->required();
    explain_command->add_option("ID", id, "A tag such as C3, Q2, R1, or an equipment id")
        ->required();
    add_house(*explain_command, house);

    UnpackOptions unpacking;
    CLI::App* unpack_command = app.add_subcommand(
        "unpack", "Restore the description, catalogues and report that a packet carries");
    unpack_command->add_option("PACKET.pdf", unpacking.packet, "The packet")->required();
    unpack_command->add_option("--out", unpacking.out, "Folder to write into")
        ->capture_default_str();
    unpack_command->add_flag("--force", unpacking.force, "Overwrite files that differ");

    std::string edition;
    std::string format = "text";
    CLI::App* rules_command = app.add_subcommand(
        "rules", "Print the code book: every rule and table, its paragraphs, how sure they are");
    rules_command
        ->add_option("--code", edition,
                     "One edition, such as \"NEC 2020\"; none: all, side by side")
        ->check(CLI::Validator(fault_of_edition, "EDITION"));
    rules_command->add_option("--format", format, "How it is set")
        ->check(CLI::IsMember({"text", "markdown"}))
        ->capture_default_str();

    try {
        app.parse(argc, argv);
    } catch (const CLI::Success& wish) { // --help and --version
        return app.exit(wish, out, err);
    } catch (const CLI::ParseError& fault) {
        app.exit(fault, out, err);
        return exit_usage;
    }
    if (*rules_command) {
        return rules({parse_edition(edition), format == "markdown"}, out);
    }
    if (*unpack_command) {
        return unpack(unpacking, out, err);
    }
    // `check` is asked for its findings and prints them; elsewhere they are a side remark.
    const int findings_stream = *check_command ? STDOUT_FILENO : STDERR_FILENO;
    const Surroundings where{data.empty() ? data_folder() : std::filesystem::path(data),
                             wants_colour(findings_stream), house};
    if (const std::optional<int> code = desk.run(where, out, err)) {
        return *code;
    }
    if (*compare_command) {
        comparing.json = comparison_format == "json";
        return compare(comparing, where, out, err);
    }
    if (*draw_command) {
        drawing.only_changed = reissue == "changed";
        if (systems.size() > 1) {
            return draw_all({systems, drawing, at_once}, where, out, err);
        }
        drawing.system = systems.front();
        return draw(drawing, where, out, err);
    }
    if (*symbols_command) {
        return symbols(charting, where, out, err);
    }
    if (*preview_command) {
        return preview(previewing, where, out, err);
    }
    if (*check_command) {
        checking.format = findings_format == "json"    ? FindingsFormat::json
                          : findings_format == "sarif" ? FindingsFormat::sarif
                                                       : FindingsFormat::text;
        return check(checking, where, out);
    }
    return explain(explained, id, where, out, err);
}

} // namespace ohmfolio
