//! Layout of the costed workbook, where everything stands: fixed before the first row is made, so that rows can stream.
//!
//! Holds sheet names and row numbers only; a cell's address is computed from them when a formula names it.

pub(crate) mod column_width;
pub(crate) mod compared;
pub(crate) mod dish_cells;
pub(crate) mod effective_settings;
pub(crate) mod inputs;
pub(crate) mod own_columns;
pub mod problem_places;
pub(crate) mod recipe;
pub(crate) mod sheet_names;
pub(crate) mod summary_columns;
pub(crate) mod working_columns;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::kitchen::recipe::RecipeEntry;
use crate::kitchen::{InputRow, Kitchen, RecipeId};
use crate::measure::currency;
use crate::schema::{CarriedSheet, Column, TableKind, as_written, output};
use crate::workbook::cells::formula::{self, Key, KeyText, Ref};
use column_width::ColumnShape;
use own_columns::{Beside, is_doubtful};
use recipe::{RecipeLayout, name_in_lists, typed_lines};
use sheet_names::SheetNames;

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
    pub sheet: Arc<str>,
    /// Its columns, from the first of the sheet on.
    pub slots: Vec<Slot>,
    /// Their shapes, beside them.
    pub shapes: Vec<ColumnShape>,
    /// Whether room for what may be typed is shown, too: not in long lists, which would grow by it.
    pub roomy: bool,
    /// How many rows it has.
    pub rows: usize,
    /// The column of the keys of its rows, and the letter with which they begin; `None` where rows have none.
    key: Option<(u16, char)>,
}

/// Columns on which no figure beside them hangs.
const NO_FIGURE: &[Column] =
    &[Column::Allergens, Column::MayContain, Column::Group, Column::Note, Column::Sold, Column::Keeps, Column::Eaten];

/// The most rows of a table that shows its blank cells.
const MOST_ROOMY: usize = 2_000;

impl TableLayout {
    /// The layout of a table: the columns that it must have or that are filled, then `own`.
    pub fn new(kind: TableKind, rows: &[&InputRow], own: Vec<&'static str>) -> Self {
        let mut used: Vec<Column> = Vec::new();
        for cell in rows.iter().flat_map(|row| &row.cells) {
            if !cell.typed.is_blank() && !used.contains(&cell.column) {
                used.push(cell.column);
            }
        }
        let must = |column: Column| kind.signature().all.contains(&column) || kind.name_column() == column;
        let mut slots: Vec<Slot> = kind
            .columns()
            .iter()
            .filter(|def| must(def.column) || used.contains(&def.column) || always(kind, def.column))
            .map(|def| Slot::Input(def.column))
            .collect();
        let is_long = rows.len() > MOST_ROOMY || matches!(kind, TableKind::RecipeFacts | TableKind::RecipeLines);
        // Nobody types over figures in a list of thousands, of which each seal would be a text of its own.
        slots.extend(own.into_iter().filter(|header| !(is_long && *header == as_written::HEADER)).map(Slot::Own));
        let shapes = column_width::of(kind, &slots, rows);
        let sheet = Arc::from(sheet_names::of_table(kind));
        let key = place_of(&slots, Slot::Own(output::ROW_KEY)).zip(letter(kind));
        TableLayout { kind, sheet, slots, shapes, roomy: rows.len() <= MOST_ROOMY, rows: rows.len(), key }
    }

    /// Its last column that is for paper: those of the working stand behind it.
    pub fn last_printed(&self) -> Option<u16> {
        last_printed(self.kind, &self.slots)
    }

    /// The zero-based sheet row of the table's row at `index`.
    pub fn row(&self, index: usize) -> u32 {
        u32::try_from(index).unwrap_or(u32::MAX).saturating_add(1)
    }

    /// The zero-based column of a slot.
    pub fn column(&self, wanted: Slot) -> Option<u16> {
        place_of(&self.slots, wanted)
    }

    /// The cell of an input column in the row at `index`.
    pub fn input(&self, index: usize, column: Column) -> Option<Ref> {
        let cell = Ref::new(Arc::clone(&self.sheet), self.row(index), self.column(Slot::Input(column))?);
        Some(self.keyed(cell, true))
    }

    /// The cell of a column of our own in the row at `index`.
    pub fn own(&self, index: usize, header: &'static str) -> Ref {
        let column = self.column(Slot::Own(header));
        debug_assert!(column.is_some(), "{} has no column of ours called {header}", self.sheet);
        let column = column.unwrap_or_default();
        let cell = Ref::new(Arc::clone(&self.sheet), self.row(index), column);
        self.keyed(cell, !goes_round(self.kind, header))
    }

    /// That the typed cells of the row at `index` that are filled stand no more where they stood, or under another header.
    pub fn elsewhere(&self, index: usize, row: &InputRow) -> Vec<String> {
        let inputs =
            self.slots.iter().filter_map(|slot| if let Slot::Input(column) = slot { Some(*column) } else { None });
        let filled =
            inputs.filter(|column| self.roomy && !NO_FIGURE.contains(column) && !row.typed(*column).is_blank());
        let typed = filled.filter_map(|column| Some((self.input(index, column)?, self.kind.header(column))));
        typed.flat_map(|(cell, header)| formula::elsewhere(&cell, 0, header)).collect()
    }

    /// All cells of a column, as formulas of a sheet count them: from the header down to rows that may be added below the
    /// table, so that the ends stand whatever is taken out or put in.
    pub fn all(&self, slot: Slot, sheet: &str) -> Option<String> {
        let column = self.column(slot)?;
        let cell = |row| Ref::new(Arc::clone(&self.sheet), row, column);
        let last = recipe::below(self.row(self.rows.saturating_sub(1)));
        Some(format!("{}:{}", cell(0).from(sheet), cell(last).absolute()))
    }

    /// A cell of the table with the key of its row, where rows have any.
    pub fn keyed(&self, cell: Ref, looked_up: bool) -> Ref {
        match self.key {
            Some((column, letter)) => {
                let last = self.row(self.rows.saturating_sub(1));
                cell.keyed(Key { column, last, text: KeyText::Row(letter), looked_up })
            }
            None => cell,
        }
    }
}

/// The zero-based column of a slot.
fn place_of(slots: &[Slot], wanted: Slot) -> Option<u16> {
    slots.iter().position(|slot| *slot == wanted).and_then(|at| u16::try_from(at).ok())
}

/// The letter with which the keys of a table's rows begin.
fn letter(kind: TableKind) -> Option<char> {
    match kind {
        TableKind::Prices => Some('P'),
        TableKind::YieldTests => Some('Y'),
        TableKind::Measures => Some('W'),
        TableKind::Menu => Some('M'),
        TableKind::Plan => Some('S'),
        TableKind::RecipeFacts => Some('R'),
        _ => None,
    }
}

/// Whether a figure of our own may stand on others of its own column: a part on what went in, and that on a part of
/// another test or on a recipe.
fn goes_round(kind: TableKind, header: &str) -> bool {
    match kind {
        TableKind::YieldTests => {
            let of_weights = ["Grams per unit", "Weight in grams", "Weight pooled", "Loss in grams", "Share of weight"];
            let typed = ["Pieces", "Value used", "Key to share by", "Test adds up"];
            !of_weights.contains(&header) && !typed.contains(&header)
        }
        TableKind::RecipeFacts => true,
        _ => false,
    }
}

/// The last of the `slots` of a `kind` table that is for paper.
pub fn last_printed(kind: TableKind, slots: &[Slot]) -> Option<u16> {
    let printed = |slot: &Slot| matches!(slot, Slot::Own(header) if output::is_working(kind, header));
    let working = slots.iter().position(printed).unwrap_or(slots.len());
    working.checked_sub(1).and_then(|at| u16::try_from(at).ok())
}

/// Columns that are written even when nothing stands in them: one of them makes the table known when it is read again.
fn always(kind: TableKind, column: Column) -> bool {
    match kind {
        TableKind::Prices => matches!(column, Column::Pack | Column::Per),
        TableKind::Measures => matches!(column, Column::Weighs | Column::Holds),
        TableKind::Menu => matches!(column, Column::Recipe | Column::Portion | Column::MenuPrice),
        TableKind::YieldTests => matches!(column, Column::Unit | Column::ChargedAs | Column::Value),
        TableKind::CardLines | TableKind::RecipeLines => column == Column::Unit,
        TableKind::RecipeFacts => column == Column::Makes,
        _ => false,
    }
}

/// Which recipes have cards; the others stand in lists.
#[derive(Debug, Clone, Copy)]
pub struct CardsAsked<'a> {
    /// Up to so many recipes all have cards.
    pub up_to: usize,
    /// Of more, those that have cards all the same.
    pub chosen: &'a BTreeSet<RecipeId>,
}

impl CardsAsked<'static> {
    /// Where nobody asked.
    pub const USUAL: Self = CardsAsked { up_to: 200, chosen: &BTreeSet::new() };
}

/// The most rows of a sheet below its header (ECMA-376 part 1, 18.3.1.73, as programs write them).
const MOST_ROWS: usize = 1_048_575;

/// Where everything stands.
#[derive(Debug, Clone)]
pub struct Layout {
    tables: BTreeMap<TableKind, TableLayout>,
    /// The recipes, beside the kitchen's.
    pub recipes: Vec<RecipeLayout>,
    /// The lists that hold the recipes when they are too many for cards.
    pub lists: Option<Lists>,
    /// The sheets of the carried sheets, beside them.
    pub carried: Vec<String>,
    /// The currency's sign, which all cells of money share; empty where no currency is known.
    pub sign: Arc<str>,
}

/// Where many recipes stand: a table of facts, and their lines on as many sheets as they need.
#[derive(Debug, Clone)]
pub struct Lists {
    /// The table of facts, a row a recipe.
    pub facts: Arc<TableLayout>,
    /// The sheets of lines, each with the recipes on it.
    pub sheets: Vec<(TableLayout, std::ops::Range<usize>)>,
}

impl Lists {
    /// The zero-based last row of the lines on a sheet.
    pub fn last_row(&self, recipes: &[RecipeLayout], sheet: &str) -> Option<u32> {
        let (_, those) = self.sheets.iter().find(|(table, _)| *table.sheet == *sheet)?;
        let last = recipes.get(those.clone())?.iter().rev().find(|recipe| !recipe.is_card())?;
        Some(last.line_row(last.lines).saturating_sub(1))
    }
}

impl Layout {
    /// The layout of a kitchen's workbook.
    pub fn of(kitchen: &Kitchen, carried: &[CarriedSheet], beside: Beside, cards: CardsAsked<'_>) -> Self {
        let mut tables = BTreeMap::new();
        for kind in TableKind::ALL.iter().copied() {
            let rows = rows_of(kitchen, kind);
            // Beside figures stand the settings in force.
            if rows.is_empty() || (kind == TableKind::Settings && beside == Beside::Figures) {
                continue;
            }
            let own = beside.columns(kind, || rows.iter().any(|row| is_doubtful(kind, row, None)));
            let mut table = TableLayout::new(kind, &rows, own);
            if kind == TableKind::RecipeLines {
                // Those that name a recipe stand with it.
                table.sheet = Arc::from(sheet_names::LINES_NOT_READ);
            }
            tables.insert(kind, table);
        }
        let mut names = SheetNames::new(beside);
        let entries = &kitchen.entries.recipes;
        let sold: BTreeSet<usize> = kitchen.dishes.iter().filter_map(|dish| Some(dish.recipe?.index())).collect();
        let card = |names: &mut SheetNames, index: usize, entry: &RecipeEntry| {
            RecipeLayout::card(entry, names.card(&entry.name), beside, sold.contains(&index))
        };
        let (recipes, lists) = if entries.len() > cards.up_to {
            let in_lists = |index: usize| !cards.chosen.contains(&RecipeId::new(index));
            let (listed, lists) = listed(entries, beside, in_lists);
            lists.sheets.iter().for_each(|(sheet, _)| names.take(&sheet.sheet));
            (standing(entries, listed, |index, entry| card(&mut names, index, entry)), Some(lists))
        } else {
            let cards = entries.iter().enumerate().map(|(index, entry)| card(&mut names, index, entry));
            (cards.collect(), None)
        };
        let carried = carried.iter().map(|sheet| names.carried(&sheet.name)).collect();
        let sign = currency::sign_of(&kitchen.settings.currency).into();
        Layout { tables, recipes, lists, carried, sign }
    }

    /// The table of a kind, when the book has rows of it.
    pub fn table(&self, kind: TableKind) -> Option<&TableLayout> {
        self.tables.get(&kind)
    }
}

/// The recipes in their order: as listed, or else on a card.
fn standing(
    entries: &[RecipeEntry],
    listed: Vec<Option<RecipeLayout>>,
    mut card: impl FnMut(usize, &RecipeEntry) -> RecipeLayout,
) -> Vec<RecipeLayout> {
    let all = entries.iter().zip(listed).enumerate();
    all.map(|(index, (entry, listed))| listed.unwrap_or_else(|| card(index, entry))).collect()
}

/// Recipes in lists, and `None` for those that are not to stand there. The lines of one recipe never part.
fn listed(all: &[RecipeEntry], beside: Beside, in_lists: impl Fn(usize) -> bool) -> (Vec<Option<RecipeLayout>>, Lists) {
    let entries: Vec<&RecipeEntry> =
        all.iter().enumerate().filter(|(index, _)| in_lists(*index)).map(|(_, entry)| entry).collect();
    let heads: Vec<&InputRow> = entries.iter().map(|entry| &entry.input).collect();
    let own = beside.columns(TableKind::RecipeFacts, || {
        entries.iter().any(|entry| is_doubtful(TableKind::RecipeFacts, &entry.input, Some(&name_in_lists(entry))))
    });
    let facts = Arc::new(TableLayout::new(TableKind::RecipeFacts, &heads, own));
    let rows: Vec<&InputRow> = entries.iter().flat_map(|entry| typed_lines(entry)).collect();
    let own = beside.columns(TableKind::RecipeLines, || {
        let doubtful = |entry: &&RecipeEntry| {
            let name = name_in_lists(entry);
            typed_lines(entry).any(|line| is_doubtful(TableKind::RecipeLines, line, Some(&name)))
        };
        entries.iter().any(doubtful)
    });
    let lines = TableLayout::new(TableKind::RecipeLines, &rows, own);
    let slots: Arc<[Slot]> = lines.slots.clone().into();
    let mut recipes = Vec::with_capacity(all.len());
    let mut sheets: Vec<(TableLayout, std::ops::Range<usize>)> = Vec::new();
    let mut sheet = Arc::clone(&lines.sheet);
    let (mut used, mut first, mut fact) = (0_usize, 0_usize, 0_usize);
    for (index, entry) in all.iter().enumerate() {
        if !in_lists(index) {
            recipes.push(None);
            continue;
        }
        let count = typed_lines(entry).count();
        if used.saturating_add(count) > MOST_ROWS && used > 0 {
            sheets.push((TableLayout { sheet, ..lines.clone() }, first..index));
            sheet = Arc::from(format!("{} {}", lines.sheet, sheets.len().saturating_add(1)));
            (used, first) = (0, index);
        }
        recipes.push(Some(RecipeLayout::listed(&facts, fact, &sheet, &slots, lines.row(used), count)));
        fact = fact.saturating_add(1);
        used = used.saturating_add(count);
    }
    sheets.push((TableLayout { sheet, ..lines }, first..all.len()));
    (recipes, Lists { facts, sheets })
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
        TableKind::Counts => entries.counts.iter().map(|row| &row.input).collect(),
        TableKind::Control => entries.control.iter().map(|row| &row.input).collect(),
        TableKind::Names => entries.names.iter().map(|row| &row.input).collect(),
        TableKind::SupplierLayouts => entries.layouts.iter().map(|row| &row.input).collect(),
        TableKind::Suppliers => entries.suppliers.iter().map(|row| &row.input).collect(),
        TableKind::Settings => entries.settings.iter().map(|row| &row.input).collect(),
        // Recipes are cards; a line that names no recipe has no card to stand on.
        TableKind::RecipeLines | TableKind::RecipeFacts | TableKind::CardLines => Vec::new(),
    };
    rows.extend(entries.unread.iter().filter(|(known, _)| *known == kind).map(|(_, row)| row));
    rows
}
