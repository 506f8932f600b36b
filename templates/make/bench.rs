//! The bench form: one yield test on one page, to print, fill in beside the scale and type in afterwards.
//!
//! The printed page is the left of the sheet. To its right, outside the print, stand the columns that fill themselves
//! in: the test's name and date from the boxes above, and the role that is printed on the line. A line without a part
//! stays blank there, so an empty form is an empty table.

use rust_xlsxwriter::{Format, FormatAlign, FormatBorder, Formula, XlsxError};

use super::columns::{CHARGES, Others, ROLES, Shape};
use super::form;
use super::pen::{Book, Cell, INK, PALE, Page, RULE};
use super::region::Region;

/// What is printed on a line, its role, and how many lines of it there are.
const LINES: &[(&str, &str, u32)] = &[
    ("what came in (AP)", "as purchased", 1),
    ("added: water, fat, brine", "added", 1),
    ("main: for the plate", "main", 4),
    ("by-product: kept", "by-product", 6),
    ("waste: thrown away", "waste", 4),
];

/// The columns: header, width, how what is typed is kept, and the note.
const COLUMNS: [(&str, u16, Shape, &str); 16] = [
    (
        "Part",
        28,
        Shape::Free,
        "First line: what came in, as it is called in Prices. Else your own name for what came out.",
    ),
    ("What it is", 23, Shape::Free, "Printed to write beside. The role is under Role, to the right."),
    ("Weight", 13, Shape::Amount, "What it weighed. What came in: at the weight it was billed at."),
    ("Unit", 8, Shape::Free, "The unit, if it is not written with the weight."),
    (
        "Price",
        12,
        Shape::Money,
        "Of what came in: what was paid for one of Unit. Used only if Prices does not have it.",
    ),
    ("Charged as", 17, Shape::Free, "How a by-product is charged. Blank: free."),
    ("Value", 11, Shape::Free, "What the way of charging needs: 20% for fraction, money for one of Unit for price."),
    ("Note", 30, Shape::Free, "Anything you want to remember."),
    ("Test", 22, Shape::Free, "Fills itself in from the name above."),
    ("Role", 14, Shape::Free, "Fills itself in. Type another role over it if the line was used for one."),
    ("Date", 12, Shape::Day, "Fills itself in from the date above."),
    ("Run", 7, Shape::Free, "Which of several repeats on one day: 1, 2. May stay blank."),
    ("Instead of", 22, Shape::Free, "What a by-product saves buying, for one weight of it: 1 lb Chicken backs per lb."),
    (
        "Otherwise",
        18,
        Shape::AsTyped,
        "What happens to a by-product that is not used: binned (also if blank), or sold 0.80 / lb.",
    ),
    (
        "Eaten",
        8,
        Shape::Percent,
        "How much of a by-product leaves on plates when it is used. Blank: nothing, as with bones.",
    ),
    ("Keeps", 8, Shape::Number, parings::food::care::KEEPS),
];

/// How high a row to write in is, in points.
const ROOM: u8 = 26;
/// The last column that is printed.
const PRINTED: u16 = 7;
/// The last column that fills itself in.
const FILLED: u16 = 10;
/// Where the name of the test and its date stand.
const NAME: &str = "$B$4";
const DATE: &str = "$B$5";

/// The form.
pub fn form(region: Region) -> Result<Vec<u8>, XlsxError> {
    let mut book = Book::about("Yield test, a form for the bench", "To be filled in.", region.paper())?;
    let widths: Vec<u16> = COLUMNS.iter().map(|column| column.1).collect();
    let mut page = book.sheet("Yield test", &widths, true)?;
    page.title(
        "Yield test",
        "Weigh what came in, then everything that comes off it. One sheet for each test: copy it for the next.",
    )?;
    for (label, shape) in
        [("Name of the test", Shape::Free), ("Date of the test", Shape::Day), ("Weighed by", Shape::Free)]
    {
        boxed(&mut page, label, shape, region)?;
    }
    page.skip(1);
    // A formula without a stated result would be stored as 0, which names a test.
    page.sheet().set_formula_result_default("");
    let header = page.row();
    let heads = COLUMNS.map(|column| format!("{}{}", if column.2.is_right() { ">" } else { "" }, column.0));
    page.lasting_header(&heads, 0)?;
    for (at, column) in (0..).zip(COLUMNS) {
        form::note(&mut page, header, at, column.3)?;
    }
    for (printed, role, times) in LINES {
        for _ in 0..*times {
            line(&mut page, printed, role, region)?;
        }
    }
    let last = page.row() - 1;
    for (at, words, others) in
        [(3, region.weights(), Others::Doubted), (5, CHARGES, Others::Refused), (9, ROLES, Others::Refused)]
    {
        page.sheet().add_data_validation(header + 1, at, last, at, &form::choice(words, others)?)?;
    }
    page.sheet()
        .set_print_fit_to_pages(1, 1)
        .set_footer("&LSigned  ______________________________&RChecked by  ______________________________")
        .set_margins(0.5, 0.5, 0.7, 0.9, 0.3, 0.4)
        .set_print_area(0, 0, last, PRINTED)?;
    book.bytes()
}

/// A label above the lines, with a box.
fn boxed(page: &mut Page<'_>, label: &'static str, shape: Shape, region: Region) -> Result<(), XlsxError> {
    let row = page.row();
    page.put(0, Cell::Text(label), &Format::new().set_font_color(INK).set_align(FormatAlign::VerticalCenter))?;
    let format = framed(1, shape, region).set_align(FormatAlign::Left).set_indent(1);
    page.sheet().merge_range(row, 1, row, 3, "", &format)?;
    page.sheet().set_row_height(row, ROOM)?;
    page.skip(1);
    Ok(())
}

/// A line to write on.
fn line(page: &mut Page<'_>, printed: &'static str, role: &str, region: Region) -> Result<(), XlsxError> {
    let row = page.row();
    for (at, column) in (0..=PRINTED).zip(COLUMNS) {
        page.put(at, Cell::Blank, &framed(at, column.2, region))?;
    }
    page.put(1, Cell::Text(printed), &framed(1, Shape::Free, region).set_font_color(INK).set_background_color(PALE))?;
    let part = format!("$A{}", row + 1);
    let filled = [
        format!("=IF({part}=\"\",\"\",{NAME}&\"\")"),
        format!("=IF({part}=\"\",\"\",\"{role}\")"),
        format!("=IF(OR({part}=\"\",{DATE}=\"\"),\"\",{DATE})"),
    ];
    for ((at, column), formula) in (0..).zip(COLUMNS).skip(usize::from(PRINTED) + 1).zip(filled) {
        let format = form::ruled(at, column.2, region).set_font_color(INK).set_italic();
        page.sheet().write_formula_with_format(row, at, Formula::new(formula), &format)?;
    }
    for (at, column) in (0..).zip(COLUMNS).skip(usize::from(FILLED) + 1) {
        page.put(at, Cell::Blank, &form::ruled(at, column.2, region))?;
    }
    page.sheet().set_row_height(row, ROOM)?;
    page.skip(1);
    Ok(())
}

/// A cell to write in on paper.
fn framed(at: u16, shape: Shape, region: Region) -> Format {
    form::ruled(at, shape, region)
        .set_border(FormatBorder::Thin)
        .set_border_color(RULE)
        .set_align(FormatAlign::VerticalCenter)
}
