//! Readings that stand on the plan and what is on hand: they are known as long as nobody has changed, cleared, taken out or
//! added anything there, or in the recipes and yield tests that they were drawn from.

use super::places::Places;
use super::{TrimSheet, drawn_on};
use crate::analysis::Trim;
use crate::number::{Decimal, plain};
use crate::schema::{Column, TableKind};
use crate::workbook::cells::formula::{Formula, YES};
use crate::workbook::cells::row::{Cell, Content, Ink, Look};
use crate::workbook::context::Context;
use crate::workbook::layout::rows_of;
use crate::workbook::sheets::unchanged_rows::{AGAIN, MOST_ROWS, as_they_were, pieces, says_whether, unchanged};

const HEADERS: [&str; 2] = ["The weights above stand on", "As costed"];
const STANDS: u16 = 1;

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
        let text = format!("IF({stands},{},\"{AGAIN}\")", plain(number));
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
                    format!("IF(COUNTIF({range},\"{YES}\")={rows},\"{YES}\",\"{AGAIN}\")")
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
                self.put(row, Cell::figure(STANDS, says_whether(&piece), Look::Words));
                row = row.saturating_add(1);
            }
        }
        row
    }
}

/// What holds of plan and stock: of each row, or where there are very many of their number and sums.
fn planned(context: &Context<'_>) -> Vec<WeightGroup> {
    let tables = [(TableKind::Plan, Column::Portions, Column::Day), (TableKind::Stock, Column::OnHand, Column::Unit)];
    let group = |(kind, amount, beside): (TableKind, Column, Column)| {
        let table = context.layout.table(kind)?;
        let rows = rows_of(context.kitchen, kind);
        let named = table.sheet.to_string();
        Some(if rows.len() <= MOST_ROWS {
            WeightGroup { named, holds: as_they_were(table, &rows, &[amount, beside]) }
        } else {
            WeightGroup { named: format!("{named}, by its sums"), holds: unchanged(table, &rows, amount) }
        })
    };
    tables.into_iter().filter_map(group).filter(|group| !group.holds.is_empty()).collect()
}
