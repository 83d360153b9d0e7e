/// PDFs written out by hand, after ISO 32000-1, 7.5: header, objects, table of offsets, trailer.
#pragma once

#include <cstdio>
#include <string>
#include <vector>

namespace ohmfolio::test {

/// Of objects 1, 2, 3 .. as they stand between "obj" and "endobj"; 1 is the catalog.
inline std::string pdf_of(const std::vector<std::string>& objects,
                          const std::string& trailer = {}) {
    std::string pdf = "%PDF-1.7\n";
    std::string table = "0000000000 65535 f \n";
    for (std::size_t i = 0; i < objects.size(); ++i) {
        char entry[21];
        std::snprintf(entry, sizeof entry, "%010zu 00000 n \n", pdf.size());
        table += entry;
        pdf += std::to_string(i + 1) + " 0 obj\n" + objects[i] + "\nendobj\n";
    }
    const std::string count = std::to_string(objects.size() + 1);
    const std::string start = std::to_string(pdf.size());
    return pdf + "xref\n0 " + count + "\n" + table + "trailer\n<< /Root 1 0 R /Size " + count +
           " " + trailer + " >>\nstartxref\n" + start + "\n%%EOF\n";
}

inline std::string stream_of(const std::string& content) {
    return "<< /Length " + std::to_string(content.size()) + " >>\nstream\n" + content +
           "\nendstream";
}

/// One page for each set of entries, such as "/MediaBox [0 0 612 792]"; each fills a square.
inline std::string pdf_with_pages(const std::vector<std::string>& entries,
                                  const std::string& trailer = {}) {
    std::string kids;
    std::vector<std::string> objects{"<< /Type /Catalog /Pages 2 0 R >>", "",
                                     stream_of("0 0 10 10 re f")};
    for (const std::string& entry : entries) {
        kids += std::to_string(objects.size() + 1) + " 0 R ";
        objects.push_back("<< /Type /Page /Parent 2 0 R /Resources << >> /Contents 3 0 R " + entry +
                          " >>");
    }
    objects[1] =
        "<< /Type /Pages /Count " + std::to_string(entries.size()) + " /Kids [" + kids + "] >>";
    return pdf_of(objects, trailer);
}

inline std::string letter_pdf() { return pdf_with_pages({"/MediaBox [0 0 612 792]"}); }

} // namespace ohmfolio::test
