// Usage: sample_documents FOLDER
// Writes the documents that the demonstration appends: cut sheets with the nameplates of its
// catalogue, and a structural letter. All of it is invented, and every page says so.
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <stdexcept>

#include "base/text.h"
#include "drawing/table.h"
#include "input/input.h"
#include "render/render.h"
#include "sheet/schedules.h"
#include "sheet/writing.h"

using namespace ohmfolio;

namespace {

const std::filesystem::path source = OHMFOLIO_SOURCE;
const std::filesystem::path demonstration = source / "examples/tolliver-bend";
const Size letter{inches(8.5), inches(11)};
const Length margin = inches(0.9);
const TextStyle large{points(26), true};
const TextStyle strong{points(14), true};
const TextStyle body{points(11)};
constexpr const char* invented =
    "Sample of the Tolliver Bend demonstration: makers, models, people and places are invented.";

std::string text_of(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

Catalogue catalogue() {
    SourceFiles sources;
    Findings findings;
    const auto system =
        read_system_text(text_of(demonstration / "ashgrove.toml"),
                         text_of(demonstration / "catalogue.toml"), sources, findings);
    return system.value().catalogue;
}

/// A page that is written from the top down.
class Page {
  public:
    Page(Size size, const TextMeasure& measure) : measure_(measure) {
        frame_.size = size;
        write_at(size.height - margin / 2, invented, body);
    }

    void write(const std::string& words, const TextStyle& style, Length gap = points(10)) {
        y_ +=
            sheets::write_paragraph(frame_, {margin, y_}, width(), words, {style}, measure_) + gap;
    }

    void add(const Table& table) {
        TableStyle style{
            strong, strong, body, points(6), points(5), {millimetres(0.35)}, {millimetres(0.18)}};
        const Frame set =
            set_table(table, style, width(), frame_.size.height, true, measure_).front();
        frame_.add(set, {margin, y_});
        y_ += set.size.height + points(24);
    }

    /// A housing seen from the front, with what leaves it below.
    void draw_housing(Length wide, Length high) {
        const Box box = box_at({(frame_.size.width - wide) / 2, y_}, {wide, high});
        frame_.add(rectangle(box, {wide_pen}), Role::symbol);
        frame_.add(rectangle(box.grown(-points(8)), {thin_pen}), Role::symbol);
        for (int i = 1; i <= 3; ++i) {
            frame_.add(circle({box.low.x + wide * i / 4, box.high.y}, points(7), {thin_pen}),
                       Role::symbol);
        }
        y_ = box.high.y + points(24);
        write("Front view, not to scale", body);
    }

    Frame frame() const { return frame_; }

  private:
    Length width() const { return frame_.size.width - margin * 2; }
    void write_at(Length y, const std::string& words, const TextStyle& style) {
        sheets::write_line(frame_, {margin, y}, words, {style}, measure_);
    }

    const TextMeasure& measure_;
    Frame frame_;
    Length y_ = margin;
};

Table ratings(const Record& record) {
    Table table;
    table.title = "Electrical data";
    table.columns = {{"Rating", Align::left, {}}};
    std::string text = sheets::ratings_text(record);
    for (std::size_t at = text.find(", "); at != std::string::npos; at = text.find(", ")) {
        table.rows.push_back({{{text.substr(0, at), {}, {}, {}}}});
        text.erase(0, at + 2);
    }
    table.rows.push_back({{{text, {}, {}, {}}}});
    return table;
}

Page cut_sheet(const Record& record, const std::string& what, const TextMeasure& measure) {
    Page page(letter, measure);
    page.write(record.maker, large);
    page.write(record.model + "   " + what, strong, points(26));
    page.add(ratings(record));
    page.write("Listing: " + record.listing, body);
    if (!record.enclosure.empty())
        page.write("Enclosure: " + record.enclosure, body);
    page.write("", body, points(20));
    return page;
}

Page mounting(const Record& record, const TextMeasure& measure) {
    Page page({letter.height, letter.width}, measure);
    page.write(record.maker + " " + record.model, strong);
    page.write("Mounting", large, points(20));
    page.write("Hang the unit on its bracket and fix it with the two screws at the foot. Keep the "
               "clear distance to the next unit that the listing asks for.",
               body, points(30));
    page.draw_housing(inches(3.2), inches(3.4));
    return page;
}

Page structural_letter(int modules, const std::string& wind, const TextMeasure& measure) {
    Page page(letter, measure);
    page.write("Fennel & Rook, structures", large);
    page.write("3 Mill Stair, Tolliver Bend, Vance County", body, points(36));
    page.write("Roof of the Ashgrove residence, 27 Sorrel Lane", strong, points(20));
    page.write("We looked at the roof framing for an array of " + std::to_string(modules) +
                   " modules on the south and the west roof. Rafters of 2x6 at 24 in on center "
                   "with the collar ties as found carry the "
                   "array, its racking and the snow load that the county asks for." +
                   wind,
               body, points(14));
    page.write("Attach the rails at every second rafter, staggered from rail to rail, with one lag "
               "screw into the middle of the rafter at each attachment.",
               body, points(40));
    page.write("Sample without signature and without seal. It approves nothing.", strong);
    return page;
}

void write(const std::filesystem::path& path, const std::string& title,
           const std::vector<Page>& pages, const Lettering& lettering) {
    Packet packet;
    packet.info = {title, "Tolliver Bend demonstration", {}, {}, "2026-01-15"};
    for (std::size_t i = 0; i < pages.size(); ++i) {
        Sheet sheet;
        sheet.number = std::to_string(i + 1);
        sheet.title = title;
        sheet.frame = pages[i].frame();
        packet.sheets.push_back(std::move(sheet));
    }
    std::filesystem::create_directories(path.parent_path());
    std::ofstream out(path, std::ios::binary);
    out << to_pdf(packet, lettering);
    if (!out.flush())
        throw std::runtime_error("cannot write " + path.string());
}

void write_all_to(const std::filesystem::path& folder) {
    const Lettering lettering(source / "layouts/lettering");
    const TextMeasure& measure = lettering.measure();
    const Catalogue parts = catalogue();
    const auto record = [&parts](const char* key) { return *parts.find(key); };
    const Record module = record("solvane-405");
    const Record microinverter = record("wickhollow-340");
    const Record battery = record("wickhollow-b10");
    Page of_module = cut_sheet(module, "PV module", measure);
    of_module.draw_housing(inches(1.6), inches(2.4));
    Page of_microinverter = cut_sheet(microinverter, "Microinverter", measure);
    of_microinverter.draw_housing(inches(2.6), inches(2.2));
    write(folder / "datasheets/sv-405m.pdf", "SV-405M", {of_module}, lettering);
    write(folder / "datasheets/wm-340.pdf", "WM-340", {of_microinverter}, lettering);
    write(folder / "datasheets/wb-10.pdf", "WB-10",
          {cut_sheet(battery, "Storage unit", measure), mounting(battery, measure)}, lettering);
    write(folder / "letters/ashgrove-roof.pdf", "Roof of the Ashgrove residence",
          {structural_letter(28, "", measure)}, lettering);
    // Of the second issue, after the plan check.
    write(folder / "letters/ashgrove-roof-1.pdf", "Roof of the Ashgrove residence, revised",
          {structural_letter(27, " The wind is taken as 115 mph, exposure B.", measure)},
          lettering);
}

} // namespace

int main(int argc, char* argv[]) {
    if (argc != 2) {
        std::cerr << "usage: sample_documents FOLDER\n";
        return 2;
    }
    write_all_to(argv[1]);
}
