/// The commands that help to write a description, as they appear on the command line: start,
/// schema, keys.
#pragma once

#include <iosfwd>
#include <optional>

#include <CLI/CLI.hpp>

#include "app/commands.h"

namespace ohmfolio {

class DeskCommands {
  public:
    explicit DeskCommands(CLI::App& app);
    /// After parsing; nothing when none of these commands was given.
    std::optional<int> run(const Surroundings& where, std::ostream& out, std::ostream& err);

  private:
    void add_start(CLI::App& app);
    void add_schema(CLI::App& app);
    void add_keys(CLI::App& app);
    void add_catalogue(CLI::App& app);
    void add_import(CLI::App& app);
    void add_completion(CLI::App& app);

    const CLI::App& app_;

    CLI::App* start_ = nullptr;
    CLI::App* schema_ = nullptr;
    CLI::App* keys_ = nullptr;
    CLI::App* catalogue_ = nullptr;
    CLI::App* import_ = nullptr;
    CLI::App* completion_ = nullptr;
    CLI::App* manual_ = nullptr;
    StartOptions starting_;
    KeysOptions listing_;
    CatalogueOptions choosing_;
    ImportOptions importing_;
    std::string document_ = "description";
    std::string format_ = "text";
    std::string shell_;
};

} // namespace ohmfolio
