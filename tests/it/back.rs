//! What comes back: a costed workbook that people changed, and a book that new prices are put into.

mod kept;
mod marks;
mod typed_over;
