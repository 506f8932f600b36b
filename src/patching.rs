//! From a book and the prices of a new list to the file that holds its prices, with the new rows in its own table and
//! everything else as people made it.

mod csv_rows;
mod tables;
mod xlsx;

use std::collections::{BTreeMap, HashMap};

use crate::book::limits::{FileFormat, content};
use crate::book::{self, Grid, SheetState, Source, find};
use crate::in_order::InOrder;
use crate::kitchen::layout::LayoutRow;
use crate::kitchen::price::PriceRow;
use crate::kitchen::{InputRow, NameKey};
use crate::problem::Place;
use crate::reading::read;
use crate::repricing::Repriced;
use crate::schema::TableKind;
use tables::OwnTable;
use xlsx::NotPatched;

/// A file of a book with new prices in it.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct PatchedBook {
    /// Which file of the book it is, by its place among them.
    pub source: usize,
    /// The file.
    pub bytes: Vec<u8>,
    /// The first and last of the cells that new rows begin with, by sheet.
    pub added: Vec<Place>,
    /// What there is to say of it, in sentences.
    pub said: Vec<String>,
    /// How its name must end: `xlsx`, `xlsm` where it may hold macros, `csv`.
    pub ending: &'static str,
}

/// Why the file of a book could not take new prices.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{reason}")]
#[non_exhaustive]
pub struct PatchError {
    /// What stood in the way, as the end of a sentence that begins with the file.
    pub reason: String,
}

/// Why a file of another kind takes no rows.
const ONLY_READ: &str = "it is a workbook of a kind that is only read";

fn because(not: NotPatched) -> PatchError {
    PatchError { reason: not.0 }
}

fn not(reason: impl Into<String>) -> PatchError {
    PatchError { reason: reason.into() }
}

/// The file among `sources`, those that the book was read from, that holds its prices, with what `repriced` takes of the
/// lists put below its own rows. What is given back was read again, and says what the book with the new prices says.
///
/// # Errors
/// [`PatchError`] where the rows cannot be put in without harm; [`write_book`](crate::write_book) gives all of the book anew.
pub fn patch_book(sources: &[Source<'_>], repriced: &Repriced) -> Result<PatchedBook, PatchError> {
    let limits = repriced.before.options().limits;
    let mut grids: Vec<Vec<Grid>> = Vec::new();
    for source in sources {
        grids.push(book::grids(source, &limits).map_err(|error| not(error.to_string()))?);
    }
    let mut tables: Vec<OwnTable<'_>> = Vec::new();
    for (at, of_file) in grids.iter().enumerate() {
        for grid in of_file {
            let found = find::find(grid);
            if found.standing == SheetState::Output {
                return Err(not("it is a costed workbook, of which only what was typed goes on"));
            }
            tables.extend(OwnTable::all(at, grid, found.found));
        }
    }
    let rows = rows_by_table(&tables, repriced)?;
    let Some(source) = rows.source.and_then(|at| sources.get(at).map(|source| (at, source))) else {
        return Err(not("it has no table of prices with a row in it"));
    };
    let (at, file) = source;
    let mut said = Vec::new();
    let mut additions = Vec::new();
    let mut added = Vec::new();
    for (index, new) in &rows.prices {
        let Some(table) = tables.get(*index) else { continue };
        let addition = table.addition(new).map_err(because)?;
        added.push(table.first_new_cell());
        additions.push((table, addition));
    }
    match layouts(&tables, at, &repriced.list.layouts)? {
        Layouts::None => {}
        Layouts::Into(table, addition) => additions.push((table, addition)),
        Layouts::NoTable => said.push(
            "What was said of the list's columns is not remembered in it: it has no table of supplier layouts."
                .to_owned(),
        ),
    }
    if additions.is_empty() {
        let ending = match content(file, &limits).map_err(|error| not(error.to_string()))? {
            FileFormat::Xlsx | FileFormat::XlsxOfSections if xlsx::has_macros(file.bytes).map_err(because)? => "xlsm",
            FileFormat::Xlsx | FileFormat::XlsxOfSections => "xlsx",
            FileFormat::Text => "csv",
            FileFormat::Xls | FileFormat::Xlsb | FileFormat::OpenDocument => return Err(not(ONLY_READ)),
        };
        return Ok(PatchedBook { source: at, bytes: file.bytes.to_vec(), added, said, ending });
    }
    let (bytes, ending) = match content(file, &limits).map_err(|error| not(error.to_string()))? {
        FileFormat::Xlsx | FileFormat::XlsxOfSections => {
            let plain: Vec<xlsx::Addition> = additions.iter().map(|(_, addition)| addition.clone()).collect();
            let patched = xlsx::patched(file.bytes, &plain).map_err(because)?;
            if !patched.left_blank.is_empty() {
                let columns: Vec<String> =
                    patched.left_blank.iter().map(|(sheet, column)| format!("{column} of {sheet}")).collect();
                said.push(format!("The formulas of column {} do not go on in the new rows.", columns.join(", ")));
            }
            (patched.bytes, if patched.macros { "xlsm" } else { "xlsx" })
        }
        FileFormat::Text => (csv_rows::with_rows(file.bytes, &additions).map_err(because)?, "csv"),
        FileFormat::Xls | FileFormat::Xlsb | FileFormat::OpenDocument => {
            return Err(not(ONLY_READ));
        }
    };
    let patched = PatchedBook { source: at, bytes, added, said, ending };
    proved(sources, repriced, &patched)?;
    Ok(patched)
}

/// New rows by the table that takes them.
struct RowsByTable<'r> {
    source: Option<usize>,
    prices: BTreeMap<usize, Vec<&'r InputRow>>,
}

/// Parts the new rows among the tables of one file: each goes where the row stands that it succeeds.
fn rows_by_table<'r>(tables: &[OwnTable<'_>], repriced: &'r Repriced) -> Result<RowsByTable<'r>, PatchError> {
    let old = &repriced.before.kitchen.entries.prices;
    let taken = repriced.list.taken.iter().map(|taken| (taken.row, &taken.price, taken.moved.before));
    let older = repriced.list.older.iter().map(|older| (older.row, &older.price, None));
    let mut rows: Vec<(usize, &PriceRow, Option<usize>)> = taken.chain(older).collect();
    rows.put_in_order_by_key(|(row, ..)| *row);
    let holds = |place: &Place| tables.iter().position(|table| table.is_prices() && table.holds(place));
    // The last row of an item and supplier, of an item, of a supplier.
    let mut last: HashMap<(Option<NameKey>, Option<NameKey>), usize> = HashMap::new();
    for (index, row) in old.iter().enumerate() {
        let (item, supplier) = (NameKey::of(&row.item), NameKey::of(&row.supplier));
        last.insert((Some(item.clone()), None), index);
        last.insert((None, Some(supplier.clone())), index);
        last.insert((Some(item), Some(supplier)), index);
    }
    let of = |row: &PriceRow, before: Option<usize>| {
        let (item, supplier) = (NameKey::of(&row.item), NameKey::of(&row.supplier));
        let before = before
            .or_else(|| last.get(&(Some(item.clone()), Some(supplier.clone()))).copied())
            .or_else(|| last.get(&(Some(item), None)).copied())
            .or_else(|| last.get(&(None, Some(supplier))).copied());
        before.and_then(|index| old.get(index)).and_then(|row| holds(&row.input.place))
    };
    let wanted: Vec<Option<usize>> = rows.iter().map(|(_, row, before)| of(row, *before)).collect();
    let count = |table: usize| wanted.iter().filter(|wanted| **wanted == Some(table)).count();
    let prices = || tables.iter().enumerate().filter(|(_, table)| table.is_prices() && table.has_rows());
    // Of equals the first.
    let Some((most, _)) = prices().rev().max_by_key(|(at, table)| (count(*at), table.rows())) else {
        return Ok(RowsByTable { source: None, prices: BTreeMap::new() });
    };
    let source = tables.get(most).map(|table| table.source);
    let mut by_table: BTreeMap<usize, Vec<&InputRow>> = BTreeMap::new();
    for ((_, row, _), wanted) in rows.iter().zip(wanted) {
        let own = wanted.filter(|table| tables.get(*table).map(|table| table.source) == source);
        by_table.entry(own.unwrap_or(most)).or_default().push(&row.input);
    }
    Ok(RowsByTable { source, prices: by_table })
}

/// Where what was said of a list's columns goes.
enum Layouts<'t, 'g> {
    None,
    Into(&'t OwnTable<'g>, xlsx::Addition),
    NoTable,
}

fn layouts<'t, 'g>(
    tables: &'t [OwnTable<'g>],
    source: usize,
    layouts: &[LayoutRow],
) -> Result<Layouts<'t, 'g>, PatchError> {
    if layouts.is_empty() {
        return Ok(Layouts::None);
    }
    let own = |table: &&OwnTable<'_>| table.source == source && table.kind() == TableKind::SupplierLayouts;
    let Some(table) = tables.iter().find(|table| own(table) && table.has_rows()) else { return Ok(Layouts::NoTable) };
    let rows: Vec<&InputRow> = layouts.iter().map(|row| &row.input).collect();
    Ok(Layouts::Into(table, table.addition(&rows).map_err(because)?))
}

/// Reads the book with the new file in the place of the old: its prices must be those of the book with the new prices,
/// and everything else what it was.
fn proved(sources: &[Source<'_>], repriced: &Repriced, patched: &PatchedBook) -> Result<(), PatchError> {
    let with_it: Vec<Source<'_>> = sources
        .iter()
        .enumerate()
        .map(|(at, source)| if at == patched.source { Source { bytes: &patched.bytes, ..*source } } else { *source })
        .collect();
    let again = read(&with_it, repriced.after.options()).map_err(|error| not(error.to_string()))?;
    let (now, wanted) = (&again.kitchen.entries, &repriced.after.kitchen.entries);
    let said = |rows: &[PriceRow]| {
        let mut said: Vec<String> = rows.iter().map(what_it_says).collect();
        said.put_in_order();
        said
    };
    let same = said(&now.prices) == said(&wanted.prices)
        && now.recipes.len() == wanted.recipes.len()
        && now.tests.len() == wanted.tests.len()
        && now.measures.len() == wanted.measures.len()
        && now.menu.len() == wanted.menu.len()
        && now.plan.len() == wanted.plan.len()
        && now.stock.len() == wanted.stock.len()
        && now.currency == wanted.currency;
    if same { Ok(()) } else { Err(not("with the new rows in it, its prices would not read as they do in the list")) }
}

/// What a price row says, however it is typed.
fn what_it_says(row: &PriceRow) -> String {
    let said = format!(
        "{:?}",
        (
            (&row.item, &row.pack, &row.price, &row.per, &row.supplier, &row.code),
            (&row.charges, row.withdrawn, &row.date, &row.until, &row.trim_yield),
            (&row.reference, &row.preferred, &row.aliases, &row.allergens, &row.may_contain)
        )
    );
    without_last_zeros(&said)
}

/// The text with every decimal without the zeros at its end: 12.50 is 12.5.
fn without_last_zeros(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(point) = rest.find('.') {
        let (before, after) = rest.split_at_checked(point).unwrap_or((rest, ""));
        let digits = after.chars().skip(1).take_while(char::is_ascii_digit).count();
        let (decimals, behind) = after.split_at_checked(digits.saturating_add(1)).unwrap_or((after, ""));
        out.push_str(before);
        out.push_str(if digits == 0 { decimals } else { decimals.trim_end_matches('0').trim_end_matches('.') });
        rest = behind;
    }
    out.push_str(rest);
    out
}
