// The display list of a packet as a flat file of records, so that a program that knows nothing of
// ours can put the same drawing on paper. Numbers are doubles in points, or 32-bit counts, as the
// machine has them; a record is a letter and what follows it:
//
//   P width height                              a page
//   S width red green blue count dashes...      strokes of one look, with their outlines
//   F red green blue                            a filled area, with its outline
//   m x y, l x y, c x1 y1 x2 y2 x y, z          steps of the outline
//   T x y size bold align turned red green blue count bytes   a line of lettering
//   I x y width height count bytes              a picture, PNG
#pragma once

#include <cstdint>
#include <cstring>
#include <string>

namespace display_list {

class Writer {
  public:
    void letter(char c) { bytes_ += c; }
    void number(double value) { append(&value, sizeof value); }
    void count(std::uint32_t value) { append(&value, sizeof value); }
    void text(const std::string& value) {
        count(static_cast<std::uint32_t>(value.size()));
        bytes_ += value;
    }
    const std::string& bytes() const { return bytes_; }

  private:
    void append(const void* data, std::size_t size) {
        bytes_.append(static_cast<const char*>(data), size);
    }
    std::string bytes_;
};

class Reader {
  public:
    explicit Reader(const std::string& bytes) : at_(bytes.data()), end_(at_ + bytes.size()) {}
    bool done() const { return at_ == end_; }
    char peek() const { return at_ == end_ ? '\0' : *at_; }
    char letter() { return *at_++; }
    double number() { return take<double>(); }
    std::uint32_t count() { return take<std::uint32_t>(); }
    std::string text() {
        const std::uint32_t size = count();
        std::string value(at_, size);
        at_ += size;
        return value;
    }

  private:
    template <class T> T take() {
        T value;
        std::memcpy(&value, at_, sizeof value);
        at_ += sizeof value;
        return value;
    }
    const char* at_;
    const char* end_;
};

} // namespace display_list
