/// The marks of placed blocks and wires.
#include <algorithm>

#include "base/text.h"
#include "diagram/interior.h"

namespace ohmfolio::diagram {

namespace {

constexpr Length note_radius{2'400'000};

/// Circles of keyed notes are higher than the letters beside them.
Length note_gap_of(const Plan& plan, const Block& block) {
    return block.notes.empty() ? Length{} : plan.spacing.note_gap;
}

class Pencil {
  public:
    Pencil(const Plan& plan, const References& references, Frame& frame)
        : plan_(plan), references_(references), frame_(frame) {}

    void draw(const Block& block) {
        shows_ = "equipment:" + plan_.of(block).id;
        if (block.form != Form::match && !block.continues) {
            for (const int member : block.members) {
                frame_.add(Anchor{block.body.low, "diagram:" + plan_.system.at(member).id},
                           Role::none, shows_);
            }
        }
        switch (block.form) {
        case Form::symbol:
            draw_symbol_block(block);
            break;
        case Form::boxed:
            draw_boxed(block);
            break;
        case Form::splices:
            draw_splices(block);
            break;
        case Form::bus:
            draw_bus_block(plan_, block, frame_);
            break;
        case Form::match:
            draw_match(block);
            break;
        }
        if (block.control) {
            const std::string& owner = block.form == Form::match ? block.match : shows_;
            frame_.add(Port{control_at(plan_, block), owner + "/control"}, Role::none, shows_);
        }
        draw_lettering(block);
        draw_electrodes(block);
    }

  private:
    void enclosure(const Block& block) {
        frame_.add(rectangle(block.body, enclosure_stroke(plan_.of(block))), Role::enclosure,
                   shows_);
    }

    void port(const Block& block, const Tap& tap) { add_terminal(plan_, block, tap, frame_); }

    void draw_symbol_block(const Block& block) {
        add_symbol(frame_, symbol_of(plan_, block.symbol), block.body.low, false, shows_);
        for (const Tap& tap : block.taps) {
            port(block, tap);
        }
    }

    void draw_boxed(const Block& block) {
        enclosure(block);
        const Symbol& symbol = symbol_of(plan_, block.symbol);
        const SymbolPort& load = *symbol.port("load");
        const SymbolPort& line = *symbol.port("line");
        const Length ring =
            has_transformer(block)
                ? symbol_of(plan_, "current-transformer").size.width + plan_.spacing.lead * 2
                : Length{};
        const Point low{block.body.centre().x - (symbol.size.width + ring) / 2,
                        block.line - load.at.y};
        add_symbol(frame_, symbol, low, false, shows_);
        for (const SymbolPort* p : {&load, &line}) {
            add_port(frame_, low + p->at, member_names(plan_, block, "switch"), "/" + p->name,
                     shows_);
        }
        for (const Tap& tap : block.taps) {
            port(block, tap);
            const Point inner = low + (tap.toward_utility ? line.at : load.at);
            add_wire(frame_, {terminal_at(plan_, block, tap), inner}, medium_pen, shows_);
            if (!tap.transformer.empty()) {
                draw_transformer(plan_, block, tap, frame_);
            }
        }
    }

    void draw_splices(const Block& block) {
        enclosure(block);
        const Symbol& splice = symbol_of(plan_, block.symbol);
        for (const Tap& tap : block.taps) {
            port(block, tap);
            if (tap.toward_utility) {
                const Point from{block.body.low.x, block.line + tap.y};
                add_wire(frame_, {from, {block.body.high.x, from.y}}, medium_pen, shows_);
                frame_.add(disc({block.body.centre().x, from.y}, splice.size.width / 2, black),
                           Role::junction, shows_);
            }
        }
    }

    /// A mark for each wire, pointing away from it, with the sheet and the zone of its other end.
    void draw_match(const Block& block) {
        const Symbol& symbol = symbol_of(plan_, block.symbol);
        for (std::size_t i = 0; i < block.taps.size(); ++i) {
            const Tap& tap = block.taps[i];
            const Point at = terminal_at(plan_, block, tap);
            const SymbolPort& end = *symbol.port("end");
            const bool mirror = tap.side == Side::right;
            const Point low{block.body.low.x, at.y - end.at.y};
            add_symbol(frame_, symbol, low, mirror, shows_);
            frame_.add(Port{at, block.match + "/" + std::to_string(i)}, Role::none, shows_);
            if (const SymbolSlot* slot = symbol.slot("reference")) {
                const Length x = mirror ? symbol.size.width - slot->at.x : slot->at.x;
                text(references_(block.match), low + Point{x, slot->at.y}, plan_.style.note,
                     Align::centre);
            }
        }
    }

    // ---- lettering ---------------------------------------------------------------------------

    void draw_lettering(const Block& block) {
        const bool left = block.form == Form::bus;
        const Align align = left ? Align::left : Align::centre;
        const Length x = left ? block.body.low.x : block.body.centre().x;
        const Length name_pitch = line_pitch(plan_.style.name);
        const Length notes_room = left ? Length{} : notes_width(block, plan_.spacing) / 2;
        Length y = block.body.low.y - name_height(plan_, block) + name_pitch;
        for (std::size_t i = 0; i < block.above.size(); ++i, y += name_pitch) {
            const Length shift = block.name_shift + (i == 0 ? notes_room : Length{});
            text(block.above[i], {x - shift, y}, plan_.style.name, align);
            if (i == 0) {
                draw_notes(block, {x - shift, y}, align);
                y += note_gap_of(plan_, block);
            }
        }
        const Length indent = block.electrodes.empty() ? Length{} : electrode_indent(plan_.spacing);
        const Length pitch = line_pitch(plan_.style.note);
        y = block.body.high.y + plan_.spacing.text_gap + plan_.measure.cap_height(plan_.style.note);
        for (const std::string& line : block.below) {
            text(line, {x + indent, y}, plan_.style.note, align);
            y += pitch;
        }
    }

    void text(const std::string& words, Point at, const TextStyle& style, Align align) {
        frame_.add(Text{at, words, style, align}, Role::lettering, shows_);
    }

    /// Numbers in circles behind the first line of the name.
    void draw_notes(const Block& block, Point name, Align align) {
        const Length width = plan_.measure.width(block.above.front(), plan_.style.name);
        const Length cap = plan_.measure.cap_height(plan_.style.note);
        Length x = name.x + (align == Align::left ? width : width / 2);
        for (const int note : block.notes) {
            x += note_radius + inches(0.055);
            const Point centre{x, name.y - cap / 2};
            frame_.add(circle(centre, note_radius, {thin_pen}), Role::leader, shows_);
            text(std::to_string(note), {x, name.y}, plan_.style.note, Align::centre);
            x += note_radius;
        }
    }

    // ---- grounding electrodes ----------------------------------------------------------------

    void draw_electrodes(const Block& block) {
        if (block.electrodes.empty()) {
            return;
        }
        const std::string shows = "circuit:G1";
        const Symbol& ground = symbol_of(plan_, "ground");
        const SymbolPort& earth = *ground.port("earth");
        const Length pitch = line_pitch(plan_.style.note);
        const auto lines = static_cast<std::int64_t>(block.below.size());
        const Symbol& bond = symbol_of(plan_, "neutral-bond");
        const SymbolPort& bar = *bond.port("earth");
        const Point start{block.body.low.x + plan_.spacing.lead + bar.at.x, block.body.high.y};
        add_symbol(frame_, bond, start - bar.at, false, shows_);
        const Length level = start.y + plan_.spacing.text_gap + lines * pitch + inches(0.30);
        frame_.add(Port{start, shows_ + "/ground"}, Role::none, shows_);
        Point first = start, last = start;
        for (std::size_t i = 0; i < block.electrodes.size(); ++i) {
            const Length x = electrode_x(block, i);
            const Point top{x, level + inches(0.12)};
            first = i == 0 ? top : first;
            const Point low = top - earth.at;
            add_symbol(frame_, ground, low, false, shows);
            frame_.add(Port{top, "electrode:" + std::to_string(i + 1)}, Role::none, shows);
            // The outer ones end the line that ties them all, unless the bond hangs outside.
            const bool ends = i + 1 == block.electrodes.size() || (i == 0 && start.x > x);
            if (!ends) {
                drop({x, level}, top, shows);
            }
            last = top;
            electrode_name(block, i, low.y + ground.size.height);
        }
        join_electrodes(start, level, first, last, shows);
        tag_ground(start.x, level, shows);
    }

    void drop(Point from, Point to, const std::string& shows) {
        add_wire(frame_, {from, to}, thin_pen, shows);
        frame_.add(disc(from, millimetres(0.6), black), Role::junction, shows);
    }

    /// From the bond down to a line to which all electrodes are tied.
    void join_electrodes(Point start, Length level, Point first, Point last,
                         const std::string& shows) {
        const Point foot{start.x, level};
        if (start.x <= first.x) {
            add_wire(frame_, {start, foot, {last.x, level}, last}, thin_pen, shows);
        } else if (start.x >= last.x) {
            add_wire(frame_, {start, foot, {first.x, level}, first}, thin_pen, shows);
        } else {
            add_wire(frame_, {first, {first.x, level}, {last.x, level}, last}, thin_pen, shows);
            drop(foot, start, shows);
        }
    }

    void tag_ground(Length x, Length level, const std::string& shows) {
        const Size tag = tag_size(plan_, "G1");
        const Box box = box_at({x + inches(0.06), level - inches(0.04) - tag.height}, tag);
        const Length baseline = box.centre().y + plan_.measure.cap_height(plan_.style.tag) / 2;
        add_tag(plan_, frame_, box, "G1", "G1");
        frame_.add(Anchor{box.low, "diagram:G1"}, Role::none, shows);
        const bool existing = plan_.system.at(plan_.system.grounding.at).existing;
        const std::string size = name(plan_.study.grounding_electrode) + " " +
                                 std::string(name(plan_.system.grounding.material)) + " GEC" +
                                 (existing ? " (E)" : "");
        frame_.add(Text{{box.high.x + inches(0.06), baseline}, size, plan_.style.note},
                   Role::lettering, shows);
    }

    Length electrode_x(const Block& block, std::size_t i) const {
        const auto count = static_cast<std::int64_t>(block.electrodes.size());
        const Length field = electrodes_width(block, plan_.spacing);
        return block.body.centre().x - field / 2 +
               field * (2 * static_cast<std::int64_t>(i) + 1) / (2 * count);
    }

    void electrode_name(const Block& block, std::size_t i, Length below) {
        const Length width = electrodes_width(block, plan_.spacing) /
                                 static_cast<std::int64_t>(block.electrodes.size()) -
                             inches(0.08);
        Length y = below + plan_.spacing.text_gap + plan_.measure.cap_height(plan_.style.note);
        for (const std::string& line :
             wrapped(block.electrodes[i], plan_.style.note, width, plan_.measure)) {
            frame_.add(Text{{electrode_x(block, i), y}, line, plan_.style.note, Align::centre},
                       Role::lettering, "circuit:G1");
            y += line_pitch(plan_.style.note);
        }
    }

    const Plan& plan_;
    const References& references_;
    Frame& frame_;
    std::string shows_;
};

} // namespace

Length name_height(const Plan& plan, const Block& block) {
    const auto lines = static_cast<std::int64_t>(block.above.size());
    return lines == 0 ? Length{}
                      : plan.spacing.name_gap + lines * line_pitch(plan.style.name) +
                            note_gap_of(plan, block);
}

Length notes_width(const Block& block, const Spacing&) {
    return static_cast<std::int64_t>(block.notes.size()) * (2 * note_radius + inches(0.055));
}

Length electrodes_width(const Block& block, const Spacing& spacing) {
    return std::max(block.body_width,
                    static_cast<std::int64_t>(block.electrodes.size()) * spacing.electrode_pitch);
}

Length electrode_indent(const Spacing& spacing) { return spacing.lead + inches(0.16); }

Frame ink(const Plan& plan, const References& references) {
    Frame frame;
    frame.size = plan.area;
    Pencil pencil(plan, references, frame);
    for (const Wire& wire : plan.wires) {
        add_wire(frame, wire.points, medium_pen, shown_by(plan, wire));
    }
    for (const Block& block : plan.blocks) {
        pencil.draw(block);
    }
    return frame;
}

std::string shown_by(const Plan& plan, const Wire& wire) {
    return wire.circuits.empty() ? "bus:" + plan.of(plan.block(wire.child)).id
                                 : "circuit:" + plan.circuit(wire.circuits.front()).tag;
}

} // namespace ohmfolio::diagram
