#include "app/schema.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "input/units.h"
#include "input/values.h"
#include "input/words.h"

namespace ohmfolio {
namespace {

using Json = nlohmann::ordered_json;

Json text_like(const std::string& pattern) {
    return {{"type", "string"}, {"pattern", "^" + pattern + "$"}};
}

/// ECMA 262 expressions; what the reader takes beyond them (ranges, say) it checks itself.
constexpr std::string_view number_pattern =
    R"( *[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?(/[0-9]+|[ -][0-9]+/[0-9]+)?)";

std::string amount_pattern(const UnitFamily& family) {
    std::vector<std::string> units;
    for (const Unit& unit : family.units) {
        units.emplace_back(unit.spelling);
    }
    return fmt::format("{} *({}) *", number_pattern, join(units, "|"));
}

/// Offered for completion, while other spellings are left to the reader.
Json offered(const std::vector<std::string>& words) {
    const Json any = {{"type", "string"}};
    const Json listed = {{"enum", words}};
    return {{"anyOf", {listed, any}}};
}

Json value_schema(const Key& key) {
    if (const UnitFamily* family = unit_family(key.kind)) {
        return text_like(amount_pattern(*family));
    }
    switch (key.kind) {
    case Kind::flag:
        return {{"type", "boolean"}};
    case Kind::count:
        return {{"type", "integer"}, {"minimum", 1}};
    case Kind::number:
        return {{"type", "number"}, {"exclusiveMinimum", 0}};
    case Kind::date:
        return text_like("[0-9]{4}-[0-9]{2}-[0-9]{2}");
    case Kind::raceway:
    case Kind::material:
    case Kind::insulation:
    case Kind::edition:
    case Kind::choice:
        return {{"enum", words_of(key)}};
    case Kind::wire_size:
    case Kind::trade_size:
        return offered(words_of(key));
    case Kind::load_breaker:
    case Kind::values_by_name:
        return text_like(amount_pattern(*unit_family(Kind::current)) + "([123]P)? *");
    case Kind::plan_point:
        return text_like("[^,]+,[^,]+");
    default:
        return {{"type", "string"}};
    }
}

/// Every shape is stated once, under its name.
class Definitions {
  public:
    /// What `elsewhere`, the house, may state for all jobs need not stand in a job: `required`
    /// leaves it out.
    Json table(const Shape& shape, const Shape* elsewhere) {
        Json properties = Json::object();
        Json required = Json::array();
        for (const Key* key : shape.keys()) {
            const Key* other = elsewhere == nullptr ? nullptr : elsewhere->find(key->name);
            properties[std::string(key->name)] = property(*key, other);
            if (key->required && other == nullptr && key->name != "catalogue") {
                required.push_back(key->name);
            }
        }
        Json out{{"type", "object"},
                 {"properties", std::move(properties)},
                 {"additionalProperties", false}};
        if (shape.find("extends") != nullptr) { // then another record may state them
            const Json own = {{"required", std::move(required)}};
            const Json base = {{"required", {"extends"}}};
            out["anyOf"] = {own, base};
        } else if (!required.empty()) {
            out["required"] = std::move(required);
        }
        return out;
    }
    const Json& all() const { return definitions_; }

  private:
    Json property(const Key& key, const Key* elsewhere) {
        Json out = holds(key, elsewhere == nullptr ? nullptr : elsewhere->shape);
        if (out.contains("$ref")) { // draft 7 reads nothing beside a reference
            out = Json{{"allOf", Json::array({std::move(out)})}};
        }
        out["description"] = fmt::format("{}: {}", key.meaning, expected(key));
        if (key.kind == Kind::flag && !key.fallback.empty()) {
            out["default"] = key.fallback == "true";
        } else if (key.fallback.size() > 1 && key.fallback.front() == '"') {
            out["default"] = key.fallback.substr(1, key.fallback.size() - 2);
        }
        return out;
    }

    Json holds(const Key& key, const Shape* elsewhere) {
        switch (key.kind) {
        case Kind::table:
            return reference(*key.shape, elsewhere);
        case Kind::tables_by_id:
            return {{"type", "object"}, {"additionalProperties", reference(*key.shape, elsewhere)}};
        case Kind::table_list:
            return {{"type", "array"}, {"items", reference(*key.shape, elsewhere)}};
        case Kind::values_by_name: {
            Json one = value_schema(key);
            if (key.shape != nullptr) {
                one =
                    Json{{"anyOf", Json::array({std::move(one), reference(*key.shape, nullptr)})}};
            }
            return {{"type", "object"}, {"additionalProperties", std::move(one)}};
        }
        default: {
            const Json one = value_schema(key);
            if (!key.many) {
                return one;
            }
            const Json list = {{"type", "array"}, {"items", one}, {"minItems", 1}};
            return {{"anyOf", Json::array({one, list})}};
        }
        }
    }

    Json reference(const Shape& shape, const Shape* elsewhere) {
        auto [named, added] = names_.try_emplace(&shape);
        if (added) {
            std::string name(shape.name);
            std::ranges::replace(name, ' ', '_');
            while (definitions_.contains(name)) {
                name += '_';
            }
            named->second = name;
            definitions_[name] = Json::object(); // taken before what it holds is named
            Json stated = table(shape, elsewhere);
            definitions_[name] = std::move(stated);
        }
        return {{"$ref", "#/definitions/" + names_.at(&shape)}};
    }

    std::map<const Shape*, std::string> names_; // looked up only, never gone through
    Json definitions_ = Json::object();
};

std::string_view title(Document document) {
    switch (document) {
    case Document::catalogue:
        return "Catalogue of equipment";
    case Document::house:
        return "House style of an office";
    default:
        return "Description of a solar-plus-storage system";
    }
}

} // namespace

const Shape& shape_of(Document document) {
    switch (document) {
    case Document::catalogue:
        return catalogue_shape();
    case Document::house:
        return house_shape();
    default:
        return description_shape();
    }
}

std::string schema(Document document) {
    const Key* defaults = house_shape().find("defaults");
    const bool job = document == Document::description;
    Definitions definitions;
    const Json root = definitions.table(shape_of(document),
                                        job && defaults != nullptr ? defaults->shape : nullptr);
    Json out{{"$schema", "http://json-schema.org/draft-07/schema#"},
             {"title", title(document)},
             {"definitions", definitions.all()}};
    out.update(root);
    return out.dump(2) + "\n";
}

} // namespace ohmfolio
