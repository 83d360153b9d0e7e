#include "app/desk_commands.h"

#include <ostream>

#include <unistd.h>

#include "app/shell_help.h"

namespace ohmfolio {
namespace {

Document document_called(const std::string& name) {
    return name == "catalogue" ? Document::catalogue
           : name == "house"   ? Document::house
                               : Document::description;
}

void add_document(CLI::App& command, std::string& document) {
    command.add_option("DOCUMENT", document, "Which file: description, catalogue or house")
        ->check(CLI::IsMember({"description", "catalogue", "house"}))
        ->capture_default_str();
}

} // namespace

DeskCommands::DeskCommands(CLI::App& app) : app_(app) {
    add_start(app);
    add_schema(app);
    add_keys(app);
    add_catalogue(app);
    add_import(app);
    add_completion(app);
}

void DeskCommands::add_start(CLI::App& app) {
    start_ = app.add_subcommand(
        "start", "Write a first description to go on from; asks for what is not given");
    start_->add_option("KIND", starting_.kind, "Kind of system; none: they are listed");
    start_->add_option("--name", starting_.name, "Name of the project");
    start_->add_option("--address", starting_.address, "Address of the site");
    start_->add_option("--modules", starting_.modules, "Number of modules")
        ->check(CLI::PositiveNumber);
    start_->add_option("--date", starting_.date,
                       "Date of the set, such as 2026-03-02; none: today");
    start_->add_option("--out", starting_.out, "File to write; one that exists is left as it is")
        ->capture_default_str();
}

void DeskCommands::add_schema(CLI::App& app) {
    schema_ = app.add_subcommand(
        "schema", "Print the JSON Schema of a file, for editors that complete and check TOML");
    add_document(*schema_, document_);
}

void DeskCommands::add_keys(CLI::App& app) {
    keys_ = app.add_subcommand(
        "keys", "Print the reference of keys: what each takes, default, meaning, example");
    add_document(*keys_, document_);
    keys_->add_option("--only", listing_.part, "Only tables and keys with this in their name");
    keys_->add_option("--format", format_, "How it is set")
        ->check(CLI::IsMember({"text", "markdown"}))
        ->capture_default_str();
}

void DeskCommands::add_catalogue(CLI::App& app) {
    catalogue_ = app.add_subcommand(
        "catalogue", "List equipment records by kind, and check the files they come from");
    catalogue_->add_option("FILE.toml", choosing_.files,
                           "Catalogues; none: those of the house and of the program");
    catalogue_->add_option("--kind", choosing_.kind, "One kind, such as battery");
    catalogue_->add_option("--with", choosing_.conditions,
                           "Only records with this, such as \"power >= 400 W\"; may be repeated");
    catalogue_->add_option("--text", choosing_.text,
                           "Only records with this in key, maker or model");
}

void DeskCommands::add_import(CLI::App& app) {
    import_ = app.add_subcommand(
        "import", "Make catalogue records out of a table of equipment data, such as a CSV");
    import_->add_option("TABLE.csv", importing_.table, "The table, with a line of headings")
        ->required();
    import_
        ->add_option("--map", importing_.map,
                     "TOML file that says which column becomes which key of a record")
        ->required();
    import_->add_option("--out", importing_.out, "File to write; one that exists is left as it is")
        ->capture_default_str();
}

void DeskCommands::add_completion(CLI::App& app) {
    completion_ = app.add_subcommand("completion", "Print the completion script of a shell");
    completion_->add_option("SHELL", shell_, "Which shell")
        ->required()
        ->check(CLI::IsMember({"bash", "zsh", "fish"}));
    manual_ = app.add_subcommand("manual", "Print the manual page, for man");
}

std::optional<int> DeskCommands::run(const Surroundings& where, std::ostream& out,
                                     std::ostream& err) {
    if (*start_) {
        starting_.interactive = ::isatty(STDIN_FILENO) != 0;
        return start(starting_, where, out, err);
    }
    if (*schema_) {
        out << schema(document_called(document_));
        return exit_clean;
    }
    if (*keys_) {
        listing_.document = document_called(document_);
        listing_.markdown = format_ == "markdown";
        return keys(listing_, out, err);
    }
    if (*catalogue_) {
        return list_catalogue(choosing_, where, out, err);
    }
    if (*import_) {
        return import_table(importing_, where, out, err);
    }
    if (*completion_) {
        out << completion(app_, shell_ == "zsh"    ? Shell::zsh
                                : shell_ == "fish" ? Shell::fish
                                                   : Shell::bash);
        return exit_clean;
    }
    if (*manual_) {
        out << manual(app_);
        return exit_clean;
    }
    return std::nullopt;
}

} // namespace ohmfolio
