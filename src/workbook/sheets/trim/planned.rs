//! Readings that stand on the plan and what is on hand: they are known as long as nobody has changed, cleared, taken out or
//! added anything there, or in the recipes and yield tests that they were drawn from.

use indexmap::IndexMap;

use super::places::Places;
use super::{TrimSheet, drawn_on};
use crate::analysis::Trim;
use crate::kitchen::InputRow;
use crate::number::{Decimal, plain};
use crate::problem::place::column_letters;
use crate::results::figures::sum_and_squares;
use crate::schema::{Column, TableKind, Value};
use crate::workbook::cells::formula::{Formula, Outcome, YES, in_quotes, literal, quoted};
use crate::workbook::cells::row::{Cell, Content, Ink, Look};
use crate::workbook::context::Context;
use crate::workbook::layout::{Slot, TableLayout, rows_of};

const HEADERS: [&str; 2] = ["The weights above stand on", "As costed"];
const STANDS: u16 = 1;
/// What stands where they do not hold.
pub(super) const NO: &str = "cost again";
/// A function takes 255 arguments (ECMA-376 part 1, 18.17, as programs read it).
const MOST_CONDITIONS: usize = 200;
/// The most bytes of them, so that what stands round them has room.
const LONGEST: usize = 7_500;
/// Rows of a table that are looked for one by one; each is looked for among all.
const MOST_ROWS: usize = 400;

/// Something that weights stand on, and what holds as long as it is what it was.
pub(super) struct WeightGroup {
    pub(super) named: String,
    pub(super) holds: Vec<String>,
}

/// What the weights of the sheet stand on.
pub(super) struct StandsOn {
    /// Recipes and yield tests.
    drawn: Vec<WeightGroup>,
    /// Plan and stock.
    planned: Vec<WeightGroup>,
}

impl StandsOn {
    pub(super) fn of(context: &Context<'_>, trim: &Trim) -> Self {
        let drawn =
            if trim.worth.is_some() || trim.balance.is_some() { drawn_on::groups(context, trim) } else { Vec::new() };
        StandsOn { drawn, planned: planned(context) }
    }
}

/// The row in which it is said whether recipes and tests are what they were, and that of all, plan and stock too.
fn rows(places: &Places) -> (u32, u32) {
    (places.stands.saturating_add(2), places.stands.saturating_add(3))
}

impl TrimSheet<'_> {
    /// A reading that stands on the plan.
    pub(super) fn planned(&mut self, row: u32, column: u16, number: Decimal, look: Look) {
        let stands = self.as_planned();
        self.standing(row, column, number, look, stands);
    }

    /// A reading that stands on recipes and yield tests alone.
    pub(super) fn drawn(&mut self, row: u32, column: u16, number: Decimal, look: Look) {
        let cell = Places::cell(rows(self.places).0, STANDS);
        let stands = (!self.stands_on.drawn.is_empty()).then(|| format!("{cell}=\"{YES}\""));
        self.standing(row, column, number, look, stands);
    }

    fn standing(&mut self, row: u32, column: u16, number: Decimal, look: Look, stands: Option<String>) {
        let Some(stands) = stands else { return self.reading(row, column, number, look) };
        let text = format!("IF({stands},{},\"{NO}\")", plain(number));
        let cell = Cell::number(column, number, Ink::Reading, look);
        self.put(row, Cell { content: Content::Formula(Formula::number(text, number)), ..cell });
    }

    /// What holds as long as plan, stock, recipes and tests are as they were costed; `None` where there is none of them.
    pub(super) fn as_planned(&self) -> Option<String> {
        let is_any = !(self.stands_on.drawn.is_empty() && self.stands_on.planned.is_empty());
        is_any.then(|| format!("{}=\"{YES}\"", Places::cell(rows(self.places).1, STANDS)))
    }

    /// Whether each of them is as it was costed, a row for each.
    pub(super) fn stands(&mut self) {
        if self.as_planned().is_none() {
            return;
        }
        let StandsOn { drawn, planned } =
            std::mem::replace(&mut self.stands_on, StandsOn { drawn: Vec::new(), planned: Vec::new() });
        self.head(self.places.stands, "Whether the weights above still hold", &HEADERS);
        let (of_drawn, of_all) = rows(self.places);
        let first = of_all.saturating_add(1);
        let middle = self.groups(first, drawn);
        let end = self.groups(middle, planned);
        for (row, named, last) in
            [(of_drawn, "Recipes and yield tests", middle), (of_all, "All, plan and stock too", end)]
        {
            self.words(row, 0, named);
            let text = match last.saturating_sub(first) {
                0 => format!("\"{YES}\""),
                rows => {
                    let range =
                        format!("{}:{}", Places::cell(first, STANDS), Places::cell(last.saturating_sub(1), STANDS));
                    format!("IF(COUNTIF({range},\"{YES}\")={rows},\"{YES}\",\"{NO}\")")
                }
            };
            self.put(row, Cell::figure(STANDS, Formula::text(text, YES), Look::Words));
        }
    }

    /// A row for each of the groups from `row` on, more where one formula does not hold it; gives the row below them.
    fn groups(&mut self, mut row: u32, groups: Vec<WeightGroup>) -> u32 {
        for WeightGroup { named, holds } in groups {
            for piece in pieces(&holds) {
                self.words(row, 0, &named);
                // An error in a condition, of words for a number, is another figure than the one that was.
                let text = format!("IF(IFERROR(AND({piece}),FALSE),\"{YES}\",\"{NO}\")");
                self.put(row, Cell::figure(STANDS, Formula::bare(text, Outcome::Text(YES.to_owned())), Look::Words));
                row = row.saturating_add(1);
            }
        }
        row
    }
}

/// Conditions one behind the other, as many as a formula holds.
fn pieces(holds: &[String]) -> Vec<String> {
    let mut pieces: Vec<(usize, String)> = Vec::new();
    for one in holds {
        match pieces.last_mut() {
            Some((count, piece)) if *count < MOST_CONDITIONS && piece.len().saturating_add(one.len()) < LONGEST => {
                piece.push(',');
                piece.push_str(one);
                *count = count.saturating_add(1);
            }
            _ => pieces.push((1, one.clone())),
        }
    }
    pieces.into_iter().map(|(_, piece)| piece).collect()
}

/// What holds of plan and stock: of each row, or where there are very many of their number and sums.
fn planned(context: &Context<'_>) -> Vec<WeightGroup> {
    let tables = [(TableKind::Plan, Column::Portions, Column::Day), (TableKind::Stock, Column::OnHand, Column::Unit)];
    let group = |(kind, amount, beside): (TableKind, Column, Column)| {
        let table = context.layout.table(kind)?;
        let rows = rows_of(context.kitchen, kind);
        let named = table.sheet.to_string();
        Some(if rows.len() <= MOST_ROWS {
            WeightGroup { named, holds: as_they_were(table, &rows, [amount, beside]) }
        } else {
            WeightGroup { named: format!("{named}, by its sums"), holds: unchanged(table, &rows, amount) }
        })
    };
    tables.into_iter().filter_map(group).filter(|group| !group.holds.is_empty()).collect()
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
