#include "core/papers/paper_printer.h"

#include "core/papers/pdf_date.h"

namespace tarebook {

PaperPrinter::Sheet paperSheetOf(Shop& books) {
    return {books.settings().mass == MassUnit::pound, timeOfBooks(books)};
}

} // namespace tarebook
