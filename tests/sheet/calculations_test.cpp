// The calculation sheets against the study: nothing is lost, and what is printed reads right.
#include <map>
#include <memory>

#include "catch.h"

#include "base/text.h"
#include "fixture.h"
#include "sheet/calculation_matrix.h"
#include "sheet/calculation_pages.h"
#include "sheet/calculation_sections.h"
#include "sheet/calculation_summary.h"
#include "sheet/calculation_words.h"
#include "sheet/formula.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;
using example::Case;

namespace {

const LintRules test_rules{points(10), inches(0.099), points(0.25)};

/// All lettering of the pages by what it shows, in the order in which it was set.
std::map<std::string, std::string> words_by_subject(const std::vector<Frame>& pages) {
    std::map<std::string, std::string> words;
    for (const Frame& page : pages)
        for (const Mark& mark : page.marks)
            if (const auto* text = std::get_if<Text>(&mark.item))
                words[mark.shows] += text->text + " ";
    return words;
}

/// "C1, C2" head one column: the subject of its first name for each of the others.
std::map<std::string, std::string> first_of_column(const std::vector<Frame>& pages,
                                                   const TextStyle& heading) {
    std::map<std::string, std::string> first;
    for (const Frame& page : pages) {
        std::string open;
        for (const Mark& mark : page.marks) {
            const auto* text = std::get_if<Text>(&mark.item);
            if (text == nullptr || text->style != heading || mark.shows.empty())
                continue;
            const bool names_subject = text->text.starts_with(key_of(mark.shows));
            if (names_subject && !open.empty())
                first[mark.shows] = open;
            if (!names_subject || !text->text.ends_with(','))
                open.clear();
            else if (open.empty())
                open = mark.shows;
        }
    }
    return first;
}

std::string kind_of(const std::string& subject) { return subject.substr(0, subject.find(':')); }

/// What the sheets print of a step; a statement too long for a cell stands in a note.
bool is_printed(const Derivation& line, const std::string& words, const std::string& all,
                const Study& study) {
    if (!line.verdict)
        return holds(words, shown_result(line)) ||
               holds(words, "= " + shown_result(line)); // in bold after the formula
    const std::string comparison = shown_comparison(line, study);
    const bool noted = holds(words, "NOTE ") && holds(all, comparison);
    return noted || holds(words, comparison) || holds(words, without_units(comparison));
}

const CalculationGroup& group_about(const Study& study, const std::string& subject) {
    const auto group =
        std::find_if(study.groups.begin(), study.groups.end(),
                     [&](const CalculationGroup& each) { return each.subject == subject; });
    REQUIRE(group != study.groups.end());
    return *group;
}

/// The step of the column in which `line` of `group` stands.
const Derivation* shown_step(const Derivation& line, const CalculationGroup& group,
                             const std::map<std::string, std::string>& first, const Study& study) {
    const auto column = first.find(is_circuit(group) ? group.subject : line.subject);
    if (column == first.end())
        return &line;
    if (is_circuit(group)) {
        for (const std::string& id : group_about(study, column->second).steps) {
            const Derivation& other = study.derivation(id);
            if (other.name == line.name && kind_of(other.subject) == kind_of(line.subject))
                return &other;
        }
        return nullptr;
    }
    for (const Derivation& other : study.worksheet.all())
        if (other.subject == column->second && other.name == line.name)
            return &other;
    return nullptr;
}

Derivation step(std::string name, std::string result, double value, std::string formula = {}) {
    Derivation line;
    line.subject = "circuit:C1";
    line.name = std::move(name);
    line.symbol = "x";
    line.result = std::move(result);
    line.value = value;
    line.formula = std::move(formula);
    return line;
}

} // namespace

TEST_CASE("every step of the study stands on a calculation sheet in every edition") {
    for (const Edition edition : all_editions) {
        Bench bench((Case(edition)));
        const Study& study = bench.job_case.study;
        const auto pages = calculation_pages(bench.job());
        const auto words = words_by_subject(pages);
        const auto first = first_of_column(pages, bench.layout.table.heading);
        std::string all;
        for (const Frame& page : pages)
            all += words_of(page);
        std::size_t steps = 0;
        for (const CalculationGroup& group : study.groups)
            for (const std::string& id : group.steps) {
                INFO(name(edition) << " " << id);
                const Derivation& line = study.derivation(id);
                const Derivation* shown = shown_step(line, group, first, study);
                REQUIRE(shown != nullptr);
                const auto found = words.find(shown->subject);
                REQUIRE(found != words.end());
                CHECK(is_printed(line, found->second, all, study));
                ++steps;
            }
        // The groups hold the whole worksheet, each step once or more.
        std::set<std::string> grouped;
        for (const CalculationGroup& group : study.groups)
            grouped.insert(group.steps.begin(), group.steps.end());
        for (const Derivation& line : study.worksheet.all()) {
            INFO(line.id);
            CHECK(grouped.contains(line.id));
        }
        CHECK(steps > 300);
    }
}

TEST_CASE("every circuit heads a column that leads to its schedule row") {
    Bench bench((Case(Edition::nec2023)));
    const auto pages = calculation_pages(bench.job());
    std::multiset<std::string> anchors;
    std::set<std::string> links;
    for (const Frame& page : pages) {
        for (const std::string& name : anchors_of(page))
            anchors.insert(name);
        for (const Mark& mark : page.marks)
            if (const auto* link = std::get_if<Link>(&mark.item))
                links.insert(link->target);
    }
    for (const CalculationGroup& group : bench.job_case.study.groups) {
        INFO(group.anchor);
        CHECK(anchors.count(group.anchor) == 1);
        if (is_circuit(group))
            CHECK(links.contains("schedule:" + key_of(group.subject)));
    }
}

TEST_CASE("circuits that read the same share a column") {
    Bench bench((Case(Edition::nec2023)));
    const auto first = first_of_column(calculation_pages(bench.job()), bench.layout.table.heading);
    // C5 and C6 carry branches of eight over the same run; C7 and C8 branches of six.
    REQUIRE(first.contains("circuit:C6"));
    CHECK(first.at("circuit:C6") == "circuit:C5");
    CHECK(first.at("circuit:C8") == "circuit:C7");
    CHECK_FALSE(first.contains("circuit:C7"));
}

TEST_CASE("a table of sixty circuits goes on in further pieces") {
    Bench bench((Case(Edition::nec2023)));
    const Job job = bench.job();
    std::vector<std::unique_ptr<Derivation>> lines;
    std::vector<MatrixSource> sources;
    for (int i = 1; i <= 60; ++i) {
        const std::string tag = "C" + std::to_string(i);
        MatrixSource source{tag, "circuit:" + tag, "calc:" + tag, "schedule:" + tag, {}};
        for (int row = 0; row < 40; ++row) {
            auto line = std::make_unique<Derivation>(
                step("row" + std::to_string(row), std::to_string(i * 10) + ".25 A", i));
            line->id = tag + "." + line->name;
            line->subject = source.subject;
            line->title = "Step number " + std::to_string(row) + " of a circuit";
            source.lines.push_back(line.get());
            lines.push_back(std::move(line));
        }
        sources.push_back(std::move(source));
    }
    const CalculationMatrix matrix = make_matrix("CIRCUITS", sources, {}, {}, job);
    REQUIRE(matrix.columns.size() == 60);
    REQUIRE(matrix.rows.size() == 40);
    const MatrixPieces pieces =
        set_matrix(matrix, {job.area.width, inches(3), job.area.height}, job);
    CHECK(pieces.starts_below);
    REQUIRE(pieces.frames.size() > 4);
    CHECK(pieces.frames.front().size.height <= inches(3));
    std::multiset<std::string> anchors;
    std::multiset<std::string> cells;
    for (const Frame& piece : pieces.frames) {
        CHECK(piece.size.width <= job.area.width);
        CHECK(piece.size.height <= job.area.height);
        CHECK(holds(words_of(piece), "CIRCUITS"));
        for (const std::string& name : anchors_of(piece))
            anchors.insert(name);
        for (const Text* text : texts_of(piece))
            cells.insert(text->text);
        Sheet sheet;
        sheet.number = "E-604";
        sheet.frame = piece;
        sheet.frame.size = job.area;
        sheet.border = sheet.drawing_area = {{}, {job.area.width, job.area.height}};
        for (const Finding& finding : lint(sheet, *bench.measure, test_rules))
            FAIL_CHECK(finding.rule << " " << finding.message);
    }
    for (int i = 1; i <= 60; ++i) {
        CHECK(anchors.count("calc:C" + std::to_string(i)) == 1);
        CHECK(cells.count(std::to_string(i * 10) + ".25 A") == 40);
    }
    CHECK(words_of(pieces.frames.back()).find("(CONTINUED)") != std::string::npos);
}

TEST_CASE("a check that fails is bold in its cell") {
    Bench bench((Case(Edition::nec2023)));
    Derivation line = step("kept", "22.50 A > 20 A", 1, "I ≤ I_z");
    line.id = "C1.kept";
    line.comparison = "22.50 A > 20 A";
    line.verdict = Verdict::fail;
    const std::vector<MatrixSource> sources{{"C1", "circuit:C1", {}, {}, {&line}}};
    const CalculationMatrix matrix = make_matrix("CIRCUITS", sources, {}, {}, bench.job());
    REQUIRE(matrix.rows.size() == 1);
    const auto& cell = matrix.rows[0].cells[0].lines;
    REQUIRE(cell.size() == 2);
    CHECK(cell[0] == CellLine{"22.50 > 20", true, false});
    CHECK(cell[1] == CellLine{"FAIL", true, true});
    line.verdict = Verdict::pass;
    CHECK_FALSE(
        make_matrix("CIRCUITS", sources, {}, {}, bench.job()).rows[0].cells[0].lines[1].bold);
}

TEST_CASE("what is left out beside a value leaves no torn words") {
    // A count of 2 took the figure from "2 AWG CU", and a rating left its preposition behind.
    for (const std::string& name : {example::fernhill, example::cinder_row}) {
        Bench bench{Case(name)};
        for (const Sheet& sheet : bench.packet().sheets) {
            for (const Mark& mark : sheet.frame.marks) {
                const auto* text = std::get_if<Text>(&mark.item);
                if (text == nullptr)
                    continue;
                INFO(name << " " << sheet.number << ": " << text->text);
                CHECK_FALSE(text->text.starts_with("AWG CU IN"));
                CHECK(text->text.find("DEVICE OF.") == std::string::npos);
                CHECK(text->text != "CH. 9 TABLE");
            }
        }
    }
}

TEST_CASE("results are printed in the units and decimals of the schedules") {
    CHECK(shown_result(step("voltage_change_share", "0.0053", 0.0053012)) == "0.53 %");
    CHECK(shown_result(step("fill", "0.2188", 0.21875)) == "21.88 %");
    CHECK(shown_result(step("fill_limit", "0.4", 0.4)) == "40 %");
    // A share in amperes is no fraction.
    CHECK(shown_result(step("service_share", "166 A", 166)) == "166 A");
    CHECK(shown_result(step("bundling_factor", "0.8", 0.8)) == "0.80");
    CHECK(shown_result(step("ambient_factor", "1", 1)) == "1.00");
    CHECK(shown_result(step("interrupting", "10 kA", 10000)) == "10 kA");
    CHECK(shown_result(step("bus", "1200 A", 1200)) == "1200 A");
    CHECK(shown_result(step("voltage_change", "0.5 V", 0.497, "2 × I × R × L")) == "0.50 V");
    CHECK(shown_result(step("input_limit", "60 V", 60)) == "60 V");
    Derivation word = step("size", "3/0 AWG CU in free air", 0);
    word.symbol.clear();
    CHECK(shown_result(word) == "3/0 AWG CU IN FREE AIR");
}

TEST_CASE("comparisons drop a unit that both sides bear") {
    CHECK(without_units("21.84 A ≥ 11.36 A") == "21.84 ≥ 11.36");
    CHECK(without_units("1240 A ≥ 1200 A") == "1240 ≥ 1200");
    CHECK(without_units("0.0665 in² ≤ 0.1216 in²") == "0.0665 ≤ 0.1216");
    CHECK(without_units("8 ≤ 11") == "8 ≤ 11");
    CHECK(without_units("39 A ≤ 64 V") == "39 A ≤ 64 V");
    CHECK(without_units("100 A is a standard rating") == "100 A is a standard rating");
}

TEST_CASE("formulas name the lesser of two in short") {
    CHECK(shown_formula("lesser of I_cor and I_term") == "MIN(I_cor, I_term)");
    CHECK(shown_formula("1.25 × I") == "1.25 × I");
    CHECK(shown_formula("next standard rating ≥ I_z") == "NEXT STANDARD RATING ≥ I_z");
}

TEST_CASE("operands are paired with what stands for them") {
    using Pairs = std::vector<Operand>;
    CHECK(operands("2 × I_C1 × R × L", "2 × 11.36 A × 2 Ω/kft × 28 ft") ==
          Pairs{{"I_C1", "11.36 A"}, {"R", "2 Ω/kft"}, {"L", "28 ft"}});
    CHECK(operands("V × (1 + β × (T − 25 °C))", "37.2 V × (1 + (−0.26 %/°C × (−9 °C − 25 °C)))") ==
          Pairs{{"V", "37.2 V"}, {"β", "−0.26 %/°C"}, {"T", "−9 °C"}});
    CHECK(operands("lesser of a and b", "lesser of 20 A and 25 A") ==
          Pairs{{"a", "20 A"}, {"b", "25 A"}});
    CHECK(operands("a + b", "3 A").empty());
}

TEST_CASE("the summary names the sheet on which each calculation stands") {
    Bench bench((Case(Edition::nec2023)));
    const auto pages = calculation_pages(
        bench.job(), [](std::size_t page, std::size_t) { return "X-" + std::to_string(page + 1); });
    for (std::size_t i = 0; i < pages.size(); ++i)
        for (const std::string& anchor : anchors_of(pages[i])) {
            const std::string sheet = "X-" + std::to_string(i + 1);
            const auto row =
                std::find_if(pages[0].marks.begin(), pages[0].marks.end(), [&](const Mark& mark) {
                    const auto* link = std::get_if<Link>(&mark.item);
                    return link != nullptr && link->target == anchor;
                });
            // The second name of a joined column has no row of its own.
            if (row == pages[0].marks.end())
                continue;
            INFO(anchor);
            CHECK(holds(words_of(pages[0]), sheet));
        }
    const std::string words = words_of(pages[0]);
    CHECK(holds(words, "DATA"));
    CHECK(holds(words, "UNLESS ANOTHER CODE IS NAMED: NEC 2023."));
    for (const Frame& page : pages)
        for (const Text* text : texts_of(page))
            CHECK_FALSE(holds(text->text, "*"));
}

TEST_CASE("paragraphs that rest on one source are named once, in order") {
    Bench bench((Case(Edition::nec2023)));
    const auto notes = reading_notes(bench.job());
    const std::string& list = notes.back();
    const std::string head = "COMPARE WITH THE ADOPTED TEXT, THESE REST ON ONE SOURCE: ";
    REQUIRE(list.starts_with(head));
    for (const Derivation& line : bench.job_case.study.worksheet.all()) {
        if (!line.cite.unverified)
            continue;
        const std::string section = paragraph(line.cite);
        INFO(section);
        const auto at = list.find(section);
        CHECK(at != std::string::npos);
    }
}

TEST_CASE("a bus within the premises is no point of connection") {
    Bench bench((Case(Edition::nec2023)));
    std::string words;
    for (const Frame& page : calculation_pages(bench.job()))
        words += words_of(page);
    CHECK(holds(words, "BUSBAR RULES TRIED AT MID-1"));
    CHECK(holds(words, "BUSBAR: MID-1"));
    CHECK_FALSE(holds(words, "POINT OF CONNECTION: MID-1"));
    // MSP fails the sum of main and sources and passes the sum of breakers, 705.12(B)(3).
    CHECK(holds(words, "NOT MET, SEE 705.12(B)(3)"));
}

TEST_CASE("a nameplate gives a value once, breakers that read alike share a line") {
    Bench bench((Case(Edition::nec2023)));
    const Study& study = bench.job_case.study;
    const CalculationGroup& group = group_about(study, "site:branches");
    for (const CalculationSection& section : sections_of(group, study)) {
        std::set<std::pair<std::string, std::string>> given;
        for (const Derivation& line : printed_lines(section, bench.job_case.system)) {
            INFO(line.id);
            if (section.is_nameplate())
                CHECK(given.insert({line.symbol, line.result}).second);
            if (line.name.starts_with("limit_Q"))
                CHECK(line.title.starts_with("Q1, Q2, Q3, Q4"));
        }
    }
}
