/// Other people's PDFs that go with a set: cut sheets that the catalogue names, and what the job
/// adds, such as a structural letter. Every page of them becomes a sheet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/length.h"
#include "base/source.h"

namespace ohmfolio {

/// In the order of the words of the key `kind`.
enum class DocumentKind {
    cut_sheet,
    listing,
    structural_letter,
    utility_approval,
    manual,
    photograph,
    other
};

/// Pages of a document, from 1; both ends belong to it.
struct PageRange {
    int first = 1, last = 1;
};

/// A page as it is read: turned upright.
struct DocumentPage {
    int number = 1; ///< within its document
    Length width, height;
};

struct AppendedDocument {
    DocumentKind kind = DocumentKind::other;
    std::string title;                        ///< as the job states it; empty: by its records
    Spanned<std::string> file;                ///< as written, relative to the file that names it
    std::optional<Spanned<PageRange>> wanted; ///< nothing: all pages
    std::vector<int> records;                 ///< whose cut sheet it is
    std::vector<int> equipment;               ///< that it was appended for
    int source = -1;                          ///< its bytes in SourceFiles; -1: not read
    /// What is appended, in order; known once the document has been understood.
    std::vector<DocumentPage> pages = {};
};

} // namespace ohmfolio
