/// Reads the numbers and letters of SVG attribute values ("0 0 10 5", "M2,3 l-1.5.5"), whatever the
/// machine's locale.
#pragma once

#include <optional>
#include <string_view>

namespace ohmfolio {

class NumberReader {
  public:
    explicit NumberReader(std::string_view text) : text_(text) {}

    /// The next number, if one stands here; blanks and one comma before it are skipped. Numbers
    /// beyond a metre of paper are refused: they are slips, and they must fit in a `Length`.
    std::optional<double> number();
    /// The next number, which has to be a bare 0 or 1 and may be stuck to what follows ("a1 1 0
    /// 01").
    std::optional<bool> flag();
    /// The letter that stands here.
    std::optional<char> letter();
    bool at_end();
    /// How far reading has come, as an offset into the text.
    std::size_t offset() const { return at_; }

  private:
    void skip_blanks();
    void skip_separator();

    std::string_view text_;
    std::size_t at_ = 0;
};

/// The number that `text` is, with nothing after it.
std::optional<double> whole_number(std::string_view text);

} // namespace ohmfolio
