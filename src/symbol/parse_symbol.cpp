#include "symbol/symbol.h"

#include <array>

#include <fmt/format.h>

#include "base/text.h"
#include "symbol/element.h"
#include "symbol/marks.h"
#include "symbol/number_reader.h"
#include "symbol/outline.h"

namespace ohmfolio {

namespace {

constexpr std::string_view svg_namespace = "http://www.w3.org/2000/svg";

class SymbolReader {
  public:
    SymbolReader(const SourcePlaces& places, SymbolFaults& faults)
        : places_(places), faults_(faults) {}

    Symbol read(pugi::xml_node root);

  private:
    void read_root(const Element& root);
    void read_size(const Element& root);
    void check_stated_size(const Element& root, const char* attribute, double expected);
    void read_children(const Element& root);
    void read_group(const Element& group);
    void read_drawing(const Element& element, const Paint& paint);
    void refuse(pugi::xml_node node, std::initializer_list<std::string_view> known);
    Element element(pugi::xml_node node) { return {node, places_, faults_}; }

    const SourcePlaces& places_;
    SymbolFaults& faults_;
    Symbol symbol_;
    int groups_ = 0;
};

Symbol SymbolReader::read(pugi::xml_node node) {
    symbol_.name = faults_.symbol;
    const Element root = element(node);
    symbol_.span = root.span();
    read_root(root);
    read_children(root);
    if (symbol_.title.empty()) {
        faults_.add("symbol.title", root.span(), "the symbol has no title",
                    "<title> with the words for the legend");
    }
    if (groups_ != 1) {
        faults_.add("symbol.group", root.span(),
                    groups_ == 0 ? "nothing is drawn" : "there is more than one <g>",
                    "one <g data-symbol=\"" + symbol_.name + "\">");
    }
    if (symbol_.ports.empty() && !symbol_.is_mark) {
        faults_.add(
            "symbol.no_ports", root.span(), "the symbol has no ports",
            "<circle data-port=\"NAME\" data-side=\"left\">, or data-kind=\"mark\" on <svg>");
    }
    return std::move(symbol_);
}

void SymbolReader::read_root(const Element& root) {
    root.allow_only({"xmlns", "viewBox", "width", "height", "data-kind"});
    if (root.text("xmlns") != svg_namespace) {
        root.fault("symbol.root", "xmlns", "viewers need the namespace of SVG",
                   fmt::format("xmlns=\"{}\"", svg_namespace));
    }
    if (root.has("data-kind"))
        symbol_.is_mark = root.one_of("data-kind", {"mark"}).has_value();
    read_size(root);
}

void SymbolReader::read_size(const Element& root) {
    if (!root.has("viewBox")) {
        root.fault("symbol.size", "viewBox", "the symbol has no viewBox",
                   "viewBox=\"0 0 WIDTH HEIGHT\" in millimetres");
        return;
    }
    NumberReader reader(root.text("viewBox"));
    std::array<std::optional<double>, 4> box;
    for (auto& number : box)
        number = reader.number();
    if (!box[0] || !box[1] || !box[2] || !box[3] || !reader.at_end() || *box[0] != 0.0 ||
        *box[1] != 0.0 || *box[2] <= 0.0 || *box[3] <= 0.0) {
        root.fault("symbol.size", "viewBox", "the viewBox is not a box at 0 0",
                   "viewBox=\"0 0 WIDTH HEIGHT\" in millimetres");
        return;
    }
    symbol_.size = {millimetres(*box[2]), millimetres(*box[3])};
    symbol_.art.size = symbol_.size;
    check_stated_size(root, "width", *box[2]);
    check_stated_size(root, "height", *box[3]);
}

void SymbolReader::check_stated_size(const Element& root, const char* attribute, double expected) {
    auto value = root.text(attribute);
    const bool in_millimetres = value.ends_with("mm");
    if (in_millimetres)
        value.remove_suffix(2);
    if (!in_millimetres || whole_number(value) != expected) {
        root.fault("symbol.size", attribute,
                   root.has(attribute) ? fmt::format("{} differs from the viewBox", attribute)
                                       : fmt::format("the symbol has no {}", attribute),
                   fmt::format("{}=\"{}mm\", so that one unit is one millimetre", attribute,
                               trimmed(expected, 6)));
    }
}

void SymbolReader::read_children(const Element& root) {
    for (const auto child : root.node().children()) {
        const std::string_view name = child.name();
        if (name == "title") {
            element(child).allow_only({});
            symbol_.title = upper(child.child_value());
        } else if (name == "g") {
            ++groups_;
            read_group(element(child));
        } else {
            refuse(child, {"title", "g"});
        }
    }
}

void SymbolReader::read_group(const Element& group) {
    group.allow_only({"data-symbol", "class", "stroke", "fill", "stroke-width", "stroke-linecap",
                      "stroke-linejoin", "font-family"});
    if (group.text("data-symbol") != symbol_.name) {
        group.fault("symbol.name", "data-symbol", "the symbol is not named as its file is",
                    fmt::format("data-symbol=\"{}\"", symbol_.name));
    }
    if (group.has("stroke-linecap"))
        group.one_of("stroke-linecap", {"round"});
    if (group.has("stroke-linejoin"))
        group.one_of("stroke-linejoin", {"round"});
    const Paint paint = painted(group, {});
    for (const auto child : group.node().children())
        read_drawing(element(child), paint);
}

void SymbolReader::read_drawing(const Element& element, const Paint& paint) {
    if (element.name() == "text") {
        read_lettering(element, paint, symbol_);
    } else if (element.has("data-port")) {
        if (element.name() != "circle")
            element.fault("symbol.port", "data-port", "only a <circle> can be a port");
        read_port(element, paint, symbol_);
    } else if (!read_outline(element, paint, symbol_.art)) {
        refuse(element.node(), {"line", "polyline", "polygon", "rect", "circle", "path", "text"});
    }
}

void SymbolReader::refuse(pugi::xml_node node, std::initializer_list<std::string_view> known) {
    const std::vector<std::string> names(known.begin(), known.end());
    const auto where = element(node).span();
    if (node.type() != pugi::node_element) {
        faults_.add("symbol.element", where, "text stands where an element should");
        return;
    }
    const auto near = nearest(node.name(), names);
    faults_.add("symbol.element", where, fmt::format("<{}> cannot stand here", node.name()),
                "one of " + join(names, ", "),
                near.empty() ? "" : fmt::format("did you mean <{}>?", near));
}

/// More than any symbol or logo has; every sheet draws the logo.
constexpr int most_elements = 1'000;
constexpr std::size_t most_segments = 20'000;

int count_elements(const pugi::xml_document& document) {
    struct Counter : pugi::xml_tree_walker {
        int count = 0;
        bool for_each(pugi::xml_node& /*node*/) override { return ++count <= most_elements; }
    } counter;
    pugi::xml_node root = document;
    root.traverse(counter);
    return counter.count;
}

std::size_t count_segments(const Frame& art) {
    std::size_t count = 0;
    for (const Mark& mark : art.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        count += path == nullptr ? 0 : path->segments.size();
    }
    return count;
}

/// The one element of a well-formed document, or nothing with a fault.
pugi::xml_node only_root(const pugi::xml_document& document, const SourcePlaces& places,
                         SymbolFaults& faults) {
    pugi::xml_node root;
    for (const auto child : document.children()) {
        const auto where = places.element(static_cast<std::size_t>(child.offset_debug()));
        if (child.type() == pugi::node_doctype) {
            faults.add("symbol.root", where, "a document type is not understood",
                       "a file that begins with <svg>");
        } else if (root || std::string_view(child.name()) != "svg") {
            faults.add("symbol.root", where, fmt::format("<{}> is not the one <svg>", child.name()),
                       "one <svg> and nothing beside it");
        } else {
            root = child;
        }
    }
    return root;
}

} // namespace

std::optional<Symbol> parse_symbol(const std::string& name, int file, const SourceFiles& sources,
                                   Findings& findings) {
    const std::string& text = sources.text(file);
    const SourcePlaces places(file, text);
    SymbolFaults faults{name, findings};
    pugi::xml_document document;
    const auto result = document.load_buffer(
        text.data(), text.size(),
        pugi::parse_default | pugi::parse_doctype | pugi::parse_trim_pcdata, pugi::encoding_utf8);
    if (!result) {
        const auto at = static_cast<std::size_t>(std::max<std::ptrdiff_t>(result.offset, 0));
        faults.add("symbol.xml", places.span(at, at),
                   fmt::format("not well-formed XML: {}", result.description()));
        return std::nullopt;
    }
    if (count_elements(document) > most_elements) {
        faults.add("symbol.size", places.span(0, 0), "the drawing has too many elements",
                   fmt::format("at most {}", most_elements), "a simpler drawing");
        return std::nullopt;
    }
    const auto root = only_root(document, places, faults);
    if (!root)
        return std::nullopt;
    Symbol symbol = SymbolReader(places, faults).read(root);
    if (count_segments(symbol.art) > most_segments) {
        faults.add("symbol.size", symbol.span, "the outlines have too many corners",
                   fmt::format("at most {} in all", most_segments), "a simpler drawing");
    }
    if (faults.count > 0)
        return std::nullopt;
    return symbol;
}

} // namespace ohmfolio
