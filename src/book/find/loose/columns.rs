//! Columns of a loose card: by its line header where it has one, else by what stands in them.

use std::cell::RefCell;
use std::collections::{BTreeMap, HashMap};

use super::starts::CardArea;
use super::text;
use crate::book::grid::{Grid, GridRow};
use crate::measure::ingredient::NO_QUANTITY;
use crate::measure::{AmountText, Conventions, Unit, Volumes, parse_parts};
use crate::number::text::vulgar;
use crate::number::{Marks, PercentText, parse_percent};
use crate::schema::header::{normal, read as read_heading};
use crate::schema::{Column, Shown, TableKind, Typed, Value};

/// What stands in a column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum ColumnRole {
    /// What it is, or a whole line.
    Item,
    /// How much; with the unit that its heading names.
    Amount(Option<String>),
    /// How much in another measure, for lines that have no first.
    Second,
    /// In what unit.
    Unit,
    /// What is done to it.
    Prep,
    /// How the recipe is made.
    Method,
    /// Something else, under this heading.
    Told(String),
}

/// The columns of a card.
#[derive(Debug, Clone)]
pub(super) struct CardColumns {
    /// What each filled column holds.
    pub roles: BTreeMap<u32, ColumnRole>,
    /// The row of the line header.
    pub header: Option<u32>,
    /// Whether a line is one text.
    pub whole_lines: bool,
}

/// Headings as kitchens write them, in normal form; more than the strict tables know. Common practice, no source.
const AMOUNTS: &[&str] = &["qty", "quantity", "amount", "amt", "howmuch", "quant"];
const ITEMS: &[&str] =
    &["item", "items", "ingredient", "ingredients", "product", "products", "what", "description", "name"];
const UNITS: &[&str] = &["unit", "units", "uom", "measure", "um"];
const PREPS: &[&str] = &["prep", "preparation", "cut", "prepnotes"];
const METHODS: &[&str] = &["method", "directions", "procedure", "instructions", "steps", "preparationmethod"];

/// What a heading says.
fn role_of(heading: &str) -> Option<ColumnRole> {
    let key = normal(heading);
    let has = |words: &[&str]| words.contains(&key.as_str());
    let roles = [
        (AMOUNTS, ColumnRole::Amount(None)),
        (ITEMS, ColumnRole::Item),
        (UNITS, ColumnRole::Unit),
        (PREPS, ColumnRole::Prep),
        (METHODS, ColumnRole::Method),
    ];
    roles.into_iter().find(|(words, _)| has(words)).map(|(_, role)| role)
}

/// A heading that is a unit of weight or volume: the column holds numbers of it.
fn unit_heading(heading: &str) -> Option<Unit> {
    Unit::parse(heading).filter(|unit| !unit.is_count_like())
}

/// A heading that a table of prices has and the lines of a recipe have not.
fn is_of_prices(heading: &str) -> bool {
    let heading = read_heading(heading);
    let of = |kinds: &[TableKind]| heading.meanings().iter().any(|meaning| kinds.contains(&meaning.kind));
    let is_shared = heading
        .meanings()
        .iter()
        .any(|meaning| matches!(meaning.column, Column::SizeUnit | Column::Note | Column::Group));
    of(&[TableKind::Prices]) && !is_shared && !of(&[TableKind::CardLines, TableKind::RecipeLines])
}

/// A heading of a second measure, or of a baker's percentage.
fn is_second(heading: &str) -> bool {
    ["us", "metric", "imperial", "volume", "weight"].contains(&normal(heading).as_str()) || heading.trim() == "%"
}

/// The last columns of a row whose headings say what, how much, and that prices stand below.
#[derive(Debug, Clone, Copy, Default)]
struct LastHeadings {
    what: Option<u32>,
    much: Option<u32>,
    of_prices: Option<u32>,
}

/// Line headers of a sheet, each row of which is looked through once.
#[derive(Debug)]
pub(super) struct LineHeaders<'g> {
    grid: &'g Grid,
    known: RefCell<HashMap<u32, LastHeadings>>,
}

impl<'g> LineHeaders<'g> {
    /// Those of a sheet.
    pub fn of(grid: &'g Grid) -> Self {
        LineHeaders { grid, known: RefCell::default() }
    }

    /// Whether a row, from `column` on, is a line header: what and how much.
    pub fn are_at(&self, row: u32, column: u32) -> bool {
        let last = *self.known.borrow_mut().entry(row).or_insert_with(|| self.last_of(row));
        let from = |at: Option<u32>| at.is_some_and(|at| at >= column);
        // An order, a count or a price list has an item and a quantity too.
        from(last.what) && from(last.much) && !from(last.of_prices)
    }

    fn last_of(&self, row: u32) -> LastHeadings {
        let mut last = LastHeadings::default();
        let cells = self.grid.rows_within(row, row.saturating_add(1)).iter().flat_map(GridRow::cells);
        for (at, heading) in cells.filter_map(|(at, typed)| Some((*at, text(typed)?))) {
            if is_of_prices(heading) {
                last.of_prices = Some(at);
            }
            match role_of(heading) {
                Some(ColumnRole::Item) => last.what = Some(at),
                Some(ColumnRole::Amount(_)) => last.much = Some(at),
                _ => {}
            }
        }
        last
    }
}

/// The columns of the card in `block` whose rows begin at `body`.
pub(super) fn of<'g>(grid: &'g Grid, block: &CardArea, body: u32) -> CardColumns {
    let rows = grid.rows_within(body, block.end);
    let in_block = |row: &'g GridRow| row.cells_within((block.first, block.last)).iter();
    let header = rows.iter().take(3).find(|row| {
        let cells = row.cells_within((block.first, block.last));
        let is_short =
            |text: &str| text.len() <= 24 && !text.starts_with(|c: char| c.is_ascii_digit() || vulgar(c).is_some());
        let all_short = cells.iter().all(|(_, typed)| text(typed).is_some_and(is_short));
        let named = cells.iter().filter(|(_, typed)| text(typed).is_some_and(|text| role_of(text).is_some())).count();
        // A heading `g` beside `US` and `%` heads a column; beside a food it is the unit of a line.
        let all_measures = cells
            .iter()
            .all(|(_, typed)| text(typed).is_some_and(|text| unit_heading(text).is_some() || is_second(text)));
        cells.len() >= 2 && all_short && (named >= 2 || all_measures)
    });
    let mut columns: BTreeMap<u32, Vec<&Typed>> = BTreeMap::new();
    for row in rows.iter().filter(|row| Some(row.row) != header.map(|header| header.row)) {
        for (at, typed) in in_block(row) {
            columns.entry(*at).or_default().push(typed);
        }
    }
    match header {
        Some(header) => {
            let headings: BTreeMap<u32, &str> =
                in_block(header).filter_map(|(at, typed)| Some((*at, text(typed)?))).collect();
            CardColumns { roles: by_headings(&headings, &columns), header: Some(header.row), whole_lines: false }
        }
        None => by_content(&columns),
    }
}

/// By headings; a column without one is what its place and cells say.
fn by_headings(headings: &BTreeMap<u32, &str>, columns: &BTreeMap<u32, Vec<&Typed>>) -> BTreeMap<u32, ColumnRole> {
    let mut roles: BTreeMap<u32, ColumnRole> = BTreeMap::new();
    let mut has_amount = false;
    for (at, heading) in headings {
        let role = match (role_of(heading), unit_heading(heading)) {
            (Some(ColumnRole::Amount(_)), _) if has_amount => ColumnRole::Second,
            (Some(role), _) => role,
            (None, Some(unit)) if !has_amount => ColumnRole::Amount(Some(unit.name())),
            (None, _) if is_second(heading) && !heading.contains('%') => ColumnRole::Second,
            (None, _) => ColumnRole::Told((*heading).to_owned()),
        };
        has_amount |= matches!(role, ColumnRole::Amount(_));
        roles.insert(*at, role);
    }
    for (at, cells) in columns {
        if roles.contains_key(at) {
            continue;
        }
        let has = |role: &ColumnRole| roles.values().any(|known| known == role);
        let role = if !has(&ColumnRole::Item) && cells.iter().any(|typed| text(typed).is_some()) {
            ColumnRole::Item
        } else if !has(&ColumnRole::Unit) && mostly(cells, is_unit) {
            ColumnRole::Unit
        } else {
            ColumnRole::Told(String::new())
        };
        roles.insert(*at, role);
    }
    roles
}

/// By what stands in them: the columns side by side from the first on hold the lines, what stands apart is
/// something else.
fn by_content(columns: &BTreeMap<u32, Vec<&Typed>>) -> CardColumns {
    let mut roles = BTreeMap::new();
    let mut run: Vec<(u32, &Vec<&Typed>)> = Vec::new();
    for (at, cells) in columns {
        let joins = run.last().is_none_or(|(last, _)| last.checked_add(1) == Some(*at));
        if joins && roles.is_empty() {
            run.push((*at, cells));
        } else {
            let role = if mostly(cells, is_sentence) { ColumnRole::Method } else { ColumnRole::Told(String::new()) };
            roles.insert(*at, role);
        }
    }
    let (order, whole_lines): (Vec<ColumnRole>, bool) = match run.as_slice() {
        [] | [_] => (vec![ColumnRole::Item], true),
        [(_, first), (_, second), rest @ ..] => {
            let unit_next = rest.first().is_some_and(|(_, third)| mostly(third, is_unit));
            if mostly(first, is_number) && mostly(second, is_unit) {
                (vec![ColumnRole::Amount(None), ColumnRole::Unit, ColumnRole::Item, ColumnRole::Prep], false)
            } else if mostly(first, is_amount) {
                (vec![ColumnRole::Amount(None), ColumnRole::Item, ColumnRole::Prep], false)
            } else if mostly(second, is_amount) && unit_next {
                (vec![ColumnRole::Item, ColumnRole::Amount(None), ColumnRole::Unit, ColumnRole::Prep], false)
            } else if mostly(second, is_amount) {
                (vec![ColumnRole::Item, ColumnRole::Amount(None), ColumnRole::Prep], false)
            } else {
                (vec![ColumnRole::Item, ColumnRole::Prep], true)
            }
        }
    };
    for (index, (at, _)) in run.iter().enumerate() {
        roles.insert(*at, order.get(index).cloned().unwrap_or_else(|| ColumnRole::Told(String::new())));
    }
    CardColumns { roles, header: None, whole_lines }
}

/// Whether most of the cells are so.
fn mostly(cells: &[&Typed], is: fn(&Typed) -> bool) -> bool {
    let fit = cells.iter().filter(|typed| is(typed)).count();
    fit.saturating_mul(2) >= cells.len() && fit > 0
}

/// A bare number.
fn is_number(typed: &Typed) -> bool {
    match &typed.value {
        Value::Number(_) => typed.shown != Shown::Date,
        Value::Text(text) => matches!(amount_of(text), AmountText::Bare(_)),
        _ => false,
    }
}

/// A number or a date that was one, an amount with its unit, a percentage, words that measure nothing, and nothing else.
fn is_amount(typed: &Typed) -> bool {
    match &typed.value {
        Value::Number(_) | Value::Date(_) => true,
        Value::Text(text) => {
            let is_percentage = matches!(parse_percent(text, Marks::Unknown), Ok(PercentText::Fraction(_)));
            let is_said = is_percentage || !matches!(amount_of(text), AmountText::Unsaid) && is_short_amount(text);
            is_said && text.len() <= 40
        }
        _ => false,
    }
}

/// Whether an amount begins the text.
fn is_short_amount(text: &str) -> bool {
    let line = read(text);
    line.question.as_deref() != Some(NO_QUANTITY)
}

fn read(text: &str) -> crate::measure::IngredientText {
    parse_parts(text, "", Conventions { marks: Marks::Unknown, volumes: Volumes::Us })
}

fn amount_of(text: &str) -> AmountText {
    let line = read(text);
    if line.name.is_empty() { line.amount } else { AmountText::Unsaid }
}

fn is_unit(typed: &Typed) -> bool {
    text(typed).is_some_and(|text| Unit::parse(text).is_some())
}

fn is_sentence(typed: &Typed) -> bool {
    text(typed).is_some_and(|text| text.ends_with(['.', ',']) || text.split(' ').count() >= 3)
}
