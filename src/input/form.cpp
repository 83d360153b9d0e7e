#include "input/form.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "input/faults.h"
#include "input/id_range.h"

namespace ohmfolio {
namespace {

using toml_text::Array;
using toml_text::Entry;
using toml_text::Node;
using toml_text::Table;

constexpr std::size_t most_listed = 1000; ///< values in one list; more is a slip
constexpr std::size_t most_alike = 1000;  ///< pieces of equipment of one kind

bool optional_throughout(const Shape& shape) {
    return std::ranges::none_of(shape.keys(), &Key::required);
}

class FormReader {
  public:
    FormReader(std::string_view subjects, Findings& findings)
        : subjects_(subjects), findings_(findings) {}

    Form read(const Table& table, const Shape& shape, std::string path, Span span) {
        Form form{&shape, std::move(path), {}, span, {}};
        for (const Entry& entry : table.entries) {
            if (const Key* key = shape.find(entry.key)) {
                form.fields.push_back(read_field(*key, entry, inside(form, entry.key)));
            } else {
                report_unknown(entry, form);
            }
        }
        for (const Key* key : shape.keys()) {
            if (form.find(key->name) == nullptr) {
                supply(*key, form);
            }
        }
        return form;
    }

  private:
    static std::string inside(const Form& form, std::string_view key) {
        return form.path.empty() ? std::string(key) : fmt::format("{}.{}", form.path, key);
    }

    void report(std::string rule, Span span, std::string message, Advice advice) {
        findings_.push_back(
            input_fault(std::move(rule), span, subject_, std::move(message), std::move(advice)));
    }

    void report_unknown(const Entry& entry, const Form& form) {
        const auto names = form.shape->names();
        report("input.unknown_key", entry.key_span,
               form.path.empty() ? fmt::format("unknown key \"{}\"", entry.key)
                                 : fmt::format("unknown key \"{}\" in {}", entry.key, form.path),
               {"one of " + join(names, ", "), did_you_mean(entry.key, names)});
    }

    /// The fallback of a key that was not written, or the complaint that it is missing.
    void supply(const Key& key, Form& form) {
        if (key.required) {
            report("input.required", form.span,
                   fmt::format("{} is missing", inside(form, key.name)),
                   {fmt::format("{}: {}", key.meaning, expected(key)), ""});
            return;
        }
        Field field{&key, form.span, form.span, false, {}, {}};
        if (!key.fallback.empty()) {
            const auto understood = understand(key, fallback_node(key, form.span));
            field.items.push_back({understood.value.value(), form.span, {}});
            form.fields.push_back(std::move(field));
        } else if (key.kind == Kind::table && optional_throughout(*key.shape)) {
            field.forms.push_back(read({}, *key.shape, inside(form, key.name), form.span));
            form.fields.push_back(std::move(field));
        }
    }

    Field read_field(const Key& key, const Entry& entry, const std::string& path) {
        Field field{&key, entry.key_span, entry.value->span, true, {}, {}};
        switch (key.kind) {
        case Kind::table:
            read_table(field, entry, path);
            break;
        case Kind::tables_by_id:
            read_tables_by_id(field, *entry.value, path);
            break;
        case Kind::table_list:
            read_table_list(field, *entry.value, path);
            break;
        case Kind::values_by_name:
            read_values_by_name(field, *entry.value, path);
            break;
        default:
            read_values(field, *entry.value, path);
        }
        return field;
    }

    void read_value(Field& field, const Node& node, const std::string& path, std::string name) {
        Understood understood = understand(*field.key, node);
        if (understood.value) {
            field.items.push_back({std::move(*understood.value), node.span, std::move(name)});
            return;
        }
        report(understood.rule, node.span, fmt::format("{}: {}", path, understood.message),
               {expected(*field.key), understood.hint});
    }

    void read_values(Field& field, const Node& node, const std::string& path) {
        const auto* list = field.key->many ? node.as<Array>() : nullptr;
        if (list == nullptr) {
            read_value(field, node, path, {});
            return;
        }
        if (list->items.size() > most_listed) {
            report("input.value", node.span,
                   fmt::format("{} lists {} values", path, list->items.size()),
                   {fmt::format("at most {}", most_listed), ""});
            return;
        }
        for (const Node& item : list->items) {
            read_value(field, item, path, {});
        }
        if (list->items.empty()) {
            report("input.value", node.span, fmt::format("{} is an empty list", path),
                   {expected(*field.key), "leave the key out, or name at least one"});
        }
    }

    const Table* table_at(const Key& key, const Node& node, const std::string& path) {
        const auto* table = node.as<Table>();
        if (table == nullptr) {
            report("input.type", node.span, fmt::format("{} is {}", path, node.kind()),
                   {expected(key), ""});
        }
        return table;
    }

    void read_table(Field& field, const Entry& entry, const std::string& path) {
        if (const Table* table = table_at(*field.key, *entry.value, path)) {
            field.forms.push_back(read(*table, *field.key->shape, path, entry.key_span));
        }
    }

    void read_tables_by_id(Field& field, const Node& node, const std::string& path) {
        const Table* table = table_at(*field.key, node, path);
        if (table == nullptr) {
            return;
        }
        for (const Entry& entry : table->entries) {
            const std::string inner_path = fmt::format("{}.{}", path, entry.key);
            subject_ = fmt::format("{}:{}", subjects_, entry.key);
            if (const Table* inner = table_at(*field.key, *entry.value, inner_path)) {
                Form form = read(*inner, *field.key->shape, inner_path, entry.key_span);
                form.id = entry.key;
                add_each(std::move(form), path, field.forms);
            }
            subject_.clear();
        }
    }

    /// The form under its id; under a range of ids, one for each of them.
    void add_each(Form form, const std::string& path, std::vector<Form>& forms) {
        if (!is_id_range(form.id)) {
            check_ranges(form, 1);
            forms.push_back(std::move(form));
            return;
        }
        const auto range = parse_id_range(form.id);
        if (!range) {
            report("input.range", form.span, fmt::format("\"{}\" is not a range of ids", form.id),
                   {"one name with numbers that rise, such as \"INV-1 to INV-30\"", ""});
            return;
        }
        check_ranges(form, range->count());
        if (forms.size() > most_alike) {
            return; // more than one set takes, which is told where all are counted
        }
        for (int n = 0; n < range->count(); ++n) {
            Form one = form;
            one.id = range->id(n);
            one.path = inside_of(path, one.id);
            name_neighbours(one, n, range->count());
            forms.push_back(std::move(one));
        }
    }

    static std::string inside_of(const std::string& path, const std::string& id) {
        return fmt::format("{}.{}", path, id);
    }

    /// Ranges that the form names must share out its `count` evenly.
    void check_ranges(const Form& form, int count) {
        for (const Field& field : form.fields) {
            for (const Item& item : field.items) {
                const auto* named = std::get_if<std::string>(&item.value);
                if (field.key->kind != Kind::equipment || named == nullptr ||
                    id_for(*named, 0, count)) {
                    continue;
                }
                const auto range = parse_id_range(*named);
                report("input.range", item.span,
                       range
                           ? fmt::format("{} cannot be shared out among {}",
                                         count == 1 ? "one" : std::to_string(count), range->count())
                           : fmt::format("\"{}\" is not a range of ids", *named),
                       {"as many ids, or a number of them that divides evenly",
                        "state the rest in a table of its own"});
            }
        }
    }

    /// What each of `count` alike names, where it names a range.
    static void name_neighbours(Form& form, int n, int count) {
        for (Field& field : form.fields) {
            if (field.key->kind != Kind::equipment) {
                continue;
            }
            for (Item& item : field.items) {
                auto* named = std::get_if<std::string>(&item.value);
                if (named != nullptr) {
                    *named = id_for(*named, n, count).value_or(*named);
                }
            }
        }
    }

    void read_table_list(Field& field, const Node& node, const std::string& path) {
        const auto* list = node.as<Array>();
        if (list == nullptr) {
            report("input.type", node.span, fmt::format("{} is {}", path, node.kind()),
                   {expected(*field.key), ""});
            return;
        }
        for (const Node& item : list->items) {
            if (const Table* table = table_at(*field.key, item, path)) {
                field.forms.push_back(read(*table, *field.key->shape, path, item.span));
            }
        }
    }

    void read_values_by_name(Field& field, const Node& node, const std::string& path) {
        if (const Table* table = table_at(*field.key, node, path)) {
            for (const Entry& entry : table->entries) {
                const std::string inner = fmt::format("{}.{}", path, entry.key);
                const Table* more = entry.value->as<Table>();
                if (more != nullptr && field.key->shape != nullptr) {
                    Form form = read(*more, *field.key->shape, inner, entry.key_span);
                    form.id = entry.key;
                    field.forms.push_back(std::move(form));
                } else {
                    read_value(field, *entry.value, inner, entry.key);
                }
            }
        }
    }

    std::string_view subjects_;
    Findings& findings_;
    std::string subject_;
};

} // namespace

const Field* Form::find(std::string_view key) const {
    const auto found =
        std::ranges::find_if(fields, [&](const Field& field) { return field.key->name == key; });
    return found == fields.end() ? nullptr : &*found;
}

std::optional<int> Form::word(std::string_view key) const {
    const auto chosen = get<std::string>(key);
    if (!chosen) {
        return std::nullopt;
    }
    const auto& words = find(key)->key->words;
    return static_cast<int>(std::ranges::find(words, chosen->value) - words.begin());
}

bool Form::written(std::string_view key) const {
    const Field* field = find(key);
    return field != nullptr && field->written;
}

Span Form::span_of(std::string_view key) const {
    const Field* field = find(key);
    return field == nullptr ? span : field->span;
}

const Form* Form::form(std::string_view key) const {
    const auto& all = forms(key);
    return all.empty() ? nullptr : &all.front();
}

const std::vector<Form>& Form::forms(std::string_view key) const {
    static const std::vector<Form> none;
    const Field* field = find(key);
    return field == nullptr ? none : field->forms;
}

const std::vector<Item>& Form::items(std::string_view key) const {
    static const std::vector<Item> none;
    const Field* field = find(key);
    return field == nullptr ? none : field->items;
}

Form read_form(const Node& root, const Shape& shape, std::string_view subjects,
               Findings& findings) {
    const Position start{1, 1};
    return FormReader(subjects, findings)
        .read(*root.as<Table>(), shape, {}, Span{root.span.file, start, start});
}

} // namespace ohmfolio
