//! Problems in the terms of the workbook: where the cell they speak of stands now.
//!
//! What concerns only the shape of the original files (a heading, an unknown column) has no cell here and is left to
//! the terminal and the JSON.

use std::collections::{HashMap, HashSet};

use crate::in_order::InOrder;
use crate::kitchen::{InputRow, Kitchen};
use crate::problem::{CellRef, Code, Place, Problem, Severity};
use crate::schema::{CarriedSheet, Label, TableKind};
use crate::workbook::cells::formula::Ref;
use crate::workbook::layout::effective_settings::SettingsLayout;
use crate::workbook::layout::recipe::typed_lines;
use crate::workbook::layout::{Layout, rows_of};

/// A problem at a cell of the workbook.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Landed {
    /// How grave it is.
    pub severity: Severity,
    /// Its code.
    pub code: Code,
    /// The cell.
    pub at: Ref,
    /// The cell where it was met.
    pub from: Place,
    /// What is wrong.
    pub message: String,
    /// What to type instead.
    pub help: String,
}

impl Landed {
    /// Whether nobody could tell one from the other.
    fn says_the_same(&self, other: &Self) -> bool {
        (self.code, &self.at, &self.message, &self.help) == (other.code, &other.at, &other.message, &other.help)
    }
}

/// What is not met again when the workbook is read: the text or number is cut, the card is one of ours.
const NOT_AGAIN: [Code; 5] =
    [Code::TextTooLong, Code::DigitsCut, Code::RowsRepeated, Code::CardAssumed, Code::LineAssumed];

/// The problems that land on a cell of the workbook, by sheet and cell.
pub fn land(
    kitchen: &Kitchen,
    layout: &Layout,
    settings: &SettingsLayout,
    carried: &[CarriedSheet],
    problems: &[Problem],
) -> Vec<Landed> {
    let wanted: HashSet<&Place> =
        problems.iter().flat_map(|problem| std::iter::once(&problem.place).chain(&problem.there)).collect();
    let cells = if wanted.is_empty() {
        HashMap::new()
    } else {
        Landing { wanted, found: HashMap::new() }.all(kitchen, layout, settings, carried)
    };
    let mut landed: Vec<(usize, Landed)> = Vec::new();
    // What was cut from a text is no longer here.
    for problem in problems.iter().filter(|problem| !NOT_AGAIN.contains(&problem.code)) {
        let Some((order, at)) = cells.get(&problem.place) else { continue };
        let message = match &problem.there {
            Some(there) => {
                let there = cells.get(there).map_or_else(|| there.to_string(), |(_, cell)| cell.spoken());
                problem.message_naming(&there)
            }
            None => problem.message(),
        };
        let landed_here = Landed {
            severity: problem.severity(),
            code: problem.code,
            at: at.clone(),
            from: problem.place.clone(),
            message,
            help: problem.help.to_string(),
        };
        landed.push((*order, landed_here));
    }
    landed.put_in_order_by(|(a, one), (b, other)| {
        (one.severity, a, one.at.row, one.at.column, one.code, &one.message).cmp(&(
            other.severity,
            b,
            other.at.row,
            other.at.column,
            other.code,
            &other.message,
        ))
    });
    landed.dedup_by(|a, b| a.1.says_the_same(&b.1));
    landed.into_iter().map(|(_, landed)| landed).collect()
}

struct Landing<'a> {
    wanted: HashSet<&'a Place>,
    found: HashMap<Place, (usize, Ref)>,
}

impl Landing<'_> {
    fn all(
        mut self,
        kitchen: &Kitchen,
        layout: &Layout,
        settings: &SettingsLayout,
        carried: &[CarriedSheet],
    ) -> HashMap<Place, (usize, Ref)> {
        let mut sheet = 0_usize;
        for (index, row) in kitchen.entries.settings.iter().enumerate() {
            for cell in &row.input.cells {
                self.note(&cell.place, sheet, settings.of_row(index, cell.column));
            }
        }
        for kind in TableKind::ALL.iter().copied() {
            sheet = sheet.saturating_add(1);
            let Some(table) = layout.table(kind) else { continue };
            for (index, row) in rows_of(kitchen, kind).into_iter().enumerate() {
                self.row(row, sheet, |column| table.input(index, column));
            }
        }
        for (entry, card) in kitchen.entries.recipes.iter().zip(&layout.recipes) {
            sheet = sheet.saturating_add(1);
            for cell in &entry.input.cells {
                let label = Label::ALL.iter().copied().find(|label| label.column() == cell.column);
                self.note(&cell.place, sheet, label.and_then(|label| card.label(label)));
            }
            for (index, line) in typed_lines(entry).enumerate() {
                self.row(line, sheet, |column| card.input(index, column));
            }
        }
        for (from, to) in carried.iter().zip(&layout.carried) {
            sheet = sheet.saturating_add(1);
            for (row, column, _) in &from.cells {
                let at = u16::try_from(*column).ok().map(|column| Ref::new(to.as_str(), *row, column));
                self.note(&from.place.cell(CellRef::new(*row, *column)), sheet, at);
            }
        }
        self.found
    }

    fn row(&mut self, row: &InputRow, sheet: usize, cell: impl Fn(crate::schema::Column) -> Option<Ref>) {
        for input in &row.cells {
            self.note(&input.place, sheet, cell(input.column));
        }
    }

    fn note(&mut self, place: &Place, sheet: usize, at: Option<Ref>) {
        if let (true, Some(at)) = (self.wanted.contains(place), at) {
            self.found.entry(place.clone()).or_insert((sheet, at));
        }
    }
}
