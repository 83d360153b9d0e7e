#include "input/house.h"

#include <algorithm>
#include <system_error>

#include <fmt/format.h>

#include "base/text.h"
#include "input/faults.h"
#include "input/files.h"
#include "input/form.h"

namespace ohmfolio {
namespace {

namespace fs = std::filesystem;
using toml_text::Entry;
using toml_text::Node;
using toml_text::Table;

class HouseReader {
  public:
    HouseReader(fs::path folder, SourceFiles& sources, Findings& findings)
        : folder_(std::move(folder)), sources_(sources), findings_(findings) {}

    House read(const Form& form) {
        House house;
        if (const Form* company = form.form("company")) {
            house.company = read_company(*company);
        }
        house.logo = read_logo(form);
        for (const Form& note : form.forms("note")) {
            house.notes.push_back(read_note(note));
        }
        house.lettering = read_lengths(form.form("lettering"));
        house.pens = read_lengths(form.form("pens"));
        for (const Form& sheet : form.forms("numbering")) {
            house.sheets.push_back({{sheet.text("content"), sheet.span_of("content")},
                                    {sheet.text("first"), sheet.span_of("first")},
                                    sheet.text("title")});
        }
        house.layouts = read_folder(form, "layouts");
        house.symbols = read_folder(form, "symbols");
        return house;
    }

    std::vector<Spanned<fs::path>> read_catalogues(const Form& form) {
        std::vector<Spanned<fs::path>> paths;
        for (const Item& item : form.items("catalogue")) {
            if (const auto path = inside(std::get<std::string>(item.value), item.span)) {
                paths.push_back({*path, item.span});
            }
        }
        return paths;
    }

  private:
    /// A path that the house file names; nothing, with a finding, when it leads elsewhere or
    /// nowhere.
    std::optional<fs::path> inside(const std::string& name, Span span) {
        const fs::path path = folder_ / name;
        if (name.empty() || fs::path(name).is_absolute() || !lies_in(path, folder_)) {
            findings_.push_back(input_fault(
                "input.path", span, "",
                fmt::format("\"{}\" does not lie in the folder of the house file", name),
                {"a path within that folder, without \"..\"", "copy the file there"}));
            return std::nullopt;
        }
        std::error_code ignored;
        if (!fs::exists(path, ignored)) {
            findings_.push_back(input_fault("input.file", span, "",
                                            fmt::format("there is no \"{}\"", name),
                                            {"a path relative to the house file", ""}));
            return std::nullopt;
        }
        return path;
    }

    static Company read_company(const Form& form) {
        return {form.text("name"), form.values<std::string>("address"), form.text("phone"),
                form.text("web"), form.text("licence")};
    }

    std::optional<HouseLogo> read_logo(const Form& form) {
        const auto name = form.get<std::string>("logo");
        if (!name) {
            return std::nullopt;
        }
        const fs::path suffix = fs::path(name->value).extension();
        if (suffix != ".svg" && suffix != ".png") {
            findings_.push_back(
                input_fault("input.value", name->span, "",
                            fmt::format("logo: \"{}\" is neither an SVG nor a PNG", name->value),
                            {"a file that ends in .svg or .png", ""}));
            return std::nullopt;
        }
        const auto path = inside(name->value, name->span);
        const auto file = path ? read_source(*path, name->value, name->span, sources_, findings_,
                                             "the path of an SVG or a PNG")
                               : std::nullopt;
        if (!file) {
            return std::nullopt;
        }
        return HouseLogo{suffix == ".svg" ? HouseLogo::Kind::drawing : HouseLogo::Kind::picture,
                         path->stem().string(),
                         *file,
                         0,
                         0,
                         name->span};
    }

    HouseNote read_note(const Form& form) {
        HouseNote note{form.text("id"),
                       form.text("text"),
                       form.value<bool>("caution"),
                       form.placed_values<std::string>("needs"),
                       form.placed_values<std::string>("unless"),
                       {},
                       form.span};
        for (const Item& item : form.items("editions")) {
            note.editions.push_back(std::get<Edition>(item.value));
        }
        if (!form.written("id") && !form.written("text")) {
            findings_.push_back(input_fault("input.required", form.span, "",
                                            "a note has neither an id nor a text",
                                            {"text = \"words of a further note\"",
                                             "with an id alone, the program's note goes"}));
        }
        return note;
    }

    static PaperLengths read_lengths(const Form* form) {
        PaperLengths lengths;
        if (form == nullptr) {
            return lengths;
        }
        for (const Field& field : form->fields) {
            if (const auto value = form->get<Feet>(field.key->name)) {
                lengths[std::string(field.key->name)] = {inches(value->value.value * 12),
                                                         value->span};
            }
        }
        return lengths;
    }

    fs::path read_folder(const Form& form, std::string_view key) {
        const auto name = form.get<std::string>(key);
        const auto path = name ? inside(name->value, name->span) : std::nullopt;
        std::error_code ignored;
        if (path && !fs::is_directory(*path, ignored)) {
            findings_.push_back(input_fault("input.file", name->span, "",
                                            fmt::format("\"{}\" is not a folder", name->value),
                                            {"a folder beside the house file", ""}));
            return {};
        }
        return path.value_or(fs::path{});
    }

    fs::path folder_;
    SourceFiles& sources_;
    Findings& findings_;
};

/// What the file states for every job, as a description would have it: the catalogues too, of a
/// job that names none.
std::optional<Node> defaults_of(const Node& root, bool with_catalogues) {
    const auto& keys = *root.as<Table>();
    const Entry* defaults = keys.find("defaults");
    const Entry* catalogue = with_catalogues ? keys.find("catalogue") : nullptr;
    const bool stated = defaults != nullptr && defaults->value->as<Table>() != nullptr;
    Node node = stated ? *defaults->value : Node{Table{}, root.span};
    if (catalogue != nullptr) {
        std::get<Table>(node.value).entries.push_back(*catalogue);
    }
    return node;
}

} // namespace

HouseFile read_house(const fs::path& path, std::string_view as_written, SourceFiles& sources,
                     Findings& findings) {
    HouseFile result;
    result.folder = path.parent_path().empty() ? fs::path(".") : path.parent_path();
    const auto file = read_source(path, as_written, {}, sources, findings);
    const auto root = file ? toml_text::parse(*file, sources, findings) : std::nullopt;
    if (!root) {
        return result;
    }
    const Form form = read_form(*root, house_shape(), "house", findings);
    HouseReader reader(result.folder, sources, findings);
    result.house = reader.read(form);
    result.catalogues = reader.read_catalogues(form);
    result.defaults = defaults_of(*root, !result.catalogues.empty());
    return result;
}

} // namespace ohmfolio
