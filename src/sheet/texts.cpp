#include "sheet/texts.h"

#include <fmt/format.h>

#include "sheet/conditions.h"
#include "sheet/places.h"
#include "sheet/reading.h"

namespace ohmfolio::sheets {

namespace {

std::vector<std::string> read_conditions(TableReader& table, std::string_view key) {
    std::vector<std::string> names = table.texts(key);
    for (const std::string& name : names) {
        if (find_condition(name))
            continue;
        std::string known;
        for (const Condition& condition : conditions())
            known += fmt::format("{}{}", known.empty() ? "" : ", ", condition.name);
        table.fault(key, fmt::format("no condition is called \"{}\"", name), known);
    }
    return names;
}

Use read_use(TableReader& table) {
    Use use;
    use.needs = read_conditions(table, "needs");
    use.unless = read_conditions(table, "unless");
    use.editions = table.editions("editions");
    return use;
}

void read_notes(const toml_text::Node& node, SheetTexts& texts, Findings& findings) {
    TableReader root(node, "the notes", findings);
    TableReader remarks = root.table("remarks");
    texts.remarks.conductors = remarks.text("conductors");
    texts.remarks.calculations = remarks.text("calculations");
    texts.remarks.placards = remarks.text("placards");
    texts.remarks.roof_plan = remarks.text("roof_plan");
    texts.remarks.branch_map = remarks.text("branch_map");
    texts.remarks.appendix = remarks.text("appendix");
    texts.remarks.paragraphs = remarks.text("paragraphs");
    texts.remarks.without_paragraph = remarks.text("without_paragraph");
    texts.remarks.unverified = remarks.text("unverified");
    texts.remarks.unverified_placards = remarks.text("unverified_placards");
    texts.remarks.material = remarks.text("material");
    remarks.finish();
    for (TableReader& table : root.tables("note")) {
        Note note;
        note.id = table.text("id");
        note.caution = table.flag_or("caution", false);
        note.text = table.text("text");
        note.use = read_use(table);
        table.finish();
        texts.notes.push_back(std::move(note));
    }
    root.finish();
}

void read_abbreviations(const toml_text::Node& node, SheetTexts& texts, Findings& findings) {
    TableReader root(node, "the abbreviations", findings);
    TableReader list = root.table("abbreviations");
    for (const std::string& letters : list.keys())
        texts.abbreviations.push_back({letters, list.text(letters)});
    root.finish();
}

void read_signals(TableReader table, SheetTexts& texts) {
    for (const std::string& key : table.keys()) {
        TableReader each = table.table(key);
        Signal signal;
        signal.word = each.text("word");
        signal.ground = each.color("ground");
        signal.ink = each.color("ink");
        signal.triangle = each.flag_or("triangle", true);
        each.finish();
        texts.signals.emplace(key, std::move(signal));
    }
    table.finish();
}

PlacardPanel::Kind read_panel_kind(TableReader& table) {
    const std::string kind = table.text_or("kind", "lettering");
    if (kind == "signal")
        return PlacardPanel::Kind::signal;
    if (kind == "lettering")
        return PlacardPanel::Kind::lettering;
    if (kind == "blank")
        return PlacardPanel::Kind::blank;
    if (kind == "roof_plan")
        return PlacardPanel::Kind::roof_plan;
    if (kind == "plan")
        return PlacardPanel::Kind::plan;
    if (kind == "directory")
        return PlacardPanel::Kind::directory;
    table.fault("kind", fmt::format("\"{}\" is no kind of panel", kind),
                "signal, lettering, blank, roof_plan, plan or directory");
    return PlacardPanel::Kind::lettering;
}

PlacardPanel read_panel(TableReader& table, const SheetTexts& texts) {
    PlacardPanel panel;
    panel.kind = read_panel_kind(table);
    panel.letter_height = table.length("letter_height");
    panel.lines = table.texts("lines");
    panel.bold = table.flag_or("bold", true);
    panel.centred = table.flag_or("centred", true);
    panel.editions = table.editions("editions");
    if (table.has("ground"))
        panel.ground = table.color("ground");
    if (table.has("ink"))
        panel.ink = table.color("ink");
    if (panel.kind == PlacardPanel::Kind::signal) {
        panel.signal = table.text("signal");
        if (!texts.signals.contains(panel.signal)) {
            table.fault("signal", fmt::format("no signal is called \"{}\"", panel.signal),
                        "one of the table [signal]");
        }
    }
    table.finish();
    return panel;
}

Placard read_placard(TableReader& table, const SheetTexts& texts) {
    Placard placard;
    placard.id = table.text("id");
    placard.title = table.text("title");
    placard.use = read_use(table);
    placard.at = table.text("at");
    if (!find_place(placard.at)) {
        table.fault("at", fmt::format("no place is called \"{}\"", placard.at),
                    "a name of the list in places.cpp");
    }
    placard.where = table.text("where");
    placard.where_one = table.text_or("where_one", "");
    placard.note = table.text_or("note", "");
    placard.quantity = table.text_or("quantity", "");
    placard.for_each_source_breaker = table.flag_or("for_each_source_breaker", false);
    placard.sections = table.by_edition("sections");
    placard.unverified =
        table.has("unverified") ? table.editions("unverified") : std::set<Edition>{};
    placard.of_chosen_rule = table.flag_or("of_chosen_rule", false);
    placard.width = table.length("width");
    for (TableReader& panel : table.tables("panel"))
        placard.panels.push_back(read_panel(panel, texts));
    table.finish();
    return placard;
}

void read_placards(const toml_text::Node& node, SheetTexts& texts, Findings& findings) {
    TableReader root(node, "the placards", findings);
    read_signals(root.table("signal"), texts);
    std::set<std::string> ids;
    for (TableReader& table : root.tables("placard")) {
        Placard placard = read_placard(table, texts);
        if (!ids.insert(placard.id).second)
            table.fault("id", fmt::format("\"{}\" stands twice", placard.id), "an id of its own");
        texts.placards.push_back(std::move(placard));
    }
    root.finish();
}

} // namespace

std::optional<SheetTexts> read_texts(const std::filesystem::path& folder, SourceFiles& sources,
                                     Findings& findings) {
    const std::size_t before = findings.size();
    const auto notes = read_file(folder / "notes.toml", sources, findings);
    const auto abbreviations = read_file(folder / "abbreviations.toml", sources, findings);
    const auto placards = read_file(folder / "placards.toml", sources, findings);
    if (!notes || !abbreviations || !placards)
        return std::nullopt;
    SheetTexts texts;
    read_notes(*notes, texts, findings);
    read_abbreviations(*abbreviations, texts, findings);
    read_placards(*placards, texts, findings);
    if (findings.size() > before)
        return std::nullopt;
    return texts;
}

} // namespace ohmfolio::sheets
