#include "sheet/revision_block.h"

#include <algorithm>

#include "base/drafting_case.h"
#include "drawing/revision_marks.h"
#include "drawing/sheet.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// A column narrower than this would break most descriptions over several lines.
constexpr Length narrowest_description = inches(1.5);

class RevisionBlock {
  public:
    RevisionBlock(const std::vector<Revision>& rows, Length width, const SheetLayout& layout,
                  const TextMeasure& measure)
        : rows_(rows), width_(width), layout_(layout), measure_(measure) {
        const Length gap = 2 * pad_x();
        number_ = widest("NO.", [this](const Revision& row) { return delta_of(row).width; }) + gap;
        date_ = widest("0000-00-00", [this](const Revision& row) { return wide(row.date); }) + gap;
        const Length by = widest("BY", [this](const Revision& row) { return wide(row.by); });
        description_ = width - number_ - date_ - by - gap;
        below_ = description_ < narrowest_description;
    }

    Frame draw(int room) {
        heading();
        for (const Revision& row : rows_)
            add(row);
        for (int i = static_cast<int>(rows_.size()); i < room; ++i) {
            frame_.size.height += empty_height();
            if (i + 1 < room)
                add_rule();
        }
        for (Mark& mark : frame_.marks)
            mark.shows = the_issue;
        return std::move(frame_);
    }

  private:
    const TextStyle& strong() const { return layout_.lettering.strong; }
    const TextStyle& body() const { return layout_.lettering.body; }
    Length pad_x() const { return layout_.table.pad_x; }
    Length pad_y() const { return layout_.table.pad_y; }
    Length wide(const std::string& words) const {
        return measure_.width(drafting_case(words), strong());
    }
    Size delta_of(const Revision& row) const {
        return delta_size(drafting_case(row.number), strong(), measure_);
    }
    template <class Width> Length widest(const std::string& least, Width width_of) const {
        Length widest = wide(least);
        for (const Revision& row : rows_)
            widest = std::max(widest, width_of(row));
        return widest;
    }
    Length one_line() const { return lettering_height(1, strong(), measure_); }
    Length below_line() const { return line_pitch(strong()) - measure_.cap_height(strong()); }

    void add_rule() {
        frame_.add(polyline({{{}, frame_.size.height}, {width_, frame_.size.height}},
                            {layout_.title_block.rule_pen}),
                   Role::rule);
    }

    void heading() {
        const Length top = frame_.size.height + pad_y();
        const Look look{body()};
        write_line(frame_, {{}, top}, "NO.", look, measure_);
        write_line(frame_, {number_, top}, below_ ? "DATE, DESCRIPTION" : "DATE", look, measure_);
        if (!below_)
            write_line(frame_, {number_ + date_, top}, "DESCRIPTION", look, measure_);
        write_line(frame_, {width_, top}, "BY", {body(), Align::right}, measure_);
        frame_.size.height = top + one_line() + pad_y();
        add_rule();
    }

    /// The number stands in its delta, as it does on the sheets.
    void add(const Revision& row) {
        const Length top = frame_.size.height + pad_y();
        const Frame mark = delta(drafting_case(row.number), strong(), {}, measure_);
        // On one line the words stand beside the middle of the delta.
        const Length first =
            below_ ? top : top + std::max((mark.size.height - one_line()) / 2, Length{});
        write_line(frame_, {number_, first}, row.date, {strong()}, measure_);
        write_line(frame_, {width_, first}, drafting_case(row.by), {strong(), Align::right},
                   measure_);
        const Point at = below_ ? Point{number_, first + one_line() + below_line()}
                                : Point{number_ + date_, first};
        const Length height = write_paragraph(frame_, at, below_ ? width_ - number_ : description_,
                                              drafting_case(row.description), {strong()}, measure_);
        const Length bottom = std::max(at.y + height, top + mark.size.height);
        frame_.add(mark, {{}, top + (bottom - top - mark.size.height) / 2});
        frame_.size.height = bottom + pad_y();
        add_rule();
    }

    Length empty_height() const {
        const Length words = below_ ? 2 * one_line() + below_line() : one_line();
        const Length mark = delta_size("0", strong(), measure_).height;
        return std::max(words, mark) + 2 * pad_y();
    }

    const std::vector<Revision>& rows_;
    Length width_;
    const SheetLayout& layout_;
    const TextMeasure& measure_;
    Frame frame_;
    Length number_, date_, description_;
    bool below_ = false; ///< the description stands below the date
};

} // namespace

Frame revision_block(const std::vector<Revision>& rows, int room, Length width,
                     const SheetLayout& layout, const TextMeasure& measure) {
    return RevisionBlock(rows, width, layout, measure).draw(room);
}

} // namespace ohmfolio::sheets
