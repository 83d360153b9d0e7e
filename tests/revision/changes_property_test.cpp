// Systems made at random, each with one value changed at random: what the clouds go around is held
// against an account of the marks that knows nothing of how clouds are found.
#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <map>
#include <random>
#include <regex>
#include <set>

#include <fmt/format.h>

#include "catch.h"
#include "drawing/lint.h"
#include "drawing/strokes.h"
#include "drawn/drawn_job.h"
#include "drawn/random_job.h"
#include "revision/clouds.h"
#include "revision/comparison.h"
#include "revision/table_rows.h"
#include "toml/toml.h"

using namespace ohmfolio;
using namespace ohmfolio::drawn;

namespace {

/// A value of the text, changed: the digits of a quoted quantity, or a number of modules.
struct Mutation {
    std::string text;
    std::string before, after;
};

/// The `pick`th quantity of the text, one digit or factor different.
std::optional<Mutation> mutated(const std::string& text, unsigned pick, std::mt19937& random) {
    static const std::regex quantity(R"re("(\d+)( ft| A| A 2P| W| kVA| in| C| kA)")re");
    std::vector<std::smatch> found(std::sregex_iterator(text.begin(), text.end(), quantity), {});
    if (found.empty()) {
        return std::nullopt;
    }
    const std::smatch& match = found[pick % found.size()];
    const int value = std::stoi(match[1].str());
    const int changed = random() % 2 == 0 ? value + 1 + static_cast<int>(random() % 9) : value * 2;
    Mutation mutation{text, match[1].str() + match[2].str(),
                      std::to_string(changed) + match[2].str()};
    mutation.text.replace(static_cast<std::size_t>(match.position(1)), match[1].str().size(),
                          std::to_string(changed));
    return mutation;
}

/// What a mark is, wherever it stands on its kind of sheet.
std::string account(const Mark& mark) {
    if (const auto* text = std::get_if<Text>(&mark.item)) {
        return fmt::format("text {} {}", mark.shows, text->text);
    }
    if (const auto* path = std::get_if<Path>(&mark.item)) {
        const Box box = bounds(*path);
        return fmt::format("path {} {} {} {} {}", static_cast<int>(mark.role), mark.shows,
                           box.width().nm / 10000, box.height().nm / 10000, path->segments.size());
    }
    return {};
}

using Counts = std::map<std::string, int>;

std::map<std::string, Counts> counts_of(const Packet& packet) {
    std::map<std::string, Counts> counts;
    for (const Sheet& sheet : packet.sheets) {
        for (const Mark& mark : sheet.frame.marks) {
            ++counts[sheet.content][account(mark)];
        }
    }
    return counts;
}

/// All lettering of what shows the same, without blanks: a line that was broken anew is in it.
std::map<std::string, std::string> lettering_of(const Packet& packet) {
    std::map<std::string, std::string> all;
    for (const Sheet& sheet : packet.sheets) {
        for (const Mark& mark : sheet.frame.marks) {
            if (const auto* text = std::get_if<Text>(&mark.item)) {
                std::string& of_it = all[mark.shows];
                std::copy_if(text->text.begin(), text->text.end(), std::back_inserter(of_it),
                             [](char c) { return c != ' '; });
            }
        }
    }
    return all;
}

bool holds_a_digit(const std::string& text) {
    return std::ranges::any_of(text, [](unsigned char c) { return std::isdigit(c) != 0; });
}

/// Notes are numbered by those before them.
std::string without_note_numbers(const std::string& words) {
    static const std::regex number("NOTE \\d+");
    return std::regex_replace(words, number, "NOTE");
}

/// Lettering about something, with figures in it, that was nowhere said of it before.
bool is_surely_new(const Mark& mark, const std::map<std::string, std::string>& before) {
    const auto* text = std::get_if<Text>(&mark.item);
    if (text == nullptr || mark.shows.empty() || tells_of_the_issue(mark) ||
        mark.shows == a_count || !holds_a_digit(without_note_numbers(text->text))) {
        return false;
    }
    std::string words = text->text;
    std::erase(words, ' ');
    const auto old = before.find(mark.shows);
    return old == before.end() || old->second.find(words) == std::string::npos;
}

revision::Statements statements(const std::string& text) {
    SourceFiles sources;
    Findings findings;
    const auto tree = toml_text::parse(sources.add("job.toml", text), sources, findings);
    REQUIRE(tree);
    revision::Statements result;
    result.description = *tree;
    return result;
}

struct Issued {
    std::unique_ptr<DrawnJob> job;
    revision::Statements words;
    revision::Issue issue() const { return {words, *job->system, *job->study, job->packet}; }
};

Issued issued(const std::string& text) {
    return {draw_job(text, random_catalogue()), statements(text)};
}

/// The deltas of a sheet: white triangles.
std::vector<Box> deltas_on(const Sheet& sheet) {
    std::vector<Box> deltas;
    for (const Mark& mark : sheet.frame.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        if (path != nullptr && path->filled && mark.role == Role::revision) {
            deltas.push_back(bounds(*path));
        }
    }
    return deltas;
}

/// The border and the edge of the title block.
std::vector<Box> heavy_lines(const Sheet& sheet) {
    std::vector<Box> lines;
    for (const Outline& outline : outlines_of(sheet.frame, Role::rule)) {
        for (std::size_t i = 0; i < outline.stretches(); ++i) {
            const Box line = bounds(outline.stretch(i));
            if (!sheet.drawing_area.grown(points(1)).contains(line)) {
                lines.push_back(line.grown(points(0.5)));
            }
        }
    }
    return lines;
}

/// A delta in a table is read as one of the row in which it stands.
void check_deltas(const Sheet& sheet, const std::vector<Box>& clouds) {
    const auto share = [](const Box& row, const Box& box) {
        const Length common = std::min(row.high.y, box.high.y) - std::max(row.low.y, box.low.y);
        return row.low.x < box.high.x && box.low.x < row.high.x && common > points(3);
    };
    for (const Box& row : revision::table_rows(sheet.frame, house_measure())) {
        for (const Box& delta : deltas_on(sheet)) {
            if (share(row, delta)) {
                INFO(sheet.number << ": delta at " << delta.low.x.in_points() << ", "
                                  << delta.low.y.in_points());
                CHECK(std::ranges::any_of(clouds,
                                          [&](const Box& cloud) { return share(row, cloud); }));
            }
        }
    }
    for (const Box& delta : deltas_on(sheet)) {
        for (const Box& edge : heavy_lines(sheet)) {
            CHECK_FALSE(delta.overlaps(edge));
        }
    }
}

void check_clouds(const Issued& older, Issued& newer, const revision::ChangedMarks& changed) {
    Findings findings;
    const auto before = counts_of(older.job->packet);
    const auto after = counts_of(newer.job->packet);
    const auto said_before = lettering_of(older.job->packet);
    const std::vector<Sheet> sheets = newer.job->packet.sheets; // without clouds
    const auto clouds = revision::add_clouds(
        newer.job->packet, changed, {"1", {points(10.2), true}}, house_measure(), findings);
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        for (const Mark& mark : sheets[i].frame.marks) {
            if (!is_surely_new(mark, said_before)) {
                continue;
            }
            const auto& text = std::get<Text>(mark.item);
            const Point middle = text_box(text, house_measure()).centre();
            INFO(sheets[i].number << ": " << mark.shows << " \"" << text.text << "\"");
            CHECK(std::ranges::any_of(clouds, [&](const revision::Cloud& cloud) {
                return cloud.sheet == i && cloud.box.contains(middle);
            }));
        }
    }
    for (const revision::Cloud& cloud : clouds) {
        const Sheet& sheet = sheets[cloud.sheet];
        const bool holds_news = std::ranges::any_of(sheet.frame.marks, [&](const Mark& mark) {
            const auto* text = std::get_if<Text>(&mark.item);
            const auto* path = std::get_if<Path>(&mark.item);
            if (text == nullptr && path == nullptr) {
                return false;
            }
            const Box box = text != nullptr ? text_box(*text, house_measure()) : bounds(*path);
            const bool within = cloud.box.grown(points(3)).contains(box.centre()) ||
                                (path != nullptr && cloud.box.overlaps(box));
            const std::string key = account(mark);
            const auto& old = before.at(sheet.content);
            const auto was = old.find(key);
            return within && after.at(sheet.content).at(key) > (was == old.end() ? 0 : was->second);
        });
        const bool holds_a_gap =
            std::ranges::any_of(changed.removed, [&](const revision::Piece& piece) {
                return piece.sheet == cloud.sheet && cloud.box.contains(piece.ink.front().centre());
            });
        std::string told;
        for (const revision::Piece& piece : changed.added) {
            if (piece.sheet == cloud.sheet && cloud.box.contains(piece.ink.front().centre())) {
                told += piece.says.substr(0, 120) + "\n";
            }
        }
        INFO(sheet.number << " cloud in zone " << cloud.zone << " around " << told);
        CHECK((holds_news || holds_a_gap));
    }
    for (std::size_t i = 0; i < newer.job->packet.sheets.size(); ++i) {
        const Sheet& sheet = newer.job->packet.sheets[i];
        std::vector<Box> boxes;
        for (const revision::Cloud& cloud : clouds) {
            if (cloud.sheet == i) {
                boxes.push_back(cloud.box);
            }
        }
        check_deltas(sheet, boxes);
        for (const Finding& fault : lint(sheet, house_measure())) {
            INFO(said(fault));
            CHECK_FALSE((fault.rule == "lint.wire_through_text" &&
                         fault.message.find("a cloud") != std::string::npos));
            CHECK_FALSE((fault.rule == "lint.text_over_text" && fault.subject == "revision:1"));
        }
    }
}

void check_mutations(unsigned first, unsigned count) {
    const revision::KeyWords no_words;
    unsigned tried = 0;
    for (unsigned number = first; number < first + count; ++number) {
        INFO("system " << number);
        std::mt19937 random(number);
        const std::string text = random_job(number);
        Issued older = issued(text);
        REQUIRE(older.job->system);
        const auto mutation = mutated(text, static_cast<unsigned>(random()), random);
        if (!mutation) {
            continue;
        }
        INFO(mutation->before << " to " << mutation->after);
        Issued newer = issued(mutation->text);
        if (!newer.job->system || newer.job->packet.sheets.empty()) {
            continue; // refused, as it may be
        }
        ++tried;
        const auto changed =
            revision::changed_marks(older.job->packet, newer.job->packet, house_measure(),
                                    {*older.job->study, *newer.job->study});
        const auto comparison = revision::compare(older.issue(), newer.issue(), changed, no_words);
        CHECK(std::ranges::any_of(comparison.stated, [&](const revision::StatedChange& change) {
            return change.before.find(mutation->before) != std::string::npos &&
                   change.after.find(mutation->after) != std::string::npos;
        }));
        CHECK(comparison.stated.size() == 1);
        check_clouds(older, newer, changed);

        // Nothing changed: nothing is told.
        const Issued again = issued(text);
        const auto same =
            revision::changed_marks(older.job->packet, again.job->packet, house_measure());
        CHECK(same.added.empty());
        CHECK(same.gone.empty());
        CHECK(revision::compare(older.issue(), again.issue(), same, no_words).nothing_changed());
    }
    CHECK(tried > count / 2);
}

#ifdef OHMFOLIO_SANITIZED
constexpr unsigned usual = 2;
#else
constexpr unsigned usual = 7;
#endif

unsigned number_in(const char* variable, unsigned otherwise) {
    const char* wanted = std::getenv(variable);
    return wanted == nullptr ? otherwise : static_cast<unsigned>(std::stoul(wanted));
}
/// As many as scripts/random-revisions asks for, from where it says.
unsigned systems() { return number_in("OHMFOLIO_REVISIONS", usual); }
unsigned first(unsigned usual_first) { return number_in("OHMFOLIO_FIRST_REVISION", usual_first); }

} // namespace

TEST_CASE("a value changed at random is clouded where it shows and nowhere else (1)") {
    check_mutations(first(1), systems());
}
TEST_CASE("a value changed at random is clouded where it shows and nowhere else (2)") {
    check_mutations(first(101), systems());
}
