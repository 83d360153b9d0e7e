/// One planted fault of each kind is found, and a clean drawing stays clean.
#include "drawing/lint.h"

#include <algorithm>
#include <chrono>

#include "catch.h"

using namespace ohmfolio;

namespace {

const TextStyle lettering{points(10.5)};
const Stroke pen{medium_pen};

Point at(double x, double y) { return {inches(x), inches(y)}; }
Box box(double left, double top, double right, double bottom) {
    return {at(left, top), at(right, bottom)};
}

Sheet empty_sheet() {
    Sheet sheet;
    sheet.number = "E-601";
    sheet.title = "SINGLE-LINE DIAGRAM";
    sheet.frame.size = {inches(17), inches(11)};
    sheet.border = box(0.75, 0.75, 16.25, 10.25);
    sheet.drawing_area = sheet.border;
    Frame& frame = sheet.frame;
    // The border with its outer rule, a zone mark and a zone letter between the two.
    frame.add(rectangle(sheet.border, {wide_pen}), Role::rule);
    frame.add(rectangle(sheet.border.grown(inches(0.25)), pen), Role::rule);
    frame.add(polyline({at(8, 0.5), at(8, 0.75)}, pen), Role::rule);
    frame.add(Text{at(4, 0.7), "A", lettering, Align::centre}, Role::lettering);
    return sheet;
}

void add_wire(Frame& frame, const std::vector<Point>& points,
              const std::string& shows = "circuit:C1", Role role = Role::wire) {
    frame.add(polyline(points, pen), role, shows);
}

void add_text(Frame& frame, Point where, const std::string& text, TextStyle style = lettering) {
    frame.add(Text{where, text, style}, Role::lettering, "note:1");
}

/// Two meters and a ground, wired to a bus, with lettering, an enclosure and control wiring.
Sheet clean_sheet() {
    Sheet sheet = empty_sheet();
    Frame& frame = sheet.frame;
    for (const double y : {2.0, 4.0}) {
        const std::string name = y < 3 ? "equipment:one" : "equipment:two";
        frame.add(circle(at(3, y), inches(0.5), pen), Role::symbol, name);
        frame.add(Port{at(3.5, y), name + "/line"}, Role::none, name);
        add_wire(frame, {at(3.5, y), at(6, y)});
        add_text(frame, at(3.8, y - 0.1), "(3) #10 AWG CU");
    }
    add_wire(frame, {at(6, 1), at(6, 5)}, "bus:main");
    frame.add(Port{at(6, 1), "bus:main/upper"}, Role::none);
    frame.add(Port{at(6, 5), "bus:main/lower"}, Role::none);
    frame.add(disc(at(6, 2), inches(0.05), black), Role::junction);
    // A wire may cross an enclosure; control wiring may end on one.
    frame.add(rectangle(box(5.5, 0.9, 8, 5.5), pen), Role::enclosure, "equipment:panel");
    add_text(frame, at(6.2, 3), "MAIN PANEL");
    add_wire(frame, {at(3, 1.5), at(3, 1.2), at(5.5, 1.2)}, "control:one", Role::control);
    // A leader may touch its lettering, and a ring lies around its wire on purpose.
    frame.add(polyline({at(9, 3), at(7, 3)}, {fine_pen}), Role::leader);
    frame.add(circle(at(5, 2), inches(0.08), pen), Role::overlay, "transformer:1");
    // A table: rules beside lettering, and an underline below.
    frame.add(rectangle(box(10, 2, 12, 2.3), pen), Role::rule);
    add_text(frame, at(10.1, 2.2), "C1");
    add_text(frame, at(10.1, 3), "NOTES");
    frame.add(polyline({at(10.1, 3.02), at(10.6, 3.02)}, pen), Role::rule);
    frame.add(Anchor{at(4, 1.9), "diagram:C1"}, Role::none);
    frame.add(Link{box(10, 2, 12, 2.3), "diagram:C1"}, Role::none, "circuit:C1");
    return sheet;
}

Findings lint_of(const Sheet& sheet) { return lint(sheet, *fixed_measure()); }

std::vector<std::string> rules_of(const Findings& findings) {
    std::vector<std::string> rules;
    for (const Finding& finding : findings)
        rules.push_back(finding.rule);
    return rules;
}

/// The clean sheet with something wrong added to it.
template <class Plant> Findings lint_with(Plant plant) {
    Sheet sheet = clean_sheet();
    plant(sheet.frame);
    return lint_of(sheet);
}

using Rules = std::vector<std::string>;

} // namespace

TEST_CASE("a clean drawing has no findings") {
    Packet packet;
    packet.sheets = {clean_sheet()};
    for (const Finding& finding : lint(packet, *fixed_measure()))
        FAIL_CHECK(finding.rule << ": " << finding.message);
}

TEST_CASE("text over text") {
    const auto findings = lint_with([](Frame& f) { add_text(f, at(10.2, 2.25), "C2"); });
    REQUIRE(rules_of(findings) == Rules{"lint.text_over_text"});
    CHECK(findings[0].subject == "note:1");
    CHECK(findings[0].message.find("\"C2\" runs into \"C1\"") != std::string::npos);
    CHECK(findings[0].message.find("E-601 at 10.20 x 2.25 in") == 0);
}

TEST_CASE("turned text is seen where it stands") {
    CHECK(rules_of(lint_with([](Frame& f) {
              f.add(Text{at(10.2, 2.5), "TURNED TEXT", lettering, Align::left, black, true},
                    Role::lettering);
          })) == Rules{"lint.text_over_text", "lint.wire_through_text"});
}

TEST_CASE("every kind of line through text") {
    for (const Role role :
         {Role::wire, Role::control, Role::symbol, Role::overlay, Role::enclosure, Role::rule}) {
        CAPTURE(static_cast<int>(role));
        const auto findings = lint_with([&](Frame& f) {
            add_text(f, at(10, 6), "ACROSS");
            f.add(polyline({at(10.1, 5), at(10.1, 7)}, pen), role, "circuit:C2");
            f.add(Port{at(10.1, 5), "a"}, Role::none);
            f.add(Port{at(10.1, 7), "b"}, Role::none);
        });
        CHECK(rules_of(findings) == Rules{"lint.wire_through_text"});
    }
    CHECK(lint_with([](Frame& f) {
              add_text(f, at(10, 6), "LED TO");
              f.add(polyline({at(10.1, 5), at(10.1, 7)}, pen), Role::leader);
          }).empty());
}

TEST_CASE("a wire through a symbol") {
    const Rules through{"lint.wire_through_symbol"};
    const auto with_wire = [](const std::vector<Point>& points) {
        return rules_of(lint_with([&](Frame& f) {
            f.add(circle(at(12, 7), inches(0.5), pen), Role::symbol, "equipment:meter");
            f.add(polyline({at(13, 6), at(13, 7), at(13.5, 7)}, pen), Role::symbol,
                  "equipment:switch");
            for (const Point end : {points.front(), points.back()})
                f.add(Port{end, "end"}, Role::none);
            add_wire(f, points, "circuit:C9");
        }));
    };
    CHECK(with_wire({at(10, 7), at(14, 7.2)}) == through);                  // in and out again
    CHECK(with_wire({at(11, 7), at(12.5, 7)}) == through);                  // ends on the far side
    CHECK(with_wire({at(10, 6.5), at(12, 6.5), at(12.5, 6.5)}) == through); // touches the top
    CHECK(with_wire({at(12.8, 6.5), at(14, 6.5)}) == through);              // crosses an open line
    CHECK(with_wire({at(13, 5), at(13, 6.5)}) == through);                  // lies on a line
    CHECK(with_wire({at(11, 7), at(11.5, 7)}).empty());                     // ends on the outline
    CHECK(with_wire({at(11, 6.4), at(13, 6)}).empty()); // passes above, ends on a line
    CHECK(with_wire({at(11, 7), at(12, 7)}).empty());   // a terminal in the middle of the symbol
}

TEST_CASE("a wire inside a closed symbol touches nothing, yet is wrong") {
    const auto findings = lint_with([](Frame& f) {
        f.add(rectangle(box(11, 6, 13, 8), pen), Role::symbol, "equipment:inverter");
        add_wire(f, {at(11.5, 7), at(12.5, 7), at(12.5, 7.5), at(11.5, 7.5), at(11.5, 7)});
    });
    CHECK(rules_of(findings) == Rules{"lint.wire_through_symbol"});
}

TEST_CASE("outside the border") {
    CHECK(rules_of(lint_with([](Frame& f) { add_text(f, at(16.1, 5), "FAR"); })) ==
          Rules{"lint.wire_through_text", "lint.outside_frame"});
    CHECK(rules_of(lint_with([](Frame& f) {
              f.add(rectangle(box(15, 9, 16.5, 10), pen), Role::rule);
          })) == Rules{"lint.outside_frame"});
    // Whole words between border and paper's edge are no zone letters.
    CHECK(rules_of(lint_with([](Frame& f) { add_text(f, at(10, 0.65), "WORDS"); })) ==
          Rules{"lint.outside_frame"});
    CHECK(rules_of(lint_with([](Frame& f) {
              f.add(Text{at(17, 5), "A", lettering}, Role::lettering);
          })) == Rules{"lint.outside_frame"});
}

// Cities ask for 10 point type at least; capitals of 0.10 in are common practice on 11x17.
TEST_CASE("lettering too small, told once for each style") {
    const auto findings = lint_with([](Frame& f) {
        add_text(f, at(10, 6), "SMALL", {points(9.5)});
        add_text(f, at(10, 7), "SMALL TOO", {points(9.5)});
        add_text(f, at(10, 8), "LARGE", {points(12)});
    });
    REQUIRE(rules_of(findings) == Rules{"lint.lettering_small"});
    CHECK(findings[0].message.find("\"SMALL\" is set in 9.5 point type") != std::string::npos);
    CHECK(findings[0].message.find("(2 texts so)") != std::string::npos);
    // 10 point type whose capitals are 0.7 em, 0.097 in, high.
    CHECK(rules_of(lint_with([](Frame& f) { add_text(f, at(10, 6), "LOW", {points(10)}); })) ==
          Rules{"lint.lettering_small"});
}

TEST_CASE("open wire ends") {
    const auto one = lint_with([](Frame& f) { add_wire(f, {at(6, 3), at(8, 3.5)}); });
    REQUIRE(rules_of(one) == Rules{"lint.open_wire_end"});
    CHECK(one[0].subject == "circuit:C1");
    CHECK(one[0].message.find("8.00 x 3.50 in") != std::string::npos);
    CHECK(rules_of(lint_with([](Frame& f) {
              add_wire(f, {at(10, 6), at(11, 6)});
          })) == Rules{"lint.open_wire_end", "lint.open_wire_end"});
    // A wire may not end on a box or on control wiring, control wiring may end on a box only.
    CHECK(rules_of(lint_with([](Frame& f) {
              add_wire(f, {at(6, 3.5), at(8, 3.5)});
          })) == Rules{"lint.open_wire_end"});
    CHECK(rules_of(lint_with([](Frame& f) {
              add_wire(f, {at(8, 3.5), at(9, 3.5)}, "control:x", Role::control);
          })) == Rules{"lint.open_wire_end"});
}

TEST_CASE("a crossing is advice, a wire upon a wire a warning") {
    const auto cross = lint_with([](Frame& f) {
        add_wire(f, {at(6, 4.5), at(4.5, 4.5), at(4.5, 3)}, "circuit:C2");
        f.add(Port{at(4.5, 3), "end"}, Role::none);
    });
    Findings crossings;
    std::ranges::copy_if(cross, std::back_inserter(crossings),
                         [](const Finding& f) { return f.rule == "lint.wire_crossing"; });
    REQUIRE(crossings.size() == 1);
    CHECK(crossings[0].severity == Severity::advice);
    CHECK(crossings[0].message == "E-601 at 4.50 x 4.00 in: it crosses circuit:C2");

    const auto upon = lint_with([](Frame& f) {
        add_wire(f, {at(3.5, 4), at(6, 4)}, "circuit:C2");
    });
    REQUIRE(rules_of(upon) == Rules{"lint.wire_crossing"});
    CHECK(upon[0].severity == Severity::warning);
}

TEST_CASE("a crossing with a dot is a connection") {
    CHECK(lint_with([](Frame& f) {
              for (const Point end : {at(10, 6), at(12, 6), at(11, 5), at(11, 7)})
                  f.add(Port{end, "end"}, Role::none);
              add_wire(f, {at(10, 6), at(12, 6)});
              add_wire(f, {at(11, 5), at(11, 7)});
              f.add(disc(at(11, 6), inches(0.03), black), Role::junction);
          }).empty());
}

namespace {

/// A measure whose face has no arrows.
class NoArrows final : public TextMeasure {
  public:
    Length width(std::string_view t, const TextStyle& s) const override {
        return plain_->width(t, s);
    }
    Length cap_height(const TextStyle& s) const override { return plain_->cap_height(s); }
    Length ascent(const TextStyle& s) const override { return plain_->ascent(s); }
    Length descent(const TextStyle& s) const override { return plain_->descent(s); }
    std::string missing(std::string_view t, const TextStyle&) const override {
        return t.find("→") == std::string_view::npos ? "" : "→";
    }

  private:
    std::unique_ptr<TextMeasure> plain_ = fixed_measure();
};

} // namespace

TEST_CASE("missing glyphs") {
    Sheet sheet = clean_sheet();
    add_text(sheet.frame, at(10, 6), "A → B");
    const auto findings = lint(sheet, NoArrows());
    REQUIRE(rules_of(findings) == Rules{"lint.missing_glyph"});
    CHECK(findings[0].message.find("has no \"→\", needed for \"A → B\"") != std::string::npos);
}

TEST_CASE("links and anchors of a packet") {
    Packet packet;
    packet.sheets = {clean_sheet(), empty_sheet()};
    packet.sheets[1].number = "E-602";
    packet.sheets[1].frame.add(Link{box(1, 1, 2, 2), "diagram:C1"}, Role::none);
    CHECK(lint(packet, *fixed_measure()).empty());

    packet.sheets[1].frame.add(Link{box(3, 1, 4, 2), "schedule:C7"}, Role::none, "circuit:C7");
    packet.sheets[1].frame.add(Anchor{at(5, 5), "diagram:C1"}, Role::none);
    const auto findings = lint(packet, *fixed_measure());
    REQUIRE(rules_of(findings) == Rules{"lint.duplicate_anchor", "lint.broken_link"});
    CHECK(findings[0].message == "the anchor \"diagram:C1\" is set 2 times, on E-601, E-602");
    CHECK(findings[1].subject == "circuit:C7");
    CHECK(findings[1].message.find("E-602: a link leads to \"schedule:C7\"") == 0);
}

TEST_CASE("five thousand marks take well under a second") {
    Sheet sheet = empty_sheet();
    for (int i = 0; i < 1000; ++i) {
        const double x = 1 + 0.3 * (i % 50);
        const double y = 1 + 0.4 * (i / 50);
        const std::string name = "equipment:" + std::to_string(i);
        sheet.frame.add(circle(at(x, y), inches(0.05), pen), Role::symbol, name);
        sheet.frame.add(Port{at(x + 0.05, y), name + "/a"}, Role::none, name);
        sheet.frame.add(Port{at(x + 0.15, y), name + "/b"}, Role::none, name);
        add_wire(sheet.frame, {at(x + 0.05, y), at(x + 0.15, y)}, name);
        add_text(sheet.frame, at(x - 0.05, y + 0.25), "Q");
    }
    const auto start = std::chrono::steady_clock::now();
    const auto findings = lint_of(sheet);
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
    CHECK(std::ranges::none_of(findings,
                               [](const Finding& f) { return f.rule != "lint.outside_frame"; }));
    CHECK(taken.count() < 1.0);
}
