//! Bare prices: rows of an item, a pack or unit and an amount, under no heading or under headings of the kitchen's own.

use crate::book::grid::{Grid, GridRow};
use crate::measure::{Unit, parse_money, parse_pack};
use crate::number::Marks;
use crate::problem::CellRef;
use crate::schema::{Typed, Value};

/// How many rows are looked at.
const MOST_ROWS: usize = 200;
/// Fewer rows than this are no list.
const LEAST: usize = 3;

/// Three columns of a list of prices, from left to right.
struct PriceColumns {
    item: u32,
    pack: u32,
    price: u32,
}

/// The headings to type over bare prices, and the cell to begin at; `None` where most rows are none.
pub(super) fn headings_to_type(grid: &Grid) -> Option<(CellRef, String)> {
    let rows: Vec<&GridRow> = grid.rows().iter().filter(|row| !row.cells().is_empty()).take(MOST_ROWS).collect();
    let columns = rows.iter().find_map(|row| columns_of(row))?;
    let priced = |row: &&&GridRow| columns.are_in(row);
    let many = rows.iter().filter(priced).count();
    if many < LEAST || many.saturating_mul(2) < rows.len() {
        return None;
    }
    let first = rows.iter().find(priced)?.row;
    // A unit alone is no pack; what holds units holds packs too.
    let unit_alone =
        |row: &&GridRow| matches!(&row.get(columns.pack).value, Value::Text(text) if Unit::parse(text).is_some());
    let pack = if rows.iter().any(unit_alone) { "Unit" } else { "Pack" };
    let over = first.checked_sub(1).filter(|above| {
        let is_word = |at: u32| matches!(&grid.get(*above, at).value, Value::Text(_));
        [columns.item, columns.pack, columns.price].into_iter().all(is_word)
    });
    let name = |row: u32, at: u32| CellRef::new(row, at);
    let hint = match over {
        Some(row) => {
            let instead =
                |at: u32, what: &str| format!("{what} in {} instead of “{}”", name(row, at), grid.get(row, at).seen());
            format!(
                "These look like prices. Type {}, {} and {}, if that is what stands below.",
                instead(columns.item, "Item"),
                instead(columns.pack, pack),
                instead(columns.price, "Price"),
            )
        }
        None => format!(
            "These look like prices without headings. Put a row above row {}, and type Item in {}, {pack} in {} and Price \
             in {} of it, if that is what stands below.",
            first.saturating_add(1),
            name(first, columns.item),
            name(first, columns.pack),
            name(first, columns.price),
        ),
    };
    Some((CellRef::new(over.unwrap_or(first), columns.item), hint))
}

/// The columns of a row that is a name, a pack or unit and an amount, and nothing between them.
fn columns_of(row: &GridRow) -> Option<PriceColumns> {
    row.cells().windows(3).find_map(|cells| {
        let [(item, _), (pack, _), (price, _)] = cells else { return None };
        let columns = PriceColumns { item: *item, pack: *pack, price: *price };
        columns.are_in(row).then_some(columns)
    })
}

impl PriceColumns {
    fn are_in(&self, row: &GridRow) -> bool {
        is_name(row.get(self.item)) && is_pack(row.get(self.pack)) && is_amount(row.get(self.price))
    }
}

fn is_pack(typed: &Typed) -> bool {
    matches!(&typed.value, Value::Text(text) if Unit::parse(text).is_some() || parse_pack(text, Marks::Unknown).is_ok())
}

/// Whether a cell is words. Some things are called what units are: cloves, mint leaves.
fn is_name(typed: &Typed) -> bool {
    let letters = |text: &str| text.chars().filter(|char| char.is_alphabetic()).count();
    matches!(&typed.value, Value::Text(text) if letters(text) > 1 && !text.starts_with(|c: char| c.is_ascii_digit()))
}

fn is_amount(typed: &Typed) -> bool {
    match &typed.value {
        Value::Number(_) => true,
        Value::Text(text) => parse_money(text, Marks::Unknown).is_ok(),
        _ => false,
    }
}
