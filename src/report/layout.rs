//! Where everything stands in the costed workbook: fixed before the first row is made, so that rows can stream.
//!
//! Holds sheet names and row numbers only; a cell's address is computed from them when a formula names it.

use std::collections::BTreeMap;

use crate::kitchen::recipe::RecipeEntry;
use crate::kitchen::{InputRow, Kitchen};
use crate::report::formula::Ref;
use crate::report::names::{self, Names};
use crate::schema::{CarriedSheet, Column, Label, TableKind, output};

/// A column of a table sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Slot {
    /// An input column.
    Input(Column),
    /// A column of our own, by its header.
    Own(&'static str),
}

/// Where a table stands: its header is the first row of its sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableLayout {
    /// Its kind.
    pub kind: TableKind,
    /// Its sheet.
    pub sheet: String,
    /// Its columns, from the first of the sheet on.
    pub slots: Vec<Slot>,
}

impl TableLayout {
    fn new(kind: TableKind, rows: &[&InputRow]) -> Self {
        let used = |column: Column| rows.iter().any(|row| !row.typed(column).is_blank());
        let must = |column: Column| kind.signature().all.contains(&column) || kind.name_column() == column;
        let mut slots: Vec<Slot> = kind
            .columns()
            .iter()
            .filter(|def| must(def.column) || used(def.column) || always(kind, def.column))
            .map(|def| Slot::Input(def.column))
            .collect();
        slots.extend(output::columns(kind).iter().map(|header| Slot::Own(header)));
        TableLayout { kind, sheet: names::of_table(kind).to_owned(), slots }
    }

    /// The zero-based sheet row of the table's row at `index`.
    pub fn row(&self, index: usize) -> u32 {
        u32::try_from(index).unwrap_or(u32::MAX).saturating_add(1)
    }

    /// The zero-based column of a slot.
    pub fn column(&self, wanted: Slot) -> Option<u16> {
        self.slots.iter().position(|slot| *slot == wanted).and_then(|at| u16::try_from(at).ok())
    }

    /// The cell of an input column in the row at `index`.
    pub fn input(&self, index: usize, column: Column) -> Option<Ref> {
        Some(Ref::new(&self.sheet, self.row(index), self.column(Slot::Input(column))?))
    }

    /// The cell of a column of our own in the row at `index`.
    pub fn own(&self, index: usize, header: &'static str) -> Ref {
        Ref::new(&self.sheet, self.row(index), self.column(Slot::Own(header)).unwrap_or_default())
    }
}

/// Columns that are written even when nothing stands in them: one of them makes the table known when it is read again.
fn always(kind: TableKind, column: Column) -> bool {
    match kind {
        TableKind::Prices => matches!(column, Column::Pack | Column::Per),
        TableKind::Measures => matches!(column, Column::Weighs | Column::Holds),
        TableKind::Menu => matches!(column, Column::Recipe | Column::Portion | Column::MenuPrice),
        TableKind::YieldTests => matches!(column, Column::Unit | Column::ChargedAs | Column::Value),
        TableKind::CardLines => column == Column::Unit,
        _ => false,
    }
}

/// Where a recipe's card stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CardLayout {
    /// Its sheet.
    pub sheet: String,
    /// Its labels, from the first row on.
    pub labels: Vec<Label>,
    /// The columns of its lines: those that are filled, then our own.
    pub slots: Vec<Slot>,
    /// How many lines it has, unread ones included.
    pub lines: usize,
}

/// The totals of a card, in the order in which they stand below its lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Total {
    /// Ingredients of the batch.
    Food,
    /// Q of its own card.
    Q,
    /// Spice of its own card.
    Spice,
    /// All three.
    Batch,
    /// What it makes, in base units.
    Makes,
    /// What one base unit costs inside another recipe.
    UnitCost,
    /// One portion in base units.
    Portion,
    /// Portions.
    Portions,
    /// What one portion costs.
    PortionCost,
}

impl Total {
    /// Its place among the totals, and among the labels of the closed list.
    pub fn index(self) -> usize {
        self as usize
    }

    /// Its label.
    pub fn label(self) -> &'static str {
        output::CARD_LABELS.get(self.index()).copied().unwrap_or_default()
    }
}

impl CardLayout {
    fn of(entry: &RecipeEntry, sheet: String) -> Self {
        let lines: Vec<&InputRow> = entry.lines.iter().map(|line| &line.input).chain(&entry.unread).collect();
        let filled = |label: Label| label == Label::Recipe || !entry.input.typed(label.column()).is_blank();
        CardLayout {
            sheet,
            labels: Label::ALL.iter().copied().filter(|label| filled(*label)).collect(),
            slots: TableLayout::new(TableKind::CardLines, &lines).slots,
            lines: lines.len(),
        }
    }

    /// The zero-based row of the line header: a blank row stands above it.
    pub fn header_row(&self) -> u32 {
        u32::try_from(self.labels.len()).unwrap_or(u32::MAX).saturating_add(1)
    }

    /// The zero-based row of a line.
    pub fn line_row(&self, index: usize) -> u32 {
        self.header_row().saturating_add(1).saturating_add(u32::try_from(index).unwrap_or(u32::MAX))
    }

    /// The zero-based row of the first total: a blank row stands above it.
    pub fn totals_row(&self) -> u32 {
        self.line_row(self.lines).saturating_add(1)
    }

    /// The cell of a label's value.
    pub fn label(&self, label: Label) -> Option<Ref> {
        let row = self.labels.iter().position(|known| *known == label)?;
        Some(Ref::new(&self.sheet, u32::try_from(row).ok()?, 1))
    }

    /// The cell of an input column of a line, when the card has it.
    pub fn input(&self, index: usize, column: Column) -> Option<Ref> {
        self.line(index, Slot::Input(column))
    }

    /// The cell of a column of our own in a line.
    pub fn own(&self, index: usize, header: &'static str) -> Ref {
        self.line(index, Slot::Own(header)).unwrap_or_else(|| Ref::new(&self.sheet, self.line_row(index), 0))
    }

    fn line(&self, index: usize, slot: Slot) -> Option<Ref> {
        let column = self.slots.iter().position(|known| *known == slot).and_then(|at| u16::try_from(at).ok())?;
        Some(Ref::new(&self.sheet, self.line_row(index), column))
    }

    /// The cell of a total.
    pub fn total(&self, total: Total) -> Ref {
        let row = self.totals_row().saturating_add(u32::try_from(total.index()).unwrap_or(u32::MAX));
        Ref::new(&self.sheet, row, 1)
    }
}

/// Where everything stands.
#[derive(Debug, Clone)]
pub struct Layout {
    tables: BTreeMap<TableKind, TableLayout>,
    /// The cards, beside the kitchen's recipes.
    pub cards: Vec<CardLayout>,
    /// The sheets of the carried sheets, beside them.
    pub carried: Vec<String>,
}

impl Layout {
    /// The layout of a kitchen's workbook.
    pub fn of(kitchen: &Kitchen, carried: &[CarriedSheet]) -> Self {
        let mut tables = BTreeMap::new();
        for kind in TableKind::ALL.iter().copied() {
            let rows = rows_of(kitchen, kind);
            if !rows.is_empty() {
                tables.insert(kind, TableLayout::new(kind, &rows));
            }
        }
        let mut names = Names::new();
        let cards =
            kitchen.entries.recipes.iter().map(|entry| CardLayout::of(entry, names.card(&entry.name))).collect();
        let carried = carried.iter().map(|sheet| names.carried(&sheet.name)).collect();
        Layout { tables, cards, carried }
    }

    /// The table of a kind, when the book has rows of it.
    pub fn table(&self, kind: TableKind) -> Option<&TableLayout> {
        self.tables.get(&kind)
    }
}

/// The rows of a table sheet in the order in which they are written: those read, then those without a name.
pub fn rows_of(kitchen: &Kitchen, kind: TableKind) -> Vec<&InputRow> {
    let entries = &kitchen.entries;
    let mut rows: Vec<&InputRow> = match kind {
        TableKind::Prices => entries.prices.iter().map(|row| &row.input).collect(),
        TableKind::Measures => entries.measures.iter().map(|row| &row.input).collect(),
        TableKind::YieldTests => entries.tests.iter().map(|row| &row.input).collect(),
        TableKind::Menu => entries.menu.iter().map(|row| &row.input).collect(),
        TableKind::Plan => entries.plan.iter().map(|row| &row.input).collect(),
        TableKind::Stock => entries.stock.iter().map(|row| &row.input).collect(),
        TableKind::Control => entries.control.iter().map(|row| &row.input).collect(),
        // Settings hold the values in force, not the rows; recipes are cards.
        TableKind::Settings | TableKind::RecipeLines | TableKind::RecipeFacts | TableKind::CardLines => {
            return Vec::new();
        }
    };
    rows.extend(entries.unread.iter().filter(|(known, _)| *known == kind).map(|(_, row)| row));
    rows
}
