//! Start of a loose card: a name alone with what it makes right below, or with a line header; and where it ends.

use std::collections::BTreeMap;

use super::columns::LineHeaders;
use super::{PlacedText, stated, text};
use crate::book::grid::{Grid, GridRow};
use crate::measure::{Conventions, Volumes, parse_yield};
use crate::number::Marks;
use crate::problem::CellRef;
use crate::schema::row_names::is_total;
use crate::schema::{Typed, header};

/// Where a card begins.
#[derive(Debug, Clone)]
pub(super) struct Start {
    /// Its first cell.
    pub cell: CellRef,
    /// Its name, unless only the sheet names it.
    pub name: Option<PlacedText>,
    /// What it makes.
    pub makes: Option<PlacedText>,
    /// The first row below its name and yield.
    pub body: u32,
}

/// The cells that a card may fill.
#[derive(Debug, Clone, Copy)]
pub(super) struct CardArea {
    /// Its first column.
    pub first: u32,
    /// Its last column.
    pub last: u32,
    /// The row below its last.
    pub end: u32,
}

/// Numbers are read for their shape alone here.
const SHAPE: Conventions = Conventions { marks: Marks::Unknown, volumes: Volumes::Us };

/// Every start with a name in these rows of a sheet, in order of rows, then columns.
fn named<'g>(grid: &'g Grid, rows: &'g [GridRow]) -> impl Iterator<Item = Start> {
    let headers = LineHeaders::of(grid);
    let cells = rows.iter().flat_map(alone_in_row);
    cells
        .filter(|(cell, typed)| text(typed).is_some() && stands_free(grid, *cell) && text(typed).is_some_and(is_title))
        .filter_map(move |(cell, _)| below(grid, &headers, cell))
}

/// The cells of a row beside which nothing stands: told first, because most cells of a sheet have a neighbour.
fn alone_in_row(row: &GridRow) -> impl Iterator<Item = (CellRef, &Typed)> {
    let cells = row.cells();
    cells.iter().enumerate().filter_map(move |(index, (at, typed))| {
        let before = index.checked_sub(1).and_then(|before| cells.get(before)).map(|(at, _)| *at);
        let after = cells.get(index.saturating_add(1)).map(|(at, _)| *at);
        let is_alone = before.is_none_or(|before| before.saturating_add(1) < *at)
            && after.is_none_or(|after| at.saturating_add(2) < after);
        is_alone.then(|| (CellRef::new(row.row, *at), typed))
    })
}

/// The starts that words say what they make below.
pub(super) fn certain(grid: &Grid) -> impl Iterator<Item = Start> {
    let is_stated = |makes: &PlacedText| parse_yield(&makes.text, SHAPE).is_some_and(|said| said.is_stated);
    named(grid, grid.rows()).filter(move |start| start.makes.as_ref().is_some_and(is_stated))
}

/// Every start in the rows from `first` up to but without `end`.
pub(super) fn within(grid: &Grid, first: u32, end: u32) -> Vec<Start> {
    let mut starts: Vec<Start> = named(grid, grid.rows_within(first, end)).collect();
    if starts.is_empty() && first == 0 {
        starts.extend(named_by_sheet(grid));
    }
    starts
}

/// The blocks of `starts`: each up to the next start below it and the next to its right.
pub(super) fn blocks_of(starts: &[Start], grid: &Grid) -> Vec<CardArea> {
    let mut columns: BTreeMap<u32, Vec<u32>> = BTreeMap::new();
    for start in starts {
        columns.entry(start.cell.column).or_default().push(start.cell.row);
    }
    let bottom = grid.rows().last().map_or(0, |row| row.row.saturating_add(1));
    let block = |start: &Start| {
        let (row, first) = (start.cell.row, start.cell.column);
        let right = columns.range(first.saturating_add(1)..).next();
        let last = right.map_or(u32::MAX, |(column, _)| column.saturating_sub(1));
        // No start stands in a column between, so the next below it stands in its own.
        let rows = columns.get(&first).map(Vec::as_slice).unwrap_or_default();
        let below = rows.get(rows.partition_point(|other| *other <= row)).copied();
        CardArea { first, last, end: below.unwrap_or(bottom) }
    };
    starts.iter().map(block).collect()
}

/// Whether a text may be the name of a recipe.
fn is_title(text: &str) -> bool {
    text.len() <= 80
        && text.chars().any(char::is_alphabetic)
        && !text.starts_with(|c: char| c.is_ascii_digit())
        && !text.ends_with([':', '.', ';'])
        && !is_total(text)
        && !header::is_known(text)
        && parse_yield(text, SHAPE).is_none()
}

/// Whether nothing stands above a cell, nor above the two cells to its right.
fn stands_free(grid: &Grid, cell: CellRef) -> bool {
    let blank = |above: u32| (0..=2).all(|by| grid.get(above, cell.column.saturating_add(by)).is_blank());
    cell.row.checked_sub(1).is_none_or(blank)
}

/// What it makes, in the row of `cell` from its column on, alone: `Serves 12`; `yield`, `3 qt`; `about 5 #` one
/// cell to the right.
fn makes_at(grid: &Grid, cell: CellRef) -> Option<PlacedText> {
    let beside = CellRef::new(cell.row, cell.column.saturating_add(1));
    let (here, next) = (grid.get(cell.row, cell.column), grid.get(beside.row, beside.column));
    let third_is_blank = grid.get(cell.row, cell.column.saturating_add(2)).is_blank();
    let is_yield = |text: &str| parse_yield(text, SHAPE).is_some();
    match (text(here), next.is_blank()) {
        (Some(said), true) if is_yield(said) => Some(stated(grid, cell)),
        (None, false) if here.is_blank() && third_is_blank && is_yield(&next.seen()) => Some(stated(grid, beside)),
        (Some(label), false) if third_is_blank => {
            let both = format!("{label} {}", next.seen());
            let stated_yield = parse_yield(&both, SHAPE).filter(|said| said.is_stated);
            stated_yield.map(|_| PlacedText { text: both, place: grid.place_of(beside) })
        }
        _ => None,
    }
}

/// A card whose name stands in `cell`.
fn below(grid: &Grid, headers: &LineHeaders<'_>, cell: CellRef) -> Option<Start> {
    let next = cell.row.checked_add(1)?;
    let name = Some(stated(grid, cell));
    if let Some(makes) = makes_at(grid, CellRef::new(next, cell.column)) {
        return Some(Start { cell, name, makes: Some(makes), body: next.checked_add(1)? });
    }
    let header = [next, next.checked_add(1)?].into_iter().find(|row| headers.are_at(*row, cell.column))?;
    // Between a name and a header two rows below, nothing stands.
    let is_near = header == next || grid.get(next, cell.column).is_blank();
    is_near.then_some(Start { cell, name, makes: None, body: header })
}

/// A card that begins a sheet without a name of its own.
fn named_by_sheet(grid: &Grid) -> Option<Start> {
    let first = grid.rows().first()?;
    let cell = CellRef::new(first.row, first.cells().first()?.0);
    if first.cells().len() <= 2
        && let Some(makes) = makes_at(grid, cell)
    {
        return Some(Start { cell, name: None, makes: Some(makes), body: cell.row.checked_add(1)? });
    }
    LineHeaders::of(grid).are_at(cell.row, cell.column).then_some(Start {
        cell,
        name: None,
        makes: None,
        body: cell.row,
    })
}
