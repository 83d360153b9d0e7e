/// Inside the binder: a PDF opened from memory without a word on any stream.
#pragma once

#include <memory>
#include <string>

#include <qpdf/QPDF.hh>

namespace ohmfolio {

/// A damaged file is refused rather than guessed at. `bytes` must outlive the result. Throws
/// QPDFExc.
std::shared_ptr<QPDF> opened(const std::string& bytes);

} // namespace ohmfolio
