//! Layout of a recipe: on a card of its own, or as a row of facts and rows of lines among those of many.

mod in_place;

use std::sync::Arc;

use crate::kitchen::recipe::RecipeEntry;
use crate::kitchen::{Field, InputRow};
use crate::schema::output;
use crate::schema::{Column, Label, TableKind, Typed, Value};
use crate::workbook::cells::formula::Ref;
use crate::workbook::layout::column_width::{self, ColumnShape};
use crate::workbook::layout::own_columns::{Beside, is_doubtful};
use crate::workbook::layout::{Slot, TableLayout};

/// Where a recipe stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RecipeLayout {
    facts: Facts,
    sheet: Arc<str>,
    first_line: u32,
    slots: Arc<[Slot]>,
    shapes: Arc<[ColumnShape]>,
    /// How many lines it has, unread ones included.
    pub lines: usize,
}

/// The columns of what stands beside the lines of a recipe, looked up once.
#[derive(Debug, Clone, Copy)]
pub struct LineColumns {
    /// As typed, where there is such a column.
    pub qty: Option<u16>,
    /// Likewise.
    pub own_yield: Option<u16>,
    /// Likewise.
    pub used: Option<u16>,
    pub source: u16,
    pub figured_in: u16,
    pub basis: u16,
    pub unit_factor: u16,
    pub base_qty: u16,
    pub yield_used: u16,
    /// The cost per base unit.
    pub unit_cost: u16,
    /// The cost per unit of the line's own, and that unit.
    pub cost_per_unit: u16,
    pub unit_costed: u16,
    pub line_cost: u16,
    pub share: u16,
}

/// Where a recipe's labels and totals stand.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Facts {
    /// Above and below its lines, on the same sheet: the labels, and the totals that it may have.
    Card(Vec<Label>, Vec<Total>),
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
    /// Portions.
    Portions,
    /// What one portion costs.
    PortionCost,
    /// What one of the units that it makes costs.
    PerMade,
    /// What it makes, in base units.
    Makes,
    /// What one base unit costs inside another recipe.
    UnitCost,
    /// One portion in base units.
    Portion,
    /// How many lines have no cost, and whether some are new.
    Uncosted,
}

impl Total {
    /// Its place among the totals, and among the labels of the closed list.
    pub fn index(self) -> usize {
        self as usize
    }

    /// Its row among the working beside a card's totals, where it stands there.
    fn beside(self) -> Option<u32> {
        match self {
            Total::Makes => Some(0),
            Total::UnitCost => Some(1),
            Total::Portion => Some(2),
            _ => None,
        }
    }

    /// Whether it is part of the working.
    pub fn is_working(self) -> bool {
        self.beside().is_some()
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

/// The recipe's name as it stands before its lines in a list: as typed, or as its lines spell it.
pub fn name_in_lists(entry: &RecipeEntry) -> Typed {
    let typed = entry.input.typed(Column::Recipe);
    if typed.is_blank() { Typed::text(entry.name.as_str()) } else { typed.clone() }
}

/// The recipe's name as it stands before one of its lines in a list.
fn name_before<'a>(line: &'a InputRow, name: &'a Typed) -> &'a Typed {
    let own = line.typed(Column::Recipe);
    if own.is_blank() { name } else { own }
}

/// Whether two cells are the same to a spreadsheet program, which does not tell small letters from capitals.
fn is_same(a: &Typed, b: &Typed) -> bool {
    match (&a.value, &b.value) {
        (Value::Text(a), Value::Text(b)) => a.to_lowercase() == b.to_lowercase(),
        (a, b) => a == b,
    }
}

/// Whether a blank label stays on a card beside figures, to be filled: what follows it does so live.
fn stays(label: Label, is_sold: bool) -> bool {
    match label {
        Label::QFactor | Label::SpiceFactor | Label::ServingLoss => true,
        // These make a dish, or say something of one.
        Label::MenuPrice | Label::Target => is_sold,
        _ => false,
    }
}

/// So many rows below a list are looked at for lines that were added.
const ROOM_BELOW: u32 = 30;

/// The last row below a list, which ends with the row `last`, in which a line that was added is looked for.
pub fn below(last: u32) -> u32 {
    last.saturating_add(ROOM_BELOW)
}

impl RecipeLayout {
    /// A recipe on a card of its own; `is_sold` says whether it is on the menu.
    pub fn card(entry: &RecipeEntry, sheet: String, beside: Beside, is_sold: bool) -> Self {
        let lines: Vec<&InputRow> = typed_lines(entry).collect();
        let filled = |label: Label| label == Label::Recipe || !entry.input.typed(label.column()).is_blank();
        let has = |label: Label| filled(label) || (beside == Beside::Figures && stays(label, is_sold));
        let labels: Vec<Label> = Label::ALL.iter().copied().filter(|label| has(*label)).collect();
        // A blank row, then the line header.
        let first_line = count(labels.len()).saturating_add(2);
        let kind = TableKind::CardLines;
        let own = beside.columns(kind, || lines.iter().any(|line| is_doubtful(kind, line, None)));
        let mut table = TableLayout::new(kind, &lines, own);
        column_width::to_a_card(&table.slots, table.last_printed(), &mut table.shapes);
        RecipeLayout {
            facts: Facts::Card(labels, totals_of(entry)),
            sheet: sheet.into(),
            first_line,
            slots: table.slots.into(),
            shapes: table.shapes.into(),
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
        let (sheet, slots, shapes) = (Arc::clone(sheet), Arc::clone(slots), Arc::from([]));
        RecipeLayout { facts, sheet, first_line, slots, shapes, lines }
    }

    /// Whether it has a card of its own.
    pub fn is_card(&self) -> bool {
        matches!(self.facts, Facts::Card(..))
    }

    /// The sheet of its lines.
    pub fn sheet(&self) -> &str {
        &self.sheet
    }

    /// The sheet of its labels and totals.
    pub fn facts_sheet(&self) -> &str {
        match &self.facts {
            Facts::Card(..) => &self.sheet,
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
            Facts::Card(labels, _) => labels,
            Facts::Row(..) => &[],
        }
    }

    /// Where a reader is led who asks for the recipe.
    pub fn home(&self) -> Ref {
        match &self.facts {
            Facts::Card(..) => Ref::new(Arc::clone(&self.sheet), 0, 0),
            Facts::Row(table, index) => Ref::new(Arc::clone(&table.sheet), table.row(*index), 0),
        }
    }

    /// The zero-based row of a line.
    pub fn line_row(&self, index: usize) -> u32 {
        self.first_line.saturating_add(count(index))
    }

    /// The cell of a label's value.
    pub fn label(&self, label: Label) -> Option<Ref> {
        match &self.facts {
            Facts::Card(labels, _) => {
                let row = labels.iter().position(|known| *known == label)?;
                Some(Ref::new(Arc::clone(&self.sheet), count(row), 1))
            }
            Facts::Row(table, index) => table.input(*index, label.column()),
        }
    }

    /// The cell of a total.
    pub fn total(&self, total: Total) -> Ref {
        match &self.facts {
            Facts::Card(_, totals) => {
                let first = self.totals_row();
                if let Some(row) = total.beside() {
                    return Ref::new(
                        Arc::clone(&self.sheet),
                        first.saturating_add(row),
                        self.own_column("Qty in g, ml, each"),
                    );
                }
                // One that the card is not to have stands behind all others, so that no two ever share a cell.
                let at = totals.iter().position(|known| *known == total);
                let at = at.unwrap_or(MOST_BELOW.saturating_add(total.index()));
                Ref::new(Arc::clone(&self.sheet), first.saturating_add(count(at)), 1)
            }
            Facts::Row(table, index) => table.own(*index, total.label()),
        }
    }

    /// The zero-based row of a card's first total: a blank row stands above it.
    pub fn totals_row(&self) -> u32 {
        self.line_row(self.lines).saturating_add(1)
    }

    /// The zero-based row below a card's totals.
    pub fn below_totals(&self) -> u32 {
        let totals = if let Facts::Card(_, totals) = &self.facts { totals.len() } else { 0 };
        self.totals_row().saturating_add(count(totals))
    }

    /// The shapes of a card's columns.
    pub fn shapes(&self) -> &[ColumnShape] {
        &self.shapes
    }

    /// The cell of an input column of a line, when there is one.
    pub fn input(&self, index: usize, column: Column) -> Option<Ref> {
        let column = self.column(Slot::Input(column))?;
        Some(Ref::new(Arc::clone(&self.sheet), self.line_row(index), column))
    }

    /// The cell of a column of our own in a line.
    pub fn own(&self, index: usize, header: &'static str) -> Ref {
        Ref::new(Arc::clone(&self.sheet), self.line_row(index), self.own_column(header))
    }

    /// A column of our own of its lines.
    pub fn own_column(&self, header: &'static str) -> u16 {
        let column = self.column(Slot::Own(header));
        debug_assert!(column.is_some(), "a card has no column of ours called {header}");
        column.unwrap_or_default()
    }

    /// A column of its lines.
    pub fn column(&self, slot: Slot) -> Option<u16> {
        self.slots.iter().position(|known| *known == slot).and_then(|at| u16::try_from(at).ok())
    }

    /// The columns beside its lines; where nothing is figured, they mean nothing.
    pub fn line_columns(&self) -> LineColumns {
        let typed = |column: Column| self.column(Slot::Input(column));
        let own = |header: &'static str| self.column(Slot::Own(header)).unwrap_or_default();
        LineColumns {
            qty: typed(Column::Qty),
            own_yield: typed(Column::Yield),
            used: typed(Column::Used),
            source: own("Source"),
            figured_in: own("Figured in"),
            basis: own("AP or EP"),
            unit_factor: own("Unit factor"),
            base_qty: own("Qty in g, ml, each"),
            yield_used: own("Yield used"),
            unit_cost: own("Cost per g, ml, each"),
            cost_per_unit: own("Cost per unit"),
            unit_costed: own("Unit costed"),
            line_cost: own("Line cost"),
            share: own("Share of cost"),
        }
    }

    /// The costs of its lines as a formula beside its totals reads them.
    pub fn line_costs(&self) -> String {
        self.of_lines(self.own_column("Line cost"))
    }

    /// Their quantities in base units, likewise.
    pub fn base_quantities(&self) -> String {
        self.of_lines(self.own_column("Qty in g, ml, each"))
    }

    /// The ingredients of its lines, likewise.
    pub fn ingredients(&self) -> String {
        self.of_lines(self.column(Slot::Input(Column::Item)).unwrap_or_default())
    }

    /// A column of its lines: on a card from the header to the first total, so that lines count that are put in at either
    /// end; in a list its own rows, wherever the row goes in which the formula stands.
    fn of_lines(&self, column: u16) -> String {
        let cell = |row| Ref::new(Arc::clone(&self.sheet), row, column);
        match &self.facts {
            Facts::Card(..) => {
                format!("{}:{}", cell(self.first_line.saturating_sub(1)).cell(), cell(self.totals_row()).cell())
            }
            Facts::Row(..) => self.in_list(column, self.first_line, self.line_row(self.lines.saturating_sub(1))),
        }
    }

    fn in_list(&self, column: u16, first: u32, last: u32) -> String {
        let cell = |row| Ref::new(Arc::clone(&self.sheet), row, column);
        format!("{}:{}", cell(first).from(self.facts_sheet()), cell(last).absolute())
    }

    /// The cells that tell the line at `index` from others, with what they say: its ingredient, and in a list its recipe.
    pub fn said(&self, index: usize, entry: &RecipeEntry) -> Vec<(Ref, String)> {
        let Some(line) = typed_lines(entry).nth(index) else { return Vec::new() };
        let name = name_in_lists(entry);
        let cells = [(Column::Item, line.typed(Column::Item)), (Column::Recipe, name_before(line, &name))];
        let said = |(column, typed): (Column, &Typed)| Some((self.input(index, column)?, typed.words()?.to_owned()));
        cells.into_iter().filter_map(said).collect()
    }

    /// Whether figures stand beside its lines, and not what was typed alone.
    pub fn is_figured(&self) -> bool {
        self.slots.contains(&Slot::Own("Line cost"))
    }
}

/// More rows than a card has below its totals.
const MOST_BELOW: usize = 100_000;

/// The totals that a card may have, by what is typed on it: a blank row would else stand for the others.
fn totals_of(entry: &RecipeEntry) -> Vec<Total> {
    let typed = |column: Column| !entry.input.typed(column).is_blank();
    let stated = entry.portions != Field::Blank;
    let portions = stated || (typed(Column::Portion) && entry.makes != Field::Blank);
    let makes = entry.makes != Field::Blank || (typed(Column::Portion) && stated);
    let mut totals = vec![Total::Food, Total::Q, Total::Spice, Total::Batch];
    totals.extend(portions.then_some([Total::Portions, Total::PortionCost]).into_iter().flatten());
    totals.extend(makes.then_some(Total::PerMade));
    totals.push(Total::Uncosted);
    totals
}

fn count(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX)
}
