//! A fill-in: what a book lacks as tables that are ready to be filled in and read together with it.
//!
//! What is known stands in its cells; a cell to fill in is boxed on a pale ground. Columns of our own say which cell of
//! which book asks, why, and what is published; they are skipped when the tables are read.

use jiff::civil::DateTime;
use rust_xlsxwriter::{DataValidation, ExcelDateTime, Format, Formula, Workbook, Worksheet, XlsxError};

use super::format::format_of;
use super::sheet::{day, month, year};
use super::stamped;
use crate::problem::column_letters;
use crate::results::missing::{Asked, Missing, MissingMeasure, MissingName, MissingPrice};
use crate::schema::{Column, TableKind, Typed, Value, fill_in, fitting};
use crate::workbook::cells::number::to_float;
use crate::workbook::cells::row::{Ink, Look};
use crate::workbook::layout::sheet_names;

/// A cell of a row.
enum FillInCell {
    /// To be filled in.
    Open,
    /// To be filled in by choosing what stands in these columns of the row.
    Chosen(u16, u16),
    /// As the book has it.
    Known(Typed),
    /// What we say.
    Said(String),
}

/// A table of a fill-in.
struct FillInTable {
    kind: TableKind,
    about: &'static str,
    /// The columns of the kind and our own: header, width.
    heads: Vec<(&'static str, u16)>,
    rows: Vec<Vec<FillInCell>>,
}

/// How wide the columns are that say who asks and why.
const WHO_ASKS: [(&str, u16); 2] = [(fill_in::ASKED_AT, 30), (fill_in::WHY, 70)];

/// The workbook's bytes.
///
/// # Errors
/// When more is missing than a sheet has rows.
pub fn write(missing: &Missing, at: DateTime) -> Result<Vec<u8>, XlsxError> {
    let mut workbook = Workbook::new();
    workbook.set_properties(&stamped("What is missing, to fill in", at)?);
    for table in tables(missing).into_iter().filter(|table| !table.rows.is_empty()) {
        draw(workbook.add_worksheet(), &table)?;
    }
    workbook.save_to_buffer()
}

fn tables(missing: &Missing) -> [FillInTable; 5] {
    let header = |kind: TableKind, column: Column| kind.header(column);
    let heads = |kind: TableKind, columns: &[(Column, u16)], ours: &[(&'static str, u16)]| {
        let columns = columns.iter().map(|(column, width)| (header(kind, *column), *width));
        columns.chain(ours.iter().copied()).chain(WHO_ASKS).collect()
    };
    use Column as C;
    let [one, two, three, four] = fill_in::CHOICES;
    let facts = [C::Makes, C::Portion, C::Portions, C::MenuPrice, C::Target].map(|column| (column, 14));
    let sold = [C::MenuPrice, C::Target].map(|column| (column, 14));
    let named = |column: C, columns: &[(C, u16)]| [&[(column, 30)], columns].concat();
    [
        FillInTable {
            kind: TableKind::Names,
            about: "Choose what is meant, or type another name of the book; a new item comes on the sheet Prices.",
            heads: heads(
                TableKind::Names,
                &[(C::Item, 30), (C::AlsoCalled, 30)],
                &[(one, 22), (two, 22), (three, 22), (four, 14)],
            ),
            rows: missing.names.iter().map(name).collect(),
        },
        FillInTable {
            kind: TableKind::Prices,
            about: "Fill in what is missing. A cell filled in counts instead of the one in the book; what stays blank changes nothing.",
            heads: heads(
                TableKind::Prices,
                &[
                    (C::Item, 28),
                    (C::Supplier, 18),
                    (C::Code, 12),
                    (C::Date, 12),
                    (C::Pack, 16),
                    (C::Price, 12),
                    (C::Per, 10),
                    (C::Allergens, 18),
                ],
                &[(fill_in::PACK_THERE, 16), (fill_in::PRICE_THERE, 12)],
            ),
            rows: missing.prices.iter().map(price).collect(),
        },
        FillInTable {
            kind: TableKind::Measures,
            about: "Weigh one and type it with its unit. What is published is an average: yours counts.",
            heads: heads(
                TableKind::Measures,
                &[(C::Item, 28), (C::Measure, 16), (C::Weighs, 14), (C::Holds, 14)],
                &[(fill_in::PUBLISHED, 34), (fill_in::PUBLISHED_BY, 34)],
            ),
            rows: missing.measures.iter().map(measure).collect(),
        },
        FillInTable {
            kind: TableKind::RecipeFacts,
            about: "Say what the batch makes (3 qt, 2.4 kg, 24 each) or how many portions; two of the three are enough.",
            heads: heads(TableKind::RecipeFacts, &named(C::Recipe, &facts), &[]),
            rows: missing.recipes.iter().map(|row| open(&row.name, facts.len(), &row.asked)).collect(),
        },
        FillInTable {
            kind: TableKind::Menu,
            about: "Fill in what could not be read.",
            heads: heads(TableKind::Menu, &named(C::Dish, &sold), &[]),
            rows: missing.dishes.iter().map(|row| open(&row.name, sold.len(), &row.asked)).collect(),
        },
    ]
}

/// The cell that asks, and why.
fn who_asks(asked: &Asked) -> [FillInCell; 2] {
    let others = match asked.others {
        0 => String::new(),
        1 => " and 1 other".to_owned(),
        many => format!(" and {many} others"),
    };
    [FillInCell::Said(format!("{}{others}", asked.at)), FillInCell::Said(asked.why.clone())]
}

fn known(text: &str) -> FillInCell {
    FillInCell::Known(Typed::text(text))
}

fn name(row: &MissingName) -> Vec<FillInCell> {
    let near = row.near.iter().map(String::as_str).chain([fill_in::A_NEW_ITEM]);
    let choices: Vec<FillInCell> =
        near.take(fill_in::CHOICES.len()).map(|text| FillInCell::Said(text.to_owned())).collect();
    let last = u16::try_from(choices.len()).unwrap_or_default().saturating_add(1);
    let blank = (choices.len()..fill_in::CHOICES.len()).map(|_| FillInCell::Said(String::new()));
    let mut cells = vec![FillInCell::Chosen(2, last), known(&row.name)];
    cells.extend(choices.into_iter().chain(blank));
    cells.extend(who_asks(&row.asked));
    cells
}

fn price(row: &MissingPrice) -> Vec<FillInCell> {
    let mut cells = vec![known(&row.item)];
    cells.extend(row.apart.iter().map(|typed| FillInCell::Known(typed.clone())));
    cells.extend([FillInCell::Open, FillInCell::Open, FillInCell::Open, FillInCell::Open]);
    cells.extend([FillInCell::Said(row.pack.clone()), FillInCell::Said(row.price.seen())]);
    cells.extend(who_asks(&row.asked));
    cells
}

fn measure(row: &MissingMeasure) -> Vec<FillInCell> {
    let mut cells = vec![known(&row.item), known(&row.measure), FillInCell::Open, FillInCell::Open];
    cells.extend([FillInCell::Said(row.published.clone()), FillInCell::Said(row.source.clone())]);
    cells.extend(who_asks(&row.asked));
    cells
}

/// A name and so many cells to fill in.
fn open(name: &str, cells: usize, asked: &Asked) -> Vec<FillInCell> {
    let mut row = vec![known(name)];
    row.extend((0..cells).map(|_| FillInCell::Open));
    row.extend(who_asks(asked));
    row
}

/// The row of the header: a title and a line on what to do stand above.
const HEADER: u32 = 3;

fn draw(sheet: &mut Worksheet, table: &FillInTable) -> Result<(), XlsxError> {
    let title = sheet_names::of_table(table.kind);
    sheet.set_name(title)?.set_screen_gridlines(false).set_landscape().set_print_fit_to_pages(1, 0);
    sheet.write_string_with_format(0, 0, title, &format_of(Ink::Title, &Look::General))?;
    sheet.write_string_with_format(1, 0, table.about, &format_of(Ink::Reading, &Look::General))?;
    for (at, (head, width)) in (0..).zip(&table.heads) {
        let ours = fill_in::COLUMNS.contains(head);
        let ink = if ours { Ink::OwnHeader } else { Ink::Header };
        sheet.write_string_with_format(HEADER, at, *head, &format_of(ink, &Look::General))?;
        sheet.set_column_width(at, to_float((*width).into()))?;
    }
    sheet.set_freeze_panes(HEADER.saturating_add(1), 1)?.set_repeat_rows(HEADER, HEADER)?;
    for (row, cells) in (HEADER.saturating_add(1)..).zip(&table.rows) {
        for (at, cell) in (0..).zip(cells) {
            put(sheet, row, at, cell)?;
        }
    }
    Ok(())
}

fn put(sheet: &mut Worksheet, row: u32, at: u16, cell: &FillInCell) -> Result<(), XlsxError> {
    // Kept as typed: no program makes a day of 6/5 lb.
    let to_fill = || format_of(Ink::Input, &Look::General).set_num_format("@");
    let fact = |look: &Look| format_of(Ink::Plain, look);
    match cell {
        FillInCell::Open => sheet.write_blank(row, at, &to_fill())?,
        FillInCell::Chosen(first, last) => {
            let cell = |column: u16| format!("${}${}", column_letters(u32::from(column)), row.saturating_add(1));
            let range = Formula::new(format!("={}:{}", cell(*first), cell(*last)));
            let list = DataValidation::new().allow_list_formula(range).show_error_message(false);
            sheet.add_data_validation(row, at, row, at, &list)?.write_blank(row, at, &to_fill())?
        }
        FillInCell::Known(typed) => match &typed.value {
            Value::Blank => sheet,
            Value::Number(number) => {
                sheet.write_number_with_format(row, at, to_float(*number), &fact(&Look::General))?
            }
            Value::Date(date) => {
                let day = ExcelDateTime::from_ymd(year(*date), month(*date), day(*date))?;
                sheet.write_datetime_with_format(row, at, &day, &fact(&Look::Date))?
            }
            _ => sheet.write_string_with_format(row, at, typed.seen(), &fact(&Look::General))?,
        },
        FillInCell::Said(text) if text.is_empty() => sheet,
        FillInCell::Said(text) => {
            let text = fitting(text);
            let wrapped: Format = format_of(Ink::Reading, &Look::Wrapped);
            sheet.write_string_with_format(row, at, text, &wrapped)?
        }
    };
    Ok(())
}
