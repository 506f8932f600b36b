//! Headings of invoices and suppliers' lists: two prices side by side, prices by how many are bought, headings over two
//! rows, and what tells an invoice from the lines of a recipe.

use std::borrow::Cow;

use super::{HeaderCell, Mapped, short_text};
use crate::book::grid::GridRow;
use crate::in_order::InOrder;
use crate::schema::header::{self, normal};
use crate::schema::{Column, TableKind, Value};

/// Headings, in their normal form, of a price for one unit where another stands for the case.
const FOR_UNIT: &[&str] = &["unitprice", "unitcost"];
/// And those that the other may have.
const FOR_CASE: &[&str] =
    &["packprice", "caseprice", "casecost", "costcs", "pricecs", "pricepercase", "costpercase", "netpricepercase"];

/// Settles which of several prices is the price: one for the unit checks that for the case; the only one there is, by the
/// pound or for the fewest cases, is the price.
pub(super) fn settle_prices(cells: &mut [HeaderCell<'_>]) {
    let means = |cell: &HeaderCell<'_>, column: Column| {
        cell.meaning(TableKind::Prices).is_some_and(|meaning| meaning.column == column)
    };
    if cells.iter().any(|cell| means(cell, Column::Price)) {
        let for_case = |cell: &HeaderCell<'_>| means(cell, Column::Price) && FOR_CASE.contains(&cell.read.key.as_str());
        let others = cells.iter().any(|cell| means(cell, Column::PoundPrice));
        if cells.iter().any(for_case) && !others {
            let unit =
                cells.iter_mut().find(|cell| cell.mapped == Mapped::No && FOR_UNIT.contains(&cell.read.key.as_str()));
            if let Some(cell) = unit {
                cell.mapped = Mapped::To(Column::PoundPrice);
            }
        }
        return;
    }
    let amount = || {
        // An extension stands beside a quantity; an amount beside ingredients is one.
        let has = |column| cells.iter().any(|cell| means(cell, column));
        let of_list = has(Column::Code) && !has(Column::Qty);
        cells.iter().position(|cell| of_list && means(cell, Column::Extended))
    };
    let pound = cells.iter().position(|cell| means(cell, Column::PoundPrice));
    let fewest = || {
        let breaks = cells.iter().enumerate().filter_map(|(at, cell)| Some((quantity_break(&cell.text)?, at)));
        breaks.min().map(|(_, at)| at)
    };
    if let Some(cell) = pound.or_else(fewest).or_else(amount).and_then(|at| cells.get_mut(at)) {
        cell.mapped = Mapped::To(Column::Price);
    }
}

/// How many one must buy at least for the price under a heading such as `1-4 cs` or `5+ cases`.
pub(in crate::book::find) fn quantity_break(text: &str) -> Option<u32> {
    let text = text.trim().to_lowercase();
    let digits = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
    let (least, rest) = text.split_at_checked(digits(&text))?;
    let rest = rest.trim_start();
    let unit = match rest.strip_prefix('+') {
        Some(unit) => unit,
        None => {
            let most = rest.strip_prefix(['-', '–'])?.trim_start();
            let (most, unit) = most.split_at_checked(digits(most))?;
            most.parse::<u32>().ok()?;
            unit
        }
    };
    let known =
        matches!(unit.trim().trim_end_matches('.'), "cs" | "case" | "cases" | "ea" | "each" | "ctn" | "cartons");
    if known { least.parse().ok() } else { None }
}

/// Whether a header row with a column for quantities is that of an invoice: `None` where it has none. The lines of a
/// recipe may have what they cost beside them, but no code, pack or extension.
pub(super) fn is_invoice(cells: &[&HeaderCell<'_>]) -> Option<bool> {
    let has = |column: Column| {
        cells.iter().any(|cell| cell.meaning(TableKind::Prices).is_some_and(|meaning| meaning.column == column))
    };
    if !has(Column::Qty) {
        return None;
    }
    let of_recipe = cells.iter().any(|cell| matches!(cell.read.key.as_str(), "ingredient" | "ingredients"));
    let bought = [Column::Pack, Column::Per, Column::Code, Column::PackCount].into_iter().any(has);
    Some(bought || (has(Column::Extended) && !of_recipe))
}

/// The cells of two rows that may be one heading: `Net price` over `per case` and `per unit`. Nothing where the lower row
/// is none: it is all words, and one of them stands under the blank beside an upper one.
pub(super) fn joined_cells<'g>(row: &'g GridRow, next: &'g GridRow) -> Option<Vec<HeaderCell<'g>>> {
    let is_words = |text: &str| !text.is_empty() && !text.contains(|c: char| c.is_ascii_digit());
    let lower = next.cells();
    if next.row != row.row.checked_add(1)? || lower.len() < 2 || row.cells().len() < 2 {
        return None;
    }
    if !lower.iter().all(|(_, typed)| is_words(short_text(typed))) {
        return None;
    }
    let is_blank = |at: u32| row.get(at).is_blank();
    let first = row.cells().first().map(|(at, _)| *at)?;
    if !lower.iter().any(|(at, _)| is_blank(*at) && *at > first) {
        return None;
    }
    let mut columns: Vec<u32> = row.cells().iter().chain(lower).map(|(at, _)| *at).collect();
    columns.put_in_order();
    columns.dedup();
    let text_at = |row: &'g GridRow, at: u32| match &row.get(at).value {
        Value::Text(_) => short_text(row.get(at)),
        _ => "",
    };
    let cells = columns.into_iter().map(|at| {
        let below = text_at(next, at);
        let own = text_at(row, at);
        let above = if own.is_empty() && !below.is_empty() {
            let left = at.checked_sub(1).and_then(|before| row.cells_within((0, before)).last());
            left.map_or("", |(_, typed)| short_text(typed))
        } else {
            own
        };
        let both = format!("{above} {below}");
        let text = if below.is_empty() || (!own.is_empty() && header::read(&both).meanings().is_empty()) {
            Cow::Borrowed(own)
        } else {
            Cow::Owned(both.trim().to_owned())
        };
        let read = header::read(&text);
        HeaderCell { at, text, read, mapped: Mapped::No }
    });
    let mut cells: Vec<HeaderCell<'g>> = cells.filter(|cell| !normal(&cell.text).is_empty()).collect();
    settle_prices(&mut cells);
    Some(cells)
}
