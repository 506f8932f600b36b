//! What stands in a cell of our own in the costed workbook, without writing that: what parings figures or reads where
//! somebody typed another thing.

use crate::analysis::RowYields;
use crate::kitchen::RecipeId;
use crate::number::Decimal;
use crate::results::figures::{self, at_most, percent_at_most};
use crate::results::problem_counts::Counts;
use crate::schema::TableKind;
use crate::workbook::cells::formula::Outcome;
use crate::workbook::cells::row::{Cell, Content, Look, Row};
use crate::workbook::context::Context;
use crate::workbook::sheets::cards::{self, Remarks};
use crate::workbook::sheets::{plain as plain_tables, prices, summary, yield_tests};
use crate::workbook::xlsx::OnDemand;

/// A sheet of ours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FiguredSheet {
    /// That of a table.
    Table(TableKind),
    /// A recipe's card.
    Card(RecipeId),
    /// The Summary.
    Summary,
}

/// The rows of a sheet.
pub struct FiguredRows(Vec<Row>);

impl FiguredRows {
    /// Those of a sheet; none where there is no such sheet.
    pub(super) fn of(context: &Context<'_>, yields: &OnDemand<'_, RowYields>, sheet: FiguredSheet) -> Self {
        let mut rows = Vec::new();
        let out = &mut |row: Row| rows.push(row);
        match sheet {
            FiguredSheet::Table(kind) => {
                let Some(table) = context.layout.table(kind) else { return FiguredRows(rows) };
                match kind {
                    TableKind::Prices => {
                        let known = prices::PriceRows::of(context, yields());
                        prices::rows(context, &known, table, 0..table.rows, out);
                    }
                    TableKind::YieldTests => yield_tests::rows(context, table, out),
                    _ => plain_tables::rows(context, table, out),
                }
            }
            FiguredSheet::Card(id) => cards::rows(context, id, &Remarks::default(), out),
            FiguredSheet::Summary => {
                let counts = Counts::of(std::iter::empty());
                let stopped_by = &|_: &_| (String::new(), None);
                let said = summary::SummaryNotes { counts: &counts, changes: None, sheets: Vec::new(), stopped_by };
                summary::rows(context, &said, out);
            }
        }
        FiguredRows(rows)
    }

    /// What stands in the row that begins with `begins`, the `nth` of those, below the `header`, or without one beside what the
    /// row begins with. `None` where nothing does.
    pub fn said(&self, begins: &str, nth: usize, header: Option<&str>) -> Option<String> {
        let FiguredRows(rows) = self;
        let column = match header {
            Some(header) => {
                let mut cells = rows.iter().flat_map(|row| &row.cells);
                cells.find(|cell| said(cell).is_some_and(|text| text == header))?.column
            }
            None => 1,
        };
        let alike =
            rows.iter().filter(|row| row.cells.first().and_then(said).is_some_and(|text| text.trim() == begins));
        let row = alike.into_iter().nth(nth)?;
        row.cells.iter().find(|cell| cell.column == column).and_then(said)
    }
}

/// A cell as it is shown; `None` of one with nothing in it.
fn said(cell: &Cell) -> Option<String> {
    Some(match &cell.content {
        Content::Text(text) | Content::Link { text, .. } => text.clone(),
        Content::Number(number) => shown(*number, &cell.look),
        Content::Formula(formula) => match &formula.result {
            Outcome::Number(number) => shown(*number, &cell.look),
            Outcome::Text(text) => text.clone(),
        },
        Content::Date(day) => day.to_string(),
        Content::Blank | Content::Bool(_) => return None,
    })
    .filter(|text| !text.is_empty())
}

fn shown(number: Decimal, look: &Look) -> String {
    /// What is no money is told to so many places.
    const PLACES: u32 = 4;
    match look {
        Look::Money { places, .. } => figures::shown(Some(number), *places),
        Look::Percent(places) => format!("{} %", percent_at_most(number, *places)),
        _ => at_most(number, PLACES),
    }
}
