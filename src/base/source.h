/// Where a value was written by the user.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ohmfolio {

/// Line and column count from 1, columns in characters; 0 means unknown.
struct Position {
    int line = 0;
    int column = 0;
    friend constexpr auto operator<=>(Position, Position) = default;
};

/// A stretch of text in one of the files read. `file` indexes `SourceFiles`; -1 is nowhere.
struct Span {
    int file = -1;
    Position begin;
    Position end;
    bool known() const { return file >= 0 && begin.line > 0; }
    friend constexpr auto operator<=>(const Span&, const Span&) = default;
};

/// A value that remembers its place.
template <class T> struct Spanned {
    T value{};
    Span span;
};

/// The texts read in this run, kept so that messages can show the faulty line.
class SourceFiles {
  public:
    /// Returns the index to use in `Span::file`.
    int add(std::string name, std::string text);
    const std::string& name(int file) const;
    const std::string& text(int file) const;
    /// Line `line` (from 1) without its end; empty if there is no such line.
    std::string_view line(int file, int line) const;
    int count() const { return static_cast<int>(files_.size()); }

  private:
    struct File {
        std::string name;
        std::string text;
    };
    std::vector<File> files_;
};

} // namespace ohmfolio
