#include "app/appendix.h"

#include <fmt/format.h>

#include "app/program_modules.h"

namespace ohmfolio {

namespace {

constexpr std::string_view print_anew = "open it in a viewer and print it to a new PDF";

std::string counted_pages(std::size_t count) {
    return fmt::format("{} page{}", count, count == 1 ? "" : "s");
}

class Understanding {
  public:
    Understanding(AppendedDocument& document, Findings& findings)
        : document_(document), findings_(findings) {}

    void take(const PdfContents& contents) {
        using Fault = PdfContents::Fault;
        switch (contents.fault) {
        case Fault::not_a_pdf:
            report(document_.file.span, "is not a PDF", {});
            return;
        case Fault::encrypted:
            report(document_.file.span, "is encrypted and needs a password",
                   "ask its issuer for an open copy");
            return;
        case Fault::damaged:
            report(document_.file.span, "is damaged: " + contents.why, print_anew);
            return;
        case Fault::no_pages:
            report(document_.file.span, "holds no pages", {});
            return;
        case Fault::none:
            take_pages(contents.pages);
        }
    }

  private:
    void take_pages(const std::vector<PdfPageSize>& pages) {
        const int count = static_cast<int>(pages.size());
        const PageRange range = document_.wanted ? document_.wanted->value : PageRange{1, count};
        if (range.last > count) {
            report(document_.wanted->span,
                   fmt::format("has {}, not {}", counted_pages(pages.size()), range.last), {});
            return;
        }
        for (int number = range.first; number <= range.last; ++number) {
            const PdfPageSize& page = pages[static_cast<std::size_t>(number - 1)];
            if (page.width <= 0 || page.height <= 0) {
                report(document_.file.span,
                       fmt::format("has no area on page {} that could be shown", number),
                       print_anew);
                return;
            }
            document_.pages.push_back({number, points(page.width), points(page.height)});
        }
    }

    void report(Span span, const std::string& what, std::string_view hint) {
        Finding finding;
        finding.rule = "appendix.pdf";
        finding.span = span;
        finding.message = fmt::format("\"{}\" {}", document_.file.value, what);
        finding.expected = "a PDF that opens without a password and holds the pages asked for";
        finding.hint = hint;
        findings_.push_back(std::move(finding));
    }

    AppendedDocument& document_;
    Findings& findings_;
};

} // namespace

void understand_appendix(System& system, const SourceFiles& sources, Findings& findings) {
    for (AppendedDocument& document : system.appendix) {
        if (document.source >= 0) {
            Understanding(document, findings).take(binder().read(sources.text(document.source)));
        }
    }
}

std::vector<PdfPlacement> appended_pages(const Packet& packet, const System& system,
                                         const SourceFiles& sources) {
    std::vector<PdfPlacement> places;
    for (std::size_t sheet = 0; sheet < packet.sheets.size(); ++sheet) {
        const Frame& frame = packet.sheets[sheet].frame;
        for (const Mark& mark : frame.marks) {
            const auto* insert = std::get_if<Insert>(&mark.item);
            if (insert == nullptr) {
                continue;
            }
            const AppendedDocument& document =
                system.appendix.at(static_cast<std::size_t>(insert->document));
            const auto up = [&frame](Length y) { return (frame.size.height - y).in_points(); };
            places.push_back({sheet, &sources.text(document.source), insert->page,
                              insert->area.low.x.in_points(), up(insert->area.high.y),
                              insert->area.high.x.in_points(), up(insert->area.low.y),
                              insert->turned});
        }
    }
    return places;
}

} // namespace ohmfolio
