// A foreign PDF out of any bytes: what it holds is told, its first page is set into a sheet, what
// is attached is taken out.
#include <stdexcept>

#include "binder/binder.h"
#include "fuzz/target.h"
#include "render/render.h"

using namespace ohmfolio;

namespace {

/// A sheet of ours with nothing on it.
const std::string& sheet() {
    static const std::string pdf = [] {
        const Lettering lettering(std::filesystem::path(OHMFOLIO_SOURCE) / "layouts/lettering");
        Packet packet;
        packet.info.date = "2026-03-02";
        packet.sheets.resize(1);
        packet.sheets.front().number = "E-701";
        packet.sheets.front().frame.size = {inches(17), inches(11)};
        return to_pdf(packet, lettering);
    }();
    return pdf;
}

} // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string bytes = fuzz::text_of(data, size);
    const PdfContents contents = read_pdf(bytes);
    try {
        pdf_attachments(bytes);
    } catch (const std::runtime_error&) {
        // in words for the user, as promised
    }
    if (contents.fault == PdfContents::Fault::none) {
        try {
            bind_pdf(sheet(), {"2026-03-02", {{0, &bytes, 1, 72, 72, 700, 700, false}}, {}});
        } catch (const std::runtime_error&) {
            // a page that turns out to be broken when it is taken
        }
    }
    return 0;
}
