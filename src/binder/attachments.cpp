#include <fmt/format.h>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFExc.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>

#include "binder/binder.h"
#include "binder/opened.h"

namespace ohmfolio {

namespace {

/// Larger than any job; a stream may claim to unfold to more than the machine holds.
constexpr std::size_t most_attachments = 10'000;

PdfAttachment attachment(QPDFObjectHandle handle) {
    QPDFFileSpecObjectHelper spec(handle);
    PdfAttachment file;
    file.name = spec.getFilename();
    file.description = spec.getDescription();
    auto relation = handle.getKey("/AFRelationship");
    file.source = relation.isName() && relation.getName() == "/Source";
    auto stream = spec.getEmbeddedFileStream();
    if (!stream.isStream()) {
        throw std::runtime_error(fmt::format("the attached file \"{}\" is missing", file.name));
    }
    file.type = QPDFEFStreamObjectHelper(stream).getSubtype();
    const auto data = stream.getStreamData(qpdf_dl_generalized);
    file.bytes.assign(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
    return file;
}

bool drawn_by_us(QPDF& pdf) {
    auto info = pdf.getTrailer().getKey("/Info");
    auto creator = info.isDictionary() ? info.getKey("/Creator") : QPDFObjectHandle();
    return creator.isInitialized() && creator.isString() && creator.getUTF8Value() == "ohmfolio";
}

} // namespace

std::optional<std::vector<PdfAttachment>> pdf_attachments(const std::string& bytes) {
    const PdfContents contents = read_pdf(bytes);
    switch (contents.fault) {
    case PdfContents::Fault::not_a_pdf:
        throw std::runtime_error("it is not a PDF");
    case PdfContents::Fault::encrypted:
        throw std::runtime_error("it is encrypted and needs a password");
    case PdfContents::Fault::damaged:
        throw std::runtime_error("it is damaged: " + contents.why);
    case PdfContents::Fault::no_pages:
    case PdfContents::Fault::none:
        break;
    }
    try {
        const auto pdf = opened(bytes);
        auto associated = pdf->getRoot().getKey("/AF");
        if (!drawn_by_us(*pdf) || !associated.isArray()) {
            return std::nullopt;
        }
        std::vector<PdfAttachment> files;
        for (auto& handle : associated.getArrayAsVector()) {
            if (handle.isDictionary() && files.size() < most_attachments) {
                files.push_back(attachment(handle));
            }
        }
        return files;
    } catch (const QPDFExc& fault) {
        throw std::runtime_error("it is damaged: " + fault.getMessageDetail());
    }
}

} // namespace ohmfolio
