//! Reading a supplier's list: a file as the supplier sends it, whose price rows are wanted and nothing else.
//!
//! Takes the file, what the book knows of suppliers and what the caller says of the columns; gives its price rows, whose
//! they are and what was met. Finding tables and reading cells is the book's own (`find`, `rows`).

mod headers;
mod titled;
mod whose;

use super::find::{Headings, ask, find_with, printed_page, titled_unit};
use super::{Found, Grid, ReadError, SheetState, SheetTables, Source, rows};
use crate::in_order::InOrder;
use crate::kitchen::layout::LayoutRow;
use crate::kitchen::list::{ListHeading, ListOptions, NewList};
use crate::kitchen::{Entries, Field, InputRow};
use crate::measure::Volumes;
use crate::problem::suggest::quoted_list;
use crate::problem::{Advice, Choice, Code, Fault, Place, Problem};
use crate::schema::header::same;
use crate::schema::{Column, Limits, TableKind, Typed};
use headers::Guess;
use whose::WhoseList;

/// What a book knows that its suppliers' lists are read by.
#[derive(Debug, Clone, Copy)]
pub struct KnownOfBook<'a> {
    /// Its rows: suppliers, and how their lists are laid out.
    pub entries: &'a Entries,
    /// Its currency.
    pub currency: Option<&'a str>,
    /// What cup, pint and fl oz mean in it.
    pub volumes: Volumes,
    /// How much a file may hold.
    pub limits: Limits,
}

/// A supplier's list as read.
#[derive(Debug, Clone)]
pub struct ListFile {
    /// Whose it is, and its price rows.
    pub list: NewList,
    /// Its sheets, in its order.
    pub sheets: Vec<Place>,
    /// What was met besides.
    pub problems: Vec<Problem>,
    /// The headings asked for that stand over no price column in it.
    pub not_found: Vec<String>,
    /// The headings of its price tables.
    pub headings: Vec<String>,
}

/// Reads a supplier's list.
///
/// # Errors
/// [`ReadError`] when the file cannot be read at all, or holds no price table that can be found.
pub fn read(source: &Source<'_>, known: KnownOfBook<'_>, options: &ListOptions) -> Result<ListFile, ReadError> {
    let grids = super::grids(source, &known.limits)?;
    let whose = WhoseList::of(source.name, &grids, known.entries, options.supplier.as_deref());
    let mut problems: Vec<Problem> = whose.note(source.name).into_iter().collect();
    let supplier = whose.supplier();
    let headings = headings(known.entries, supplier.as_deref(), options);
    let sheets: Vec<SheetTables<'_>> = grids.iter().map(|grid| find_with(grid, &headings)).collect();
    problems.extend(sheets.iter().flat_map(|sheet| sheet.problems.iter().cloned()));
    problems.extend(others(source.name, &sheets));
    if let Some(error) = titled(source.name, &grids, &sheets) {
        return Err(error);
    }
    let (mut rows, of_rows) = rows::of_list(&sheets, known.currency, known.volumes);
    problems.extend(of_rows);
    if rows.is_empty() {
        return Err(none(source.name, &grids, &sheets, known.entries, supplier.is_some()));
    }
    if let Some(supplier) = &supplier {
        for row in rows.iter_mut().filter(|row| row.row.supplier.is_empty()) {
            row.row.supplier.clone_from(supplier);
        }
    }
    let over: Vec<(Column, String)> = price_tables(&sheets)
        .flat_map(|table| &table.columns)
        .map(|heading| (heading.column, heading.text.clone()))
        .collect();
    let is_over = |(column, heading): &&(Column, String)| {
        over.iter().any(|(known, text)| known == column && headers::is_heading(text, heading))
    };
    let not_found = options.columns.iter().filter(|wanted| !is_over(wanted)).map(|(_, text)| text.clone()).collect();
    let headings = grids.iter().filter_map(Guess::of).flat_map(|guess| guess.headers).collect();
    let titled = titled::days(&grids);
    let over = over_prices(&grids, &sheets);
    let list = NewList { file: source.name.to_owned(), supplier, titled, headings: over, rows };
    let sheets = grids.iter().map(|grid| grid.place().clone()).collect();
    Ok(ListFile { list, sheets, problems, not_found, headings })
}

/// What the caller said of columns that a list really has, as rows of supplier layouts that the book lacks.
pub fn to_remember(lists: &[ListFile], entries: &Entries, options: &ListOptions) -> Vec<LayoutRow> {
    let mut rows: Vec<LayoutRow> = Vec::new();
    for file in lists {
        let Some(supplier) = &file.list.supplier else { continue };
        for (column, heading) in options.columns.iter().filter(|(_, heading)| !file.not_found.contains(heading)) {
            let says_so = |row: &LayoutRow| {
                row.is_of(supplier)
                    && row.column == Field::Given(*column)
                    && row.heading.given().is_some_and(|known| same(known, heading))
            };
            if entries.layouts.iter().chain(&rows).any(says_so) {
                continue;
            }
            let mut input = InputRow { place: Place::file(&file.list.file), cells: Vec::new() };
            input.set(Column::Supplier, Typed::text(supplier));
            input.set(Column::OurColumn, Typed::text(TableKind::Prices.header(*column)));
            input.set(Column::TheirHeading, Typed::text(heading));
            let (supplier, heading) = (supplier.clone(), Field::Given(heading.clone()));
            rows.push(LayoutRow { input, supplier, column: Field::Given(*column), heading });
        }
    }
    rows
}

fn price_tables<'s, 'g>(sheets: &'s [SheetTables<'g>]) -> impl Iterator<Item = &'s super::Table<'g>> {
    let found = sheets.iter().flat_map(|sheet| sheet.found.iter());
    found.filter_map(|found| match found {
        Found::Table(table) if table.kind == TableKind::Prices => Some(table),
        _ => None,
    })
}

/// The headings over the price tables, also over what was passed over in them.
fn over_prices(grids: &[Grid], sheets: &[SheetTables<'_>]) -> Vec<ListHeading> {
    let mut all = Vec::new();
    for (grid, sheet) in grids.iter().zip(sheets) {
        for table in price_tables(std::slice::from_ref(sheet)) {
            let known = table.columns.iter();
            let mut headings: Vec<_> =
                known.map(|heading| (heading.at, heading.text.clone(), Some(heading.column))).collect();
            let header = table.place.cell_ref().and_then(|cell| grid.rows().iter().find(|row| row.row == cell.row));
            let cells = header.into_iter().flat_map(|row| row.cells());
            let others = cells.filter(|(at, _)| table.columns.iter().all(|heading| heading.at != *at));
            headings.extend(others.map(|(at, typed)| (*at, typed.seen(), None)));
            headings.put_in_order_by_key(|(at, ..)| *at);
            all.extend(headings.into_iter().map(|(_, text, read_as)| ListHeading { text, read_as }));
        }
    }
    all
}

/// The error of a list whose title alone says what its prices are for. The book's packs would be taken for it, and which
/// rows are by another unit only their reader can tell.
fn titled(file: &str, grids: &[Grid], sheets: &[SheetTables<'_>]) -> Option<ReadError> {
    let says = [Column::Pack, Column::Per, Column::PackCount, Column::UnitSize, Column::SizeUnit, Column::PoundPrice];
    let (cell, words, unit) = grids.iter().zip(sheets).find_map(|(grid, sheet)| {
        let table = price_tables(std::slice::from_ref(sheet)).find(|table| {
            let price = table.heading(Column::Price).and_then(|heading| heading.default.as_ref());
            price.is_none() && says.iter().all(|column| table.heading(*column).is_none())
        })?;
        titled_unit(grid, table.place.cell_ref()?.row)
    })?;
    let detail = format!(
        "says “{words}” in {cell}, and no column says what each price is for. Add a column Per: {unit} in every row that says \
         nothing else; where the row does, its own unit, such as lb or each, or what the box holds, such as 10 lb"
    );
    Some(ReadError::NoPriceList { file: file.to_owned(), detail: detail.into(), headings: Vec::new() })
}

/// The headings of the caller, then those that the book keeps of the supplier.
fn headings(entries: &Entries, supplier: Option<&str>, options: &ListOptions) -> Headings {
    let asked = options.columns.iter().map(|(column, heading)| (heading.as_str(), *column));
    let mapped = |column: Column| options.columns.iter().any(|(known, _)| *known == column);
    let kept = entries.layouts.iter().filter(|row| supplier.is_some_and(|supplier| row.is_of(supplier)));
    let kept = kept.filter_map(|row| Some((row.heading.given()?.as_str(), *row.column.given()?)));
    Headings::of_list(asked.chain(kept.filter(|(_, column)| !mapped(*column))))
}

/// One note on what else stands in the file.
fn others(file: &str, sheets: &[SheetTables<'_>]) -> Option<Problem> {
    let mut kinds: Vec<&str> = Vec::new();
    for found in sheets.iter().flat_map(|sheet| &sheet.found) {
        let kind = match found {
            Found::Table(table) if table.kind == TableKind::Prices => continue,
            Found::Table(table) => table.kind.name(),
            Found::Card(_) | Found::Loose(_) => "recipe cards",
        };
        if !kinds.contains(&kind) {
            kinds.push(kind);
        }
    }
    if kinds.is_empty() {
        return None;
    }
    let fault = Fault::new(
        Code::ListPassedOver,
        format!("this file also holds {}, which were passed over", kinds.join(" and ")),
        "Nothing to do: of a new list only the prices are taken.",
    );
    Some(fault.at(Place::file(file)))
}

/// Why no price row was found.
fn none(file: &str, grids: &[Grid], sheets: &[SheetTables<'_>], entries: &Entries, knows_supplier: bool) -> ReadError {
    let why =
        |detail: &str| ReadError::NoPriceList { file: file.to_owned(), detail: detail.into(), headings: Vec::new() };
    if sheets.iter().any(|sheet| sheet.standing == SheetState::Output) {
        return why("is a workbook that parings wrote, not a supplier's list: give the list itself");
    }
    if price_tables(sheets).next().is_some() {
        return why("has the headings of a price list but no rows below them: ask the supplier for it again");
    }
    if let Some(grid) = grids.iter().find(|grid| printed_page(grid).is_some()) {
        return why(&format!("is lines of text, as of a printed page, and no table. {}", ask(grid)));
    }
    let Some(guess) = grids.iter().filter_map(Guess::of).max_by_key(|guess| guess.headers.len()) else {
        return why("holds no price list, for nothing is filled in: ask the supplier for it again");
    };
    let headings = guess.headers.clone();
    let texts: Vec<String> = headings.iter().map(|text| format!("“{text}”")).collect();
    let found = format!(
        "has no header row with a price and an item or code, as parings knows them. Row {} reads {}: say which is which",
        guess.row.saturating_add(1),
        texts.join(", "),
    );
    let mut detail = Advice::from(found).choosing(guess.columns());
    if !entries.layouts.is_empty() && !knows_supplier {
        detail = detail
            .then("; or name the supplier")
            .choosing(Choice::Supplier)
            .then(", if Supplier layouts in the book say it");
    }
    ReadError::NoPriceList { file: file.to_owned(), detail, headings }
}

/// The error of a heading that was named and that no list has; it lists those of `file`.
pub fn heading_not_found(file: &ListFile, heading: &str) -> ReadError {
    let headings: Vec<&str> = file.headings.iter().map(String::as_str).collect();
    ReadError::NoPriceList {
        file: file.list.file.clone(),
        detail: format!("has no column “{heading}”. Its headings are {}", quoted_list(&headings, "and")).into(),
        headings: file.headings.clone(),
    }
}
