//! Where a recipe stands: on a card of its own, or as a row of facts and rows of lines among those of many.

use std::sync::Arc;

use crate::kitchen::InputRow;
use crate::kitchen::recipe::RecipeEntry;
use crate::report::formula::Ref;
use crate::report::layout::{Slot, TableLayout};
use crate::schema::{Column, Label, TableKind, output};

/// Where a recipe stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecipeLayout {
    facts: Facts,
    sheet: Arc<str>,
    first_line: u32,
    slots: Arc<[Slot]>,
    /// How many lines it has, unread ones included.
    pub lines: usize,
}

/// Where a recipe's labels and totals stand.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Facts {
    /// Above and below its lines, on the same sheet.
    Card(Vec<Label>),
    /// In one row of a table.
    Row(Arc<TableLayout>, usize),
}

/// The totals of a recipe, in the order in which they stand.
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

/// The lines of a recipe as typed, unread ones last.
pub fn typed_lines(entry: &RecipeEntry) -> impl Iterator<Item = &InputRow> {
    entry.lines.iter().map(|line| &line.input).chain(&entry.unread)
}

impl RecipeLayout {
    /// A recipe on a card of its own.
    pub fn card(entry: &RecipeEntry, sheet: String) -> Self {
        let lines: Vec<&InputRow> = typed_lines(entry).collect();
        let filled = |label: Label| label == Label::Recipe || !entry.input.typed(label.column()).is_blank();
        let labels: Vec<Label> = Label::ALL.iter().copied().filter(|label| filled(*label)).collect();
        // A blank row, then the line header.
        let first_line = count(labels.len()).saturating_add(2);
        RecipeLayout {
            facts: Facts::Card(labels),
            sheet: sheet.into(),
            first_line,
            slots: TableLayout::new(TableKind::CardLines, &lines).slots.into(),
            lines: lines.len(),
        }
    }

    /// A recipe among many: the row of `facts` at `index`, its lines on `sheet` from the row `first_line` on.
    pub fn listed(
        facts: &Arc<TableLayout>,
        index: usize,
        sheet: &Arc<str>,
        slots: &Arc<[Slot]>,
        first_line: u32,
        lines: usize,
    ) -> Self {
        let facts = Facts::Row(Arc::clone(facts), index);
        RecipeLayout { facts, sheet: Arc::clone(sheet), first_line, slots: Arc::clone(slots), lines }
    }

    /// The sheet of its lines.
    pub fn sheet(&self) -> &str {
        &self.sheet
    }

    /// The sheet of its labels and totals.
    pub fn facts_sheet(&self) -> &str {
        match &self.facts {
            Facts::Card(_) => &self.sheet,
            Facts::Row(table, _) => &table.sheet,
        }
    }

    /// The columns of its lines.
    pub fn slots(&self) -> &[Slot] {
        &self.slots
    }

    /// The labels of a card, in order; none where the labels are columns.
    pub fn labels(&self) -> &[Label] {
        match &self.facts {
            Facts::Card(labels) => labels,
            Facts::Row(..) => &[],
        }
    }

    /// Where a reader is led who asks for the recipe.
    pub fn home(&self) -> Ref {
        match &self.facts {
            Facts::Card(_) => Ref::new(&self.sheet, 0, 0),
            Facts::Row(table, index) => Ref::new(&table.sheet, table.row(*index), 0),
        }
    }

    /// The zero-based row of a line.
    pub fn line_row(&self, index: usize) -> u32 {
        self.first_line.saturating_add(count(index))
    }

    /// The cell of a label's value.
    pub fn label(&self, label: Label) -> Option<Ref> {
        match &self.facts {
            Facts::Card(labels) => {
                let row = labels.iter().position(|known| *known == label)?;
                Some(Ref::new(&self.sheet, count(row), 1))
            }
            Facts::Row(table, index) => table.input(*index, label.column()),
        }
    }

    /// The cell of a total.
    pub fn total(&self, total: Total) -> Ref {
        match &self.facts {
            Facts::Card(_) => Ref::new(&self.sheet, self.totals_row().saturating_add(count(total.index())), 1),
            Facts::Row(table, index) => table.own(*index, total.label()),
        }
    }

    /// The zero-based row of a card's first total: a blank row stands above it.
    pub fn totals_row(&self) -> u32 {
        self.line_row(self.lines).saturating_add(1)
    }

    /// The cell of an input column of a line, when there is one.
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
}

fn count(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX)
}
