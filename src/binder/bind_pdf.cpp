#include <map>
#include <stdexcept>

#include <fmt/format.h>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include "binder/binder.h"
#include "binder/opened.h"

namespace ohmfolio {

namespace {

using Object = QPDFObjectHandle;

constexpr int digits_of_a_point = 4;

/// A quarter turn about the corner of the area, so that what follows is placed as if upright.
std::string turn(const PdfPlacement& place) {
    return fmt::format("0 1 -1 0 {:.{}f} {:.{}f} cm\n", place.right, digits_of_a_point,
                       place.bottom, digits_of_a_point);
}

Object::Rectangle area_of(const PdfPlacement& place) {
    if (place.turned) {
        return {0, 0, place.top - place.bottom, place.right - place.left};
    }
    return {place.left, place.bottom, place.right, place.top};
}

/// The foreign documents, each opened once; they have to live until the whole is written.
class ForeignPages {
  public:
    /// The content of a page alone: annotations, scripts and form fields stay behind.
    Object form(const PdfPlacement& place, QPDF& into) {
        auto& document = documents_[place.document];
        if (!document) {
            document = opened(*place.document);
        }
        auto pages = QPDFPageDocumentHelper(*document).getAllPages();
        const auto index = static_cast<std::size_t>(place.page - 1);
        if (place.page < 1 || index >= pages.size()) {
            throw std::runtime_error("a PDF to append has no such page");
        }
        Object form = pages[index].getFormXObjectForPage();
        if (!form.isStream()) {
            throw std::runtime_error("a page of a PDF to append shows nothing");
        }
        return into.copyForeignObject(form);
    }

  private:
    std::map<const std::string*, std::shared_ptr<QPDF>> documents_; // looked up only
};

void place_page(QPDF& pdf, QPDFPageObjectHelper sheet, const PdfPlacement& place,
                ForeignPages& foreign) {
    Object form = foreign.form(place, pdf);
    Object resources = sheet.getAttribute("/Resources", true);
    if (!resources.isDictionary()) {
        resources = Object::newDictionary();
        sheet.getObjectHandle().replaceKey("/Resources", resources);
    }
    if (!resources.getKey("/XObject").isDictionary()) {
        resources.replaceKey("/XObject", Object::newDictionary());
    }
    int next = 0;
    const std::string name = resources.getUniqueResourceName("/Appended", next);
    resources.getKey("/XObject").replaceKey(name, form);
    const std::string placed = sheet.placeFormXObject(form, name, area_of(place), true, true, true);
    // Cairo turns the page upside down and does not turn it back.
    const std::string after =
        fmt::format("\nQ\nq\n{}{}Q\n", place.turned ? turn(place) : std::string{}, placed);
    sheet.addPageContents(Object::newStream(&pdf, "q\n"), true);
    sheet.addPageContents(Object::newStream(&pdf, after), false);
}

/// "D:20260302000000Z".
std::string pdf_date(const std::string& date) {
    std::string digits;
    for (const char c : date) {
        if (c != '-') {
            digits += c;
        }
    }
    return "D:" + digits + "000000Z";
}

/// Listed where viewers look (the name tree) and where other programs do (associated files).
void attach(QPDF& pdf, const PdfBinding& binding) {
    QPDFEmbeddedFileDocumentHelper embedded(pdf);
    Object associated = Object::newArray();
    for (const PdfAttachment& file : binding.attachments) {
        auto stream = QPDFEFStreamObjectHelper::createEFStream(pdf, file.bytes);
        stream.setSubtype(file.type).setModDate(pdf_date(binding.date));
        auto spec = QPDFFileSpecObjectHelper::createFileSpec(pdf, file.name, stream);
        spec.setDescription(file.description);
        spec.getObjectHandle().replaceKey("/AFRelationship",
                                          Object::newName(file.source ? "/Source" : "/Data"));
        embedded.replaceEmbeddedFile(file.name, spec);
        associated.appendItem(spec.getObjectHandle());
    }
    pdf.getRoot().replaceKey("/AF", associated);
}

/// Cairo hangs the parts of the sheets side by side; ISO 32000-1, 14.8.4.2, has one document above.
void join_parts(QPDF& pdf) {
    Object tree = pdf.getRoot().getKey("/StructTreeRoot");
    if (!tree.isDictionary()) {
        return;
    }
    Object parts = tree.getKey("/K");
    Object document = pdf.makeIndirectObject(Object::newDictionary());
    document.replaceKey("/Type", Object::newName("/StructElem"));
    document.replaceKey("/S", Object::newName("/Document"));
    document.replaceKey("/P", tree);
    document.replaceKey("/K", parts);
    for (Object part : parts.getArrayAsVector()) {
        if (part.isDictionary()) {
            part.replaceKey("/P", document);
        }
    }
    tree.replaceKey("/K", document);
}

void describe(QPDF& pdf) {
    join_parts(pdf);
    Object root = pdf.getRoot();
    root.replaceKey("/Lang", Object::newUnicodeString("en-US"));
    Object preferences = root.getKey("/ViewerPreferences");
    if (!preferences.isDictionary()) {
        preferences = root.replaceKeyAndGetNew("/ViewerPreferences", Object::newDictionary());
    }
    preferences.replaceKey("/DisplayDocTitle", Object::newBool(true));
}

std::string written(QPDF& pdf) {
    QPDFWriter writer(pdf);
    writer.setOutputMemory();
    writer.setDeterministicID(true);
    writer.setObjectStreamMode(qpdf_o_generate);
    writer.setMinimumPDFVersion("1.7");
    writer.write();
    const auto buffer = writer.getBufferSharedPointer();
    return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

} // namespace

std::string bind_pdf(const std::string& pdf, const PdfBinding& binding) {
    const auto bound = opened(pdf);
    ForeignPages foreign;
    auto sheets = QPDFPageDocumentHelper(*bound).getAllPages();
    for (const PdfPlacement& place : binding.placements) {
        place_page(*bound, sheets.at(place.sheet), place, foreign);
    }
    if (!binding.attachments.empty()) {
        attach(*bound, binding);
    }
    describe(*bound);
    return written(*bound);
}

} // namespace ohmfolio
