//! Sales of a dish as a formula: all rows of the menu that say how many were sold of it, each found by its key.

use std::collections::HashMap;

use crate::kitchen::NameKey;
use crate::number::Decimal;
use crate::schema::{Column, TableKind};
use crate::workbook::cells::formula::{Formula, NOT_KNOWN};
use crate::workbook::context::Context;

/// The rows of the menu that say how many were sold, by the dish.
pub(super) struct SalesCells<'a> {
    context: &'a Context<'a>,
    rows: HashMap<NameKey, Vec<usize>>,
}

impl<'a> SalesCells<'a> {
    /// Those of a menu.
    pub(super) fn of(context: &'a Context<'a>) -> Self {
        let mut rows: HashMap<NameKey, Vec<usize>> = HashMap::new();
        for (row, of) in context.kitchen.entries.menu.iter().enumerate().filter(|(_, row)| !row.sold.is_blank()) {
            rows.entry(NameKey::of(&of.dish)).or_default().push(row);
        }
        SalesCells { context, rows }
    }

    /// How many were sold of a dish, for a cell of `sheet`.
    pub(super) fn sold(&self, dish: &str, sold: Decimal, sheet: &str) -> Formula {
        let menu = &self.context.kitchen.entries.menu;
        let rows = self.rows.get(&NameKey::of(dish)).into_iter().flatten();
        let cells = rows.filter_map(|row| {
            let cell = self.context.input(TableKind::Menu, *row, Column::Sold)?.from(sheet);
            // Only what a list of sales gives back may be below nothing.
            let is_sales = menu.get(*row).is_some_and(|row| row.is_sales_alone());
            let least = if is_sales { String::new() } else { format!(",{cell}>=0") };
            Some(format!("IF(AND(ISNUMBER({cell}){least}),{cell},\"{NOT_KNOWN}\")"))
        });
        let cells: Vec<String> = cells.collect();
        Formula::number(cells.join("+"), sold)
    }
}
