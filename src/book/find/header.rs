//! Recognising header rows: which stretches of a row carry the signature of which kind of table.

mod invoices;

pub(super) use invoices::quantity_break;

use std::borrow::Cow;

use crate::book::find::headings::Headings;
use crate::book::grid::GridRow;
use crate::in_order::InOrder;
use crate::schema::header::{self, Meaning};
use crate::schema::{Column, HeaderText, Signature, TableKind, Typed, Value};

/// What the header row of a supplier's list must and must not have. Its packs may be known from the book.
const LIST: Signature = Signature {
    all: &[Column::Price],
    any: &[Column::Item, Column::Code],
    none: &[Column::Recipe, Column::Dish, Column::Test],
};

/// Rows with more stretches than this are searched for whole signatures in one stretch or in the row as a whole only.
const MOST_STRETCHES: usize = 24;

/// A filled cell of what may be a header row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct HeaderCell<'g> {
    /// Its zero-based column.
    pub at: u32,
    /// Its text as typed; empty when it is no text.
    pub text: Cow<'g, str>,
    /// How it was read.
    pub read: HeaderText,
    /// What the file's own layout makes of it.
    pub mapped: Mapped,
}

/// What a file's own layout makes of a header.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mapped {
    /// Nothing: it means what it always means.
    No,
    /// It stands over this column of a price list, and means nothing else.
    To(Column),
    /// Another header of the row stands over this column, so it does not.
    Not(Column),
}

impl HeaderCell<'_> {
    /// What it means in a table of `kind`.
    pub fn meaning(&self, kind: TableKind) -> Option<Meaning> {
        let usual = || self.read.meanings().iter().copied().find(|meaning| meaning.kind == kind);
        match self.mapped {
            Mapped::No => usual(),
            Mapped::To(column) => (kind == TableKind::Prices).then_some(Meaning { kind, column, canonical: true }),
            Mapped::Not(column) => usual().filter(|meaning| kind != TableKind::Prices || meaning.column != column),
        }
    }

    /// Whether it says `column` to a kind that must not have it: by a canonical header, or as recipe lines say it.
    pub fn says(&self, column: Column) -> bool {
        match self.mapped {
            Mapped::To(mapped) => mapped == column,
            _ => {
                let says = |m: &Meaning| m.column == column && (m.canonical || m.kind == TableKind::RecipeLines);
                self.read.meanings().iter().any(says)
            }
        }
    }
}

/// A stretch of header cells with the kinds whose signature it carries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct HeaderRow<'g> {
    /// The kinds: one, or several when it is ambiguous.
    pub kinds: Vec<TableKind>,
    /// Its cells in order.
    pub cells: Vec<HeaderCell<'g>>,
}

impl HeaderRow<'_> {
    /// Its first and last column.
    pub fn span(&self) -> (u32, u32) {
        (self.cells.first().map_or(0, |cell| cell.at), self.cells.last().map_or(0, |cell| cell.at))
    }
}

/// The filled cells of `row`, read as headers; `None` when fewer than two are headers of any kind, as every
/// signature needs.
pub(super) fn header_cells<'g>(row: &'g GridRow, headings: &Headings) -> Option<Vec<HeaderCell<'g>>> {
    let is_known = |typed: &Typed| {
        let text = short_text(typed);
        header::is_known(text) || headings.column_of(text).is_some()
    };
    let known = row.cells().iter().filter(|(_, typed)| is_known(typed)).take(2).count();
    if known < 2 {
        return None;
    }
    let mut cells: Vec<HeaderCell<'g>> = row
        .cells()
        .iter()
        .map(|(at, typed)| {
            let text = short_text(typed);
            let mapped = headings.column_of(text).map_or(Mapped::No, Mapped::To);
            HeaderCell { at: *at, text: Cow::Borrowed(text), read: header::read(text), mapped }
        })
        .collect();
    if headings.any() {
        displace(&mut cells);
    }
    invoices::settle_prices(&mut cells);
    Some(cells)
}

/// Takes from the other headers of a row the columns that its mapped ones stand over.
fn displace(cells: &mut [HeaderCell<'_>]) {
    let to = |cell: &HeaderCell<'_>| if let Mapped::To(column) = cell.mapped { Some(column) } else { None };
    let taken: Vec<Column> = cells.iter().filter_map(to).collect();
    for cell in cells.iter_mut().filter(|cell| cell.mapped == Mapped::No) {
        if let Some(meaning) = cell.meaning(TableKind::Prices)
            && taken.contains(&meaning.column)
        {
            cell.mapped = Mapped::Not(meaning.column);
        }
    }
}

/// A cell's text when it is short enough for a header; empty otherwise.
pub(super) fn short_text(typed: &Typed) -> &str {
    const LONGEST: usize = 80;
    match &typed.value {
        Value::Text(text) if text.len() <= LONGEST => text,
        _ => "",
    }
}

/// The header rows in `row`, from left to right: usually none or one, several where tables stand side by side.
/// Lines of cards are looked for only when `in_card`. `open` are the first and last columns of the tables that go on
/// into this row: one that no header stands under keeps its cells.
pub(super) fn header_rows<'g>(
    row: &'g GridRow,
    in_card: bool,
    open: &[(u32, u32)],
    headings: &Headings,
) -> Vec<HeaderRow<'g>> {
    let Some(cells) = header_cells(row, headings) else { return Vec::new() };
    rows_of(cells, in_card, open, headings)
}

/// The header rows among the cells of one row of a sheet, or of two that are one heading.
fn rows_of<'g>(
    cells: Vec<HeaderCell<'g>>,
    in_card: bool,
    open: &[(u32, u32)],
    headings: &Headings,
) -> Vec<HeaderRow<'g>> {
    let kinds_of = |cells: &[&HeaderCell<'g>]| kinds_of(cells, in_card, headings.is_list());
    let stretches: Vec<&[HeaderCell<'g>]> = cells.chunk_by(|a, b| a.at.checked_add(1) == Some(b.at)).collect();
    let mut used = vec![false; stretches.len()];
    let mut found: Vec<HeaderRow<'g>> = Vec::new();
    for length in 1..=stretches.len() {
        if stretches.len() > MOST_STRETCHES && length > 1 && length < stretches.len() {
            continue;
        }
        for (first, window) in stretches.windows(length).enumerate() {
            let Some(uses) = used.get_mut(first..first + length) else { continue };
            if uses.contains(&true) {
                continue;
            }
            let cells: Vec<&HeaderCell<'g>> = window.iter().copied().flatten().collect();
            let kinds = kinds_of(&cells);
            if !kinds.is_empty() {
                uses.fill(true);
                found.push(HeaderRow { kinds, cells: cells.into_iter().cloned().collect() });
            }
        }
    }
    found.put_in_order_by_key(HeaderRow::span);
    let mut found: Vec<GrowingHeader<'g>> = found.into_iter().map(GrowingHeader::of).collect();
    for (stretch, used) in stretches.iter().zip(used) {
        if !used {
            attach(stretch, &mut found, kinds_of, open);
        }
    }
    found.into_iter().map(GrowingHeader::grown).collect()
}

/// A header row to which stretches without a signature of their own are added.
struct GrowingHeader<'g> {
    row: HeaderRow<'g>,
    /// Its first and last column.
    span: (u32, u32),
    /// A cell for everything that its cells say: what says the same again changes no signature.
    said: Vec<HeaderCell<'g>>,
}

impl<'g> GrowingHeader<'g> {
    fn of(row: HeaderRow<'g>) -> Self {
        let mut said = Vec::new();
        note(&mut said, &row.cells);
        GrowingHeader { span: row.span(), said, row }
    }

    /// Adds a stretch, unless it would spoil the signature.
    fn add(&mut self, stretch: &[HeaderCell<'g>], kinds_of: impl Fn(&[&HeaderCell<'g>]) -> Vec<TableKind>) {
        let before = self.said.len();
        note(&mut self.said, stretch);
        if self.said.len() > before && kinds_of(&self.said.iter().collect::<Vec<_>>()) != self.row.kinds {
            self.said.truncate(before);
            return;
        }
        self.row.cells.extend_from_slice(stretch);
        let (first, last) = (stretch.first().map(|cell| cell.at), stretch.last().map(|cell| cell.at));
        self.span.0 = self.span.0.min(first.unwrap_or(self.span.0));
        self.span.1 = self.span.1.max(last.unwrap_or(self.span.1));
    }

    /// Adds a stretch by which it becomes the header of one other kind, as a menu whose Dish stands before an empty column:
    /// where every header of both is known to that kind. Gives whether it did.
    fn becomes(&mut self, stretch: &[HeaderCell<'g>], kinds_of: impl Fn(&[&HeaderCell<'g>]) -> Vec<TableKind>) -> bool {
        let before = self.said.len();
        note(&mut self.said, stretch);
        let other = if self.said.len() > before { kinds_of(&self.said.iter().collect::<Vec<_>>()) } else { Vec::new() };
        self.said.truncate(before);
        let [kind] = other.as_slice() else { return false };
        let was = &self.row.kinds;
        if was.contains(kind) || was.contains(&TableKind::CardLines) {
            return false;
        }
        let was_known = |cell: &&HeaderCell<'g>| was.iter().any(|kind| cell.meaning(*kind).is_some());
        let cells = self.row.cells.iter().filter(was_known).chain(stretch);
        if !cells.into_iter().all(|cell| cell.meaning(*kind).is_some()) {
            return false;
        }
        self.row.kinds = other;
        self.add(stretch, kinds_of);
        true
    }

    fn grown(mut self) -> HeaderRow<'g> {
        self.row.cells.put_in_order_by_key(|cell| cell.at);
        self.row
    }
}

/// Adds to `said` the cells that say something to any kind of table which is not said already.
fn note<'g>(said: &mut Vec<HeaderCell<'g>>, cells: &[HeaderCell<'g>]) {
    for cell in cells {
        let says_nothing = cell.read.meanings().is_empty() && cell.mapped == Mapped::No;
        let again = |other: &HeaderCell<'_>| other.read.key == cell.read.key && other.mapped == cell.mapped;
        if !says_nothing && !said.iter().any(again) {
            said.push(cell.clone());
        }
    }
}

/// Gives a stretch without a signature of its own to the header row beside it that it makes another table of, else to the
/// nearest to its left, else to its right, unless it belongs to a table going on there or would spoil the signature.
fn attach<'g>(
    stretch: &[HeaderCell<'g>],
    found: &mut [GrowingHeader<'g>],
    kinds_of: impl Fn(&[&HeaderCell<'g>]) -> Vec<TableKind>,
    open: &[(u32, u32)],
) {
    let Some(start) = stretch.first().map(|cell| cell.at) else { return };
    // Both stand from left to right, and none shares a column with another.
    let over = open.get(open.partition_point(|span| span.1 < start)).filter(|span| span.0 <= start);
    let goes_on = |span: &(u32, u32)| {
        let header = found.get(found.partition_point(|header| header.span.1 < span.0));
        header.is_none_or(|header| header.span.0 > span.1)
    };
    if over.is_some_and(goes_on) {
        return;
    }
    let right = found.partition_point(|header| header.span.1 < start);
    let beside = found.get_mut(right.saturating_sub(1)..=right.min(found.len().saturating_sub(1)));
    if beside.into_iter().flatten().any(|header| header.becomes(stretch, &kinds_of)) {
        return;
    }
    if let Some(header) = found.get_mut(right.saturating_sub(1)) {
        header.add(stretch, kinds_of);
    }
}

/// The kinds whose signature `cells` carry. On a supplier's list, what has a price and an item or code is prices.
fn kinds_of(cells: &[&HeaderCell<'_>], in_card: bool, of_list: bool) -> Vec<TableKind> {
    let has = |column| {
        cells.iter().any(|cell| cell.meaning(TableKind::Prices).is_some_and(|meaning| meaning.column == column))
    };
    if of_list && LIST.fits(has, |column| cells.iter().any(|cell| cell.says(column))) {
        return vec![TableKind::Prices];
    }
    let mut kinds: Vec<TableKind> = TableKind::ALL
        .iter()
        .copied()
        .filter(|kind| in_card || *kind != TableKind::CardLines)
        .filter(|kind| {
            let has = |column| cells.iter().any(|cell| cell.meaning(*kind).is_some_and(|m| m.column == column));
            kind.signature().fits(has, |column| cells.iter().any(|cell| cell.says(column)))
        })
        .collect();
    let is_invoice = invoices::is_invoice(cells);
    if kinds.contains(&TableKind::Prices) && !is_invoice.unwrap_or(true) {
        kinds.retain(|kind| *kind != TableKind::Prices);
    }
    if kinds.contains(&TableKind::Prices) && kinds.contains(&TableKind::CardLines) {
        // The lines of a card may have what they cost beside them; a pack only stands beside a price.
        let prices = has(Column::Pack) || has(Column::Per);
        kinds.retain(|kind| *kind != if prices { TableKind::CardLines } else { TableKind::Prices });
    }
    kinds
}

/// The header that `row` and the row below it make together, where that says more than `row` alone: headings over two
/// rows, the upper of which may stand over several of the lower.
pub(super) fn joined<'g>(
    row: &'g GridRow,
    next: &'g GridRow,
    open: &[(u32, u32)],
    headings: &Headings,
) -> Option<HeaderRow<'g>> {
    let cells = invoices::joined_cells(row, next)?;
    let known = |cells: &[HeaderCell<'_>]| {
        let mut columns: Vec<Column> =
            cells.iter().filter_map(|cell| cell.meaning(TableKind::Prices)).map(|meaning| meaning.column).collect();
        columns.put_in_order();
        columns.dedup();
        columns.len()
    };
    if known(&cells) <= header_cells(row, headings).map_or(0, |cells| known(&cells)) {
        return None;
    }
    let mut rows = rows_of(cells, false, open, headings);
    rows.pop().filter(|found| rows.is_empty() && found.kinds == [TableKind::Prices])
}
