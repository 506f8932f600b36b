//! Own columns, beside the typed ones of a table: everything that was figured, or nothing but, where a row could be
//! taken for something else when it is read again, the word that it is a row.

use std::collections::HashSet;

use crate::kitchen::InputRow;
use crate::schema::as_written::{self, Stands};
use crate::schema::{Column, Label, TableKind, Typed, Value, header, output, row_names};
use crate::workbook::cells::formula::Ref;
use crate::workbook::cells::row::{Cell, Ink};
use crate::workbook::cells::row::{Content, Look};
use crate::workbook::layout::{Slot, TableLayout, column_width};

/// What a workbook holds besides what was typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Beside {
    /// Readings and figures.
    Figures,
    /// Nothing, as in a book: the word that a row is one where it has to be said.
    Nothing,
}

/// The word that a row is one.
const A_ROW: &str = "a row of its own";

impl Beside {
    /// The columns of our own of a `kind` table; `doubtful` says whether one of its rows could be taken for another thing.
    pub fn columns(self, kind: TableKind, doubtful: impl FnOnce() -> bool) -> Vec<&'static str> {
        match self {
            Beside::Figures => output::columns(kind).collect(),
            Beside::Nothing if doubtful() => vec![output::ROW_READ_AS],
            Beside::Nothing => Vec::new(),
        }
    }
}

/// Collects the cells of our own for one row of a table.
pub struct OwnCells<'a> {
    table: &'a TableLayout,
    /// The cells so far.
    pub cells: Vec<Cell>,
}

impl<'a> OwnCells<'a> {
    /// None yet.
    pub fn of(table: &'a TableLayout) -> Self {
        OwnCells { table, cells: Vec::new() }
    }

    /// Puts `content` under `header`.
    pub fn put(&mut self, header: &'static str, content: Content, ink: Ink, look: Look) {
        if let Some(column) = self.table.column(Slot::Own(header)) {
            let shape = self.table.shapes.get(usize::from(column));
            self.cells.push(column_width::fitted(Cell { column, content, ink, look }, shape));
        }
    }

    /// Puts a reading in words.
    pub fn say(&mut self, header: &'static str, text: impl Into<String>) {
        let text = text.into();
        if !text.is_empty() {
            self.put(header, Content::Text(text), Ink::Reading, Look::General);
        }
    }

    /// Puts the key of the row at `at`, where rows have any.
    pub fn say_key(&mut self, at: u32) {
        let cell = Ref::new(std::sync::Arc::clone(&self.table.sheet), at, 0);
        if let Some(key) = self.table.keyed(cell, true).key_text() {
            self.say(output::ROW_KEY, key);
        }
    }

    /// Puts the seal of what stands in the row so far.
    pub fn seal(&mut self) {
        if let Some(seal) = sealed_row(&self.table.slots, &self.cells, None) {
            self.put(as_written::HEADER, Content::Text(seal), Ink::Reading, Look::Words);
        }
    }

    /// Puts a reading that is a number.
    pub fn read(&mut self, header: &'static str, number: crate::number::Decimal) {
        self.put(header, Content::Number(number), Ink::Reading, Look::General);
    }

    /// Puts a figure.
    pub fn figure(&mut self, header: &'static str, formula: crate::workbook::cells::formula::Formula, look: Look) {
        let content = Content::of(formula);
        let ink = if matches!(content, Content::Formula(_)) { Ink::Figure } else { Ink::Reading };
        self.put(header, content, ink, look);
    }
}

/// The seal of the cells of our own of a row, by their columns; with that of the cell in another column before them. `None`
/// where there is no column for it, or nothing to watch.
pub fn sealed_row(slots: &[Slot], cells: &[Cell], before: Option<u16>) -> Option<String> {
    slots.contains(&Slot::Own(as_written::HEADER)).then_some(())?;
    let is_own = |slot: &Slot| matches!(slot, Slot::Own(header) if *header != as_written::HEADER);
    let own = slots.iter().zip(0_u16..).filter(|(slot, _)| is_own(slot)).map(|(_, at)| at);
    as_written::sealed(
        before.into_iter().chain(own).map(|at| {
            cells.iter().find(|cell| cell.column == at).map_or(Stands::Nothing, |cell| stands(&cell.content))
        }),
    )
}

/// What stands in a cell, as a seal has it.
pub fn stands(content: &Content) -> Stands<'_> {
    match content {
        Content::Blank => Stands::Nothing,
        Content::Text(text) | Content::Link { text, .. } => Stands::Text(text),
        Content::Number(number) => Stands::Number(*number),
        Content::Formula(_) => Stands::Formula,
        Content::Date(_) | Content::Bool(_) => Stands::Other,
    }
}

/// The word that `row` is one, where it has to be said. In a list of many recipes `recipe` is its recipe's name.
pub fn say_row(kind: TableKind, row: &InputRow, recipe: Option<&Typed>, own: &mut OwnCells<'_>) {
    if is_doubtful(kind, row, recipe) {
        own.say(output::ROW_READ_AS, A_ROW);
    }
}

/// The word that a card's line is one.
pub fn row_cell(column: u16) -> Cell {
    Cell::text(column, A_ROW, Ink::Reading)
}

/// Whether a row of a `kind` table could be taken for something else: a name alone for a heading, a line named Total for
/// one, names that are headers for the header row of a table, `Recipe` for the top of a card. Rather once too often.
pub fn is_doubtful(kind: TableKind, row: &InputRow, recipe: Option<&Typed>) -> bool {
    let typed = |column: Column| match recipe {
        Some(recipe) if column == Column::Recipe => recipe,
        _ => row.typed(column),
    };
    let filled = kind.columns().iter().map(|def| typed(def.column)).filter(|typed| !typed.is_blank());
    let texts: Vec<Option<&str>> = filled
        .map(|typed| match &typed.value {
            // What may have been a formula is no heading.
            Value::Text(text) if typed.error().is_none() && typed.lost_formula().is_none() => Some(text.as_str()),
            _ => None,
        })
        .collect();
    let known = || texts.iter().flatten().copied();
    match texts.as_slice() {
        [] => return false,
        [Some(name)] => return !kind.name_alone_is_a_row() || row_names::is_clear_heading(name),
        [Some(first), ..] if matches!(Label::read(first), Some((Label::Recipe, _))) => return true,
        _ => {}
    }
    let is_line = matches!(kind, TableKind::CardLines | TableKind::RecipeLines);
    (is_line && known().any(|text| output::is_card_label(text) || row_names::is_total(text)))
        || (known().filter(|text| header::is_known(text)).nth(1).is_some() && is_header(known()))
}

/// Whether these texts have what a header row of some table must have.
fn is_header<'t>(texts: impl Iterator<Item = &'t str>) -> bool {
    let meant: HashSet<(TableKind, Column)> =
        texts.flat_map(|text| header::read(text).meanings()).map(|meaning| (meaning.kind, meaning.column)).collect();
    TableKind::ALL.iter().any(|kind| kind.signature().fits(|column| meant.contains(&(*kind, column)), |_| false))
}
