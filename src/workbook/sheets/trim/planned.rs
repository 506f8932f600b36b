//! Readings that stand on the plan and what is on hand: they are known as long as nobody has changed, cleared, taken out or
//! added anything there.

use super::Page;
use super::places::Places;
use crate::kitchen::InputRow;
use crate::number::{Decimal, plain};
use crate::problem::place::column_letters;
use crate::results::figures::sum_and_squares;
use crate::schema::{Column, TableKind, Value};
use crate::workbook::cells::formula::{Formula, YES, quoted};
use crate::workbook::cells::row::{Cell, Content, Ink, Look};
use crate::workbook::layout::{Slot, TableLayout, rows_of};

const LABEL: u16 = 11;
const STANDS: u16 = 14;
const NO: &str = "cost again";

impl Page<'_> {
    /// A reading that stands on the plan.
    pub(super) fn planned(&mut self, row: u32, column: u16, number: Decimal, look: Look) {
        if self.conditions().is_empty() {
            return self.reading(row, column, number, look);
        }
        let cell = Places::cell(self.places.rates, STANDS);
        let text = format!("IF({cell}=\"{YES}\",{},\"{NO}\")", plain(number));
        let cell = Cell::number(column, number, Ink::Reading, look);
        self.put(row, Cell { content: Content::Formula(Formula::number(text, number)), ..cell });
    }

    /// What holds as long as plan and stock are as they were costed; `None` where there is neither.
    pub(super) fn as_planned(&self) -> Option<String> {
        let cell = Places::cell(self.places.rates, STANDS);
        (!self.conditions().is_empty()).then(|| format!("{cell}=\"{YES}\""))
    }

    /// Whether plan and stock are as they were costed.
    pub(super) fn plan_stands(&mut self) {
        let conditions = self.conditions();
        if conditions.is_empty() {
            return;
        }
        let row = self.places.rates;
        self.words(row, LABEL, "Plan and stock as costed");
        let text = format!("IF(AND({}),\"{YES}\",\"{NO}\")", conditions.join(","));
        self.put(row, Cell::figure(STANDS, Formula::text(text, YES), Look::Words));
    }

    fn conditions(&self) -> Vec<String> {
        let tables = [(TableKind::Plan, Column::Portions), (TableKind::Stock, Column::OnHand)];
        let tables = tables.into_iter().filter_map(|(kind, amount)| {
            let table = self.context.layout.table(kind)?;
            Some(unchanged(table, &rows_of(self.context.kitchen, kind), amount))
        });
        tables.flatten().collect()
    }
}

/// What holds of a table's names and amounts as long as they are what they are, in whatever order: how many there are, the sum
/// of the amounts, and that of their squares.
fn unchanged(table: &TableLayout, rows: &[&InputRow], amount: Column) -> Vec<String> {
    let range = |column: Column| {
        let letters = column_letters(u32::from(table.column(Slot::Input(column))?));
        // From the header to the blank row below, so that the ends stand when the first or the last row is taken out.
        let last = u64::from(table.row(table.rows)).saturating_add(1);
        Some(format!("{}!${letters}$1:${letters}${last}", quoted(&table.sheet)))
    };
    let filled = |column: Column| rows.iter().filter(|row| !row.typed(column).is_blank()).count().saturating_add(1);
    let mut all: Vec<String> = [table.kind.name_column(), amount]
        .into_iter()
        .filter_map(|column| Some(format!("COUNTA({})={}", range(column)?, filled(column))))
        .collect();
    let numbers = rows.iter().filter_map(|row| match row.typed(amount).value {
        Value::Number(number) => Some(number),
        _ => None,
    });
    if let (Some(range), Some((sum, squares))) = (range(amount), sum_and_squares(numbers)) {
        all.push(format!("ROUND(SUM({range})-{},6)=0", plain(sum)));
        all.push(format!("ROUND(SUMSQ({range})-{},6)=0", plain(squares)));
    }
    all
}
