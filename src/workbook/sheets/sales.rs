//! Sales of a dish as a formula: all rows of the menu that say how many were sold of it, each found by its key.

use std::collections::HashMap;

use crate::kitchen::NameKey;
use crate::number::Decimal;
use crate::results::figures::sum;
use crate::schema::{Column, TableKind};
use crate::workbook::cells::formula::{Formula, LONGEST, NOT_KNOWN, Ref};
use crate::workbook::cells::row::{Cell, Look};
use crate::workbook::context::Context;

/// The longest sum that leaves room for what a formula is put in.
const ROOM: usize = LONGEST.saturating_sub(100);

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

    /// How many were sold of a dish, for a cell in `row` of `sheet`. Where its rows are too many for one formula, a month of
    /// sales by the day, sums of some of them stand in the row from `column` on.
    pub(super) fn sold(
        &self,
        dish: &str,
        sold: Decimal,
        (sheet, row): (&str, u32),
        column: u16,
    ) -> (Formula, Vec<Cell>) {
        let terms = self.terms(dish, sheet);
        let mut sums: Vec<(String, Vec<Decimal>)> = Vec::new();
        for (term, number) in &terms {
            match sums.last_mut().filter(|(text, _)| text.len().saturating_add(term.len()) < ROOM) {
                Some((text, numbers)) => {
                    text.push('+');
                    text.push_str(term);
                    numbers.push(*number);
                }
                None => sums.push((term.clone(), vec![*number])),
            }
        }
        let sums: Option<Vec<(String, Decimal)>> =
            sums.into_iter().map(|(text, numbers)| Some((text, sum(&numbers)?))).collect();
        let sums = sums.unwrap_or_default();
        if sums.len() < 2 {
            let all: Vec<String> = terms.into_iter().map(|(term, _)| term).collect();
            return (Formula::number(all.join("+"), sold), Vec::new());
        }
        let at = |at: u16| Ref::new(sheet, row, at).cell();
        let columns = column..u16::MAX;
        let cells: Vec<Cell> = columns
            .zip(sums)
            .map(|(column, (text, sum))| Cell::figure(column, Formula::number(text, sum), Look::General))
            .collect();
        let last = cells.last().map_or(column, |cell| cell.column);
        // A sum that is not known is text, which a sum over a range would pass over.
        let range = format!("{}:{}", at(column), at(last));
        let text = format!("IF(COUNT({range})={},SUM({range}),\"{NOT_KNOWN}\")", cells.len());
        (Formula::number(text, sold), cells)
    }

    /// The rows of a dish as formulas of `sheet` read them, and what they say.
    fn terms(&self, dish: &str, sheet: &str) -> Vec<(String, Decimal)> {
        let menu = &self.context.kitchen.entries.menu;
        let rows = self.rows.get(&NameKey::of(dish)).into_iter().flatten();
        let terms = rows.filter_map(|index| {
            let cell = self.context.input(TableKind::Menu, *index, Column::Sold)?.from(sheet);
            let row = menu.get(*index)?;
            // Only what a list of sales gives back may be below nothing.
            let least = if row.is_sales_alone() { String::new() } else { format!(",{cell}>=0") };
            let text = format!("IF(AND(ISNUMBER({cell}){least}),{cell},\"{NOT_KNOWN}\")");
            Some((text, row.sold.given().copied().unwrap_or_default()))
        });
        terms.collect()
    }
}
