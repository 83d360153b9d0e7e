#include "binder/binder.h"

/// The one name that the program looks up in the module.
extern "C" __attribute__((visibility("default"))) const ohmfolio::Binder* ohmfolio_binder() {
    static const ohmfolio::Binder binder{&ohmfolio::read_pdf, &ohmfolio::bind_pdf,
                                         &ohmfolio::pdf_attachments, &ohmfolio::digest};
    return &binder;
}
