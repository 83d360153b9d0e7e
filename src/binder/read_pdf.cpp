#include <algorithm>
#include <cmath>
#include <utility>

#include <qpdf/Pl_Discard.hh>
#include <qpdf/QPDFExc.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>

#include "binder/binder.h"
#include "binder/opened.h"

namespace ohmfolio {

std::shared_ptr<QPDF> opened(const std::string& bytes) {
    auto pdf = QPDF::create();
    pdf->setSuppressWarnings(true);
    pdf->setAttemptRecovery(false);
    pdf->processMemoryFile("PDF", bytes.data(), bytes.size());
    return pdf;
}

namespace {

/// PDF 1.7 (ISO 32000-1), annex C: a page is at most 14,400 units a side, and at least 3.
constexpr double smallest_side = 3;
constexpr double largest_side = 14'400;

bool is_side(double length) {
    return std::isfinite(length) && length >= smallest_side && length <= largest_side;
}

PdfPageSize size_of(QPDFPageObjectHelper page) {
    auto box = page.getTrimBox();
    if (!box.isRectangle()) {
        return {};
    }
    const auto rectangle = box.getArrayAsRectangle();
    double unit = 1;
    auto user_unit = page.getAttribute("/UserUnit", false);
    if (user_unit.isNumber()) {
        unit = user_unit.getNumericValue();
    }
    double width = std::abs(rectangle.urx - rectangle.llx) * unit;
    double height = std::abs(rectangle.ury - rectangle.lly) * unit;
    auto turn = page.getAttribute("/Rotate", false);
    if (turn.isInteger() && turn.getIntValueAsInt() % 180 != 0) {
        std::swap(width, height);
    }
    if (!is_side(width) || !is_side(height)) {
        return {};
    }
    return {width, height};
}

PdfContents faulty(PdfContents::Fault fault, std::string why = {}) {
    PdfContents contents;
    contents.fault = fault;
    contents.why = std::move(why);
    return contents;
}

/// "PDF (object 3 0, offset 17): expected endobj" says no more than its end to a drafter.
PdfContents told(const QPDFExc& fault) {
    if (fault.getErrorCode() == qpdf_e_password) {
        return faulty(PdfContents::Fault::encrypted);
    }
    return faulty(PdfContents::Fault::damaged, fault.getMessageDetail());
}

bool begins_as_pdf(const std::string& bytes) {
    // Some writers put something before the header; readers look for it in the first kilobyte.
    constexpr std::size_t searched = 1024;
    return bytes.substr(0, searched).find("%PDF-") != std::string::npos;
}

PdfContents read_pages(const std::string& bytes) {
    const auto pdf = opened(bytes);
    PdfContents contents;
    for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(*pdf).getAllPages()) {
        contents.pages.push_back(size_of(page));
        Pl_Discard nowhere;
        page.pipeContents(&nowhere); // what cannot be decoded becomes a warning
    }
    if (contents.pages.empty()) {
        return faulty(PdfContents::Fault::no_pages);
    }
    const auto warnings = pdf->getWarnings();
    if (!warnings.empty()) {
        return told(warnings.front());
    }
    return contents;
}

} // namespace

PdfContents read_pdf(const std::string& bytes) {
    if (!begins_as_pdf(bytes)) {
        return faulty(PdfContents::Fault::not_a_pdf);
    }
    try {
        return read_pages(bytes);
    } catch (const QPDFExc& fault) {
        return told(fault);
    } catch (const std::exception& fault) { // qpdf's own checks of types and ranges
        return faulty(PdfContents::Fault::damaged, fault.what());
    }
}

} // namespace ohmfolio
