/// Small text helpers that ignore the machine's locale.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ohmfolio {

/// `value` with exactly `decimals` digits after a point, rounded half away from zero at that digit.
/// The value is taken at 15 significant digits first, so that 1.005 rounds as it is written and
/// the noise of binary arithmetic does not decide.
std::string decimal(double value, int decimals);
/// As `decimal`, but trailing zeros (and a bare point) dropped: 20, 1.25, 39.67.
std::string trimmed(double value, int max_decimals);
/// Capitals for the Latin letters of ASCII and Latin-1; everything else stays.
std::string upper(std::string_view text);
std::string join(const std::vector<std::string>& parts, std::string_view between);
/// Lines of at most `width` characters, broken at blanks; a word that is longer is cut.
std::vector<std::string> wrapped(std::string_view text, int width);
/// The candidate nearest in spelling, or empty when none is close enough to be a likely slip.
std::string nearest(std::string_view word, const std::vector<std::string>& candidates);
/// The hint that names it; empty where nothing is near.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& candidates);

/// Without the byte order mark that some editors and spreadsheets begin a file with.
std::string_view without_byte_order_mark(std::string_view utf8);

/// The characters of UTF-8 text, each as its bytes; a stray byte counts as one character.
std::vector<std::string_view> characters(std::string_view utf8);
int character_count(std::string_view utf8);

} // namespace ohmfolio
