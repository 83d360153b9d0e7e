/// PDF in, PDF out: what foreign PDFs hold, their pages set into our sheets, files attached and
/// taken out again, and the digest by which an issued file is known. The only user of qpdf and
/// nettle; knows no sheets and no electricity.
///
/// The room becomes a module that is loaded when a PDF is at hand, since qpdf and what it needs
/// take half as long to load as all else together. Lengths are points, the origin of a page its
/// lower left corner.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace ohmfolio {

struct PdfPageSize {
    double width = 0, height = 0; ///< as shown, after any turn; zero where it shows nothing
};

struct PdfContents {
    enum class Fault { none, not_a_pdf, encrypted, damaged, no_pages } fault = Fault::none;
    std::string why; ///< of damage, in the words of qpdf
    std::vector<PdfPageSize> pages;
};

/// Where a page of a foreign PDF goes: as large as fits, in the middle of the area.
struct PdfPlacement {
    std::size_t sheet = 0;                 ///< page of ours, from 0
    const std::string* document = nullptr; ///< bytes; must outlive the call
    int page = 1;
    double left = 0, bottom = 0, right = 0, top = 0;
    bool turned = false; ///< a quarter turn counter-clockwise
};

struct PdfAttachment {
    std::string name; ///< with slashes between folders
    std::string description;
    std::string type;    ///< "application/toml"
    bool source = false; ///< what the document was made from, else data that belong to it
    std::string bytes;
};

struct PdfBinding {
    std::string date; ///< "2026-03-02"
    std::vector<PdfPlacement> placements;
    std::vector<PdfAttachment> attachments; ///< names are unique
};

/// Never throws for what the bytes hold.
PdfContents read_pdf(const std::string& bytes);
/// `pdf` is one that to_pdf() wrote. Throws std::runtime_error when a foreign page cannot be taken,
/// which read_pdf() would have told.
std::string bind_pdf(const std::string& pdf, const PdfBinding& binding);
/// The files that bind_pdf() attached, in their order; nothing when `pdf` is none of ours. Throws
/// std::runtime_error, in words for the user, when it cannot be read.
std::optional<std::vector<PdfAttachment>> pdf_attachments(const std::string& pdf);

/// SHA-256 of the bytes in hexadecimal figures, as the tools of any system print it.
std::string digest(const std::string& bytes);

/// What the module hands out.
struct Binder {
    decltype(&read_pdf) read = nullptr;
    decltype(&bind_pdf) bind = nullptr;
    decltype(&pdf_attachments) attachments = nullptr;
    decltype(&ohmfolio::digest) digest = nullptr;
};

} // namespace ohmfolio
