/// Inside the render room: what Cairo 1.16 leaves wrong in a finished PDF, put right. Every edit
/// keeps the length, so the byte offsets in the file stay true; a later Cairo that writes correct
/// files is left alone.
#pragma once

#include <string>

namespace ohmfolio {

/// "2026-03-02" in the form Cairo asks for. Throws std::logic_error if `date` is no such date.
std::string cairo_date(const std::string& date);
/// Writes the creation date as ISO 32000-1, 7.9.4 wants it, "(D:20260302)": Cairo leaves out the
/// "D:" that the standard requires.
void repair_date(std::string& pdf, const std::string& date);
/// For each link Cairo reserves an object of a structure tree that it then never writes, and lists
/// it with a wrong offset. Such entries become free ones (ISO 32000-1, 7.5.4), which makes what
/// refers to them null.
void repair_cross_references(std::string& pdf);

} // namespace ohmfolio
