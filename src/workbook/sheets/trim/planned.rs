//! Readings that stand on the plan and what is on hand: they are known as long as nobody has changed, cleared, taken out or
//! added anything there.

use indexmap::IndexMap;

use super::Page;
use super::places::Places;
use crate::kitchen::InputRow;
use crate::number::{Decimal, plain};
use crate::problem::place::column_letters;
use crate::results::figures::sum_and_squares;
use crate::schema::{Column, TableKind, Value};
use crate::workbook::cells::formula::{Formula, LONGEST, YES, in_quotes, literal, quoted};
use crate::workbook::cells::row::{Cell, Content, Ink, Look};
use crate::workbook::layout::{Slot, TableLayout, rows_of};

const LABEL: u16 = 11;
const STANDS: u16 = 14;
const NO: &str = "cost again";
/// A function takes 255 arguments (ECMA-376 part 1, 18.17, as programs read it).
const MOST_CONDITIONS: usize = 250;

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
        let tables =
            [(TableKind::Plan, Column::Portions, Column::Day), (TableKind::Stock, Column::OnHand, Column::Unit)];
        let tables = || {
            tables.into_iter().filter_map(|(kind, amount, beside)| {
                let table = self.context.layout.table(kind)?;
                Some((table, rows_of(self.context.kitchen, kind), amount, beside))
            })
        };
        let by_row: Vec<String> =
            tables().flat_map(|(table, rows, amount, beside)| as_they_were(table, &rows, [amount, beside])).collect();
        let length = by_row.iter().map(|condition| condition.len().saturating_add(1)).fold(0, usize::saturating_add);
        if by_row.len() <= MOST_CONDITIONS && length < LONGEST.saturating_sub(100) {
            return by_row;
        }
        tables().flat_map(|(table, rows, amount, _)| unchanged(table, &rows, amount)).collect()
    }
}

/// A column of a table: from the header to the blank row below, so that the ends stand when the first or the last row is taken
/// out.
fn range(table: &TableLayout, column: Column) -> Option<String> {
    let letters = column_letters(u32::from(table.column(Slot::Input(column))?));
    let last = u64::from(table.row(table.rows)).saturating_add(1);
    Some(format!("{}!${letters}$1:${letters}${last}", quoted(&table.sheet)))
}

/// How many names and amounts there are.
fn counted(table: &TableLayout, rows: &[&InputRow], amount: Column) -> Vec<String> {
    let filled = |column: Column| rows.iter().filter(|row| !row.typed(column).is_blank()).count().saturating_add(1);
    [table.kind.name_column(), amount]
        .into_iter()
        .filter_map(|column| Some(format!("COUNTA({})={}", range(table, column)?, filled(column))))
        .collect()
}

/// What holds of a table as long as its rows are what they are, in whatever order: how many there are, and that each is there
/// with its name, its amount, and the day or unit beside it.
fn as_they_were(table: &TableLayout, rows: &[&InputRow], [amount, beside]: [Column; 2]) -> Vec<String> {
    let says = |row: &InputRow, column: Column| {
        let range = range(table, column)?;
        let value = match &row.typed(column).value {
            Value::Text(text) => literal(text)?,
            Value::Number(number) => plain(*number),
            Value::Date(day) => format!("DATE({},{},{})", day.year(), day.month(), day.day()),
            _ => in_quotes(""),
        };
        Some(format!("({range}={value})"))
    };
    let mut times: IndexMap<String, usize> = IndexMap::new();
    for row in rows {
        let said: Vec<String> =
            [table.kind.name_column(), amount, beside].into_iter().filter_map(|column| says(row, column)).collect();
        if !said.is_empty() {
            let seen = times.entry(said.join("*")).or_default();
            *seen = seen.saturating_add(1);
        }
    }
    let each = times.into_iter().map(|(said, times)| format!("SUMPRODUCT({said}*1)={times}"));
    counted(table, rows, amount).into_iter().chain(each).collect()
}

/// What holds of a longer table's names and amounts: how many there are, the sum of the amounts, and that of their squares.
fn unchanged(table: &TableLayout, rows: &[&InputRow], amount: Column) -> Vec<String> {
    let mut all = counted(table, rows, amount);
    let numbers = rows.iter().filter_map(|row| match row.typed(amount).value {
        Value::Number(number) => Some(number),
        _ => None,
    });
    if let (Some(range), Some((sum, squares))) = (range(table, amount), sum_and_squares(numbers)) {
        all.push(format!("ROUND(SUM({range})-{},6)=0", plain(sum)));
        all.push(format!("ROUND(SUMSQ({range})-{},6)=0", plain(squares)));
    }
    all
}
